/**
 * What a change of gap does to how hard instruments like this one blow: whole ones are drawn, each in every way that is
 * assumed of the setup by its ordinary spread (JCGM 101:2008). A jet that meets an edge or misses it has a kink, which first
 * order would not see. The range between the gap's bounds is wider by what they spread, and the finding is judged by it.
 */
import { deviation, randomLcg, randomNormal } from "d3";
import { coverageFactor } from "../../bench/measure/coverage.ts";
import { gapMm as ownGapMm, type Setup } from "../../setup/setup.ts";
import { KeptAnswers } from "../keptAnswers.ts";
import { ordinarySpread, type Spread } from "../uncertainty/ordinarySpread.ts";
import { resistance } from "./resistance.ts";
import {
  findingOf,
  type ResistanceChange,
  type ResistanceChangeOptions,
  resistanceChange,
} from "./resistanceChange.ts";

/** They know a standard deviation to a tenth, and take a third of a second. */
const DRAWN = 200;
const SEED = 0.41;

export interface ResistanceChangeLike extends ResistanceChange {
  /** U of the estimate, 95 %, in per cent of the drop, over instruments like this one; null where nothing is assumed. */
  readonly expandedPercent: number | null;
}

const drawn = new KeptAnswers<Setup, readonly Setup[]>(1);
/** The reference gap's drops are asked for with every new gap. */
const drops = new KeptAnswers<Setup, Float64Array>(16);

/** Whole instruments like one setup. */
const drawnLike = (setup: Setup, spreads: readonly Spread[]): readonly Setup[] =>
  drawn.to(setup, [], () => {
    const normal = randomNormal.source(randomLcg(SEED))();
    return Array.from({ length: DRAWN }, () =>
      spreads.reduce((one, { standard, moved }) => moved(one, standard * normal()), setup),
    );
  });

/** @throws as `resistanceChange` */
export function resistanceChangeLike(setup: Setup, options: ResistanceChangeOptions): ResistanceChangeLike {
  const change = resistanceChange(setup, options);
  const spreads = ordinarySpread(setup);
  const { gapMm, referenceGapMm = ownGapMm(setup) } = options;
  if (spreads.length === 0 || change.finding === "same-gap" || change.reference.dropPa.estimate === 0)
    return { ...change, expandedPercent: null };
  const { litresPerMinute } = change.chosen;
  const dropsPa = (atGapMm: number) =>
    drops.to(setup, [atGapMm, litresPerMinute], () =>
      Float64Array.from(
        drawnLike(setup, spreads),
        (one) => resistance(one, { gapMm: atGapMm, litresPerMinute }).dropPa.estimate,
      ),
    );
  const from = dropsPa(referenceGapMm);
  const changes = dropsPa(gapMm).map((drop, i) => 100 * (drop / from[i] - 1));
  const expandedPercent = coverageFactor(Infinity) * deviation(changes)!;
  const [low, high] = change.rangePercent;
  const rangePercent = [low - expandedPercent, high + expandedPercent] as const;
  return {
    ...change,
    rangePercent,
    finding: findingOf(
      gapMm - referenceGapMm,
      change.changePercent.estimate,
      rangePercent,
      change.thresholdPercent,
    ),
    expandedPercent,
  };
}
