/** What a leadpipe is to be designed for and within which limits, as typed; or what is wrong with each text. */
import type { DesignQuestion, LikeVariant } from "../../../../workers/compare.ts";
import { exitBoreMm } from "../../../setup/geometry.ts";
import type { Setup } from "../../../setup/setup.ts";
import { parseDesignGoal } from "../../../study/design/designGoal.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { readFields, reading } from "../../form/field.ts";
import { shownGaps } from "../gapLimits.ts";
import { DESIGN_FIELDS, DESIGN_GAP_FIELDS, type DesignNotes, type DesignPart } from "../notes/compare.ts";

export interface DesignReading {
  readonly problems: Readonly<Partial<Record<DesignPart, string>>>;
  /** null while something asked for is missing or wrong. */
  readonly options: DesignQuestion | null;
}

/** A diameter off by this much, to either side of the present bore, is where a search may go: own choice, no source. */
const LEEWAY_MM = 1;

/** What stands for an empty text. */
export function usualLimits(setup: Setup) {
  const { profileMm } = setup.leadpipe;
  const { leastMm, mostMm } = shownGaps(setup);
  const diameters = profileMm.map(([, d]) => d);
  return {
    smallest: Math.max(1, Math.min(...diameters) - LEEWAY_MM),
    largest: Math.max(exitBoreMm(profileMm), ...diameters) + LEEWAY_MM,
    narrowestGap: leastMm,
    widestGap: mostMm,
  };
}

/** @param like what it is to equal instead of the typed goal; null where there is none */
export function readDesign(
  design: DesignNotes,
  setup: Setup,
  unit: LengthUnit,
  like: LikeVariant | null = null,
): DesignReading {
  const usual = usualLimits(setup);
  const { values, problems: ofTexts } = readFields(DESIGN_FIELDS, design, unit);
  const gap = design.movesGap ? readGaps(design, setup, unit) : null;
  const goal = design.like === null && values.goal ? reading(() => parseDesignGoal(design.goal)) : null;
  const problems = { ...ofTexts, ...gap?.problems, ...(goal?.problem && { goal: goal.problem }) };
  const wanted = design.like === null ? goal?.value : like;
  if (!wanted || Object.keys(problems).length > 0) return { problems, options: null };
  const limits = {
    knots: values.knots!,
    holdsEntry: design.holdsEntry,
    holdsEnd: design.holdsEnd,
    smallestMm: values.smallest ?? usual.smallest,
    largestMm: values.largest ?? usual.largest,
    widens: design.widens,
    leastCurvatureRadiusMm: 0,
    gapMm: gap?.limitsMm ?? null,
  };
  return { problems, options: { goal: wanted, limits, restarts: values.starts! } };
}

/** Between which the gap may be chosen. */
function readGaps(design: DesignNotes, setup: Setup, unit: LengthUnit) {
  const usual = usualLimits(setup);
  const { values, problems: ofTexts } = readFields(DESIGN_GAP_FIELDS, design, unit);
  const { narrowestGap = usual.narrowestGap, widestGap = usual.widestGap } = values;
  const problems = { ...ofTexts };
  const said = (mm: number) => formatLength(mm, unit);
  if (narrowestGap < usual.narrowestGap)
    problems.narrowestGap ??= `The shank stops at ${said(usual.narrowestGap)}; give that or more.`;
  if (widestGap > setup.receiver.depthMm)
    problems.widestGap ??= `The receiver is ${said(setup.receiver.depthMm)} deep; give that or less.`;
  if (widestGap <= narrowestGap)
    problems.widestGap ??= `Give more than the narrowest, ${said(narrowestGap)}.`;
  return { problems, limitsMm: [narrowestGap, widestGap] as const };
}
