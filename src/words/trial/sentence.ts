/** What a trial allows to be said, in one plain sentence or two. */
import type { TrialFinding } from "../../trial/finding.ts";
import type { Interval } from "../../trial/itemMeans.ts";
import { isOneGapBest, type PreferenceCurve } from "../../trial/preference.ts";
import type { RankedItem } from "../../trial/ranking.ts";
import type { TrialItem } from "../../trial/trial.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

/** Of a trial opened before two repeats were wholly rated. */
export const TOO_LITTLE = "Too little was rated for any finding.";

/** What the trial found, lengths in the unit asked for. */
export function trialSentence({ said, items }: TrialFinding, unit: LengthUnit): string {
  switch (said.kind) {
    case "undecided":
      return cannotTell(items, unit);
    case "curve":
      return preferredGap(said.curve, unit);
    case "ranking":
      return preferredItem(items, said.ranked, unit);
  }
}

/** A tenth of a mm: no preference is known more finely. */
const DIGITS = { mm: 1, in: 3 } as const;

/** A preferred gap, as finely as any preference is known. */
export const preferenceLength = (mm: number, unit: LengthUnit): string =>
  formatLength(mm, unit, DIGITS[unit]);

/** An interval of gaps, mm, in words; narrower than the digits shown, it is one length. */
export function preferenceSpan([low, high]: Interval, unit: LengthUnit): string {
  const [from, to] = [preferenceLength(low, unit), preferenceLength(high, unit)];
  return from === to ? to : `${from.replace(` ${unit}`, "")}–${to}`;
}

/** A length and its interval, which is not said where it adds nothing: "2.1 mm (1.5–2.8 mm)". */
export function preferenceWithin(mm: number, interval: Interval, unit: LengthUnit): string {
  const [length, span] = [preferenceLength(mm, unit), preferenceSpan(interval, unit)];
  return span === length ? length : `${length} (${span})`;
}

/** What is said of an undecided trial. */
function cannotTell(items: readonly TrialItem[], unit: LengthUnit): string {
  const gaps = items.every(({ gapMm }) => gapMm !== null) ? "gaps " : "";
  const names = items.map(({ name, gapMm }) => (gapMm === null ? name : preferenceLength(gapMm, unit)));
  return `Cannot tell these ${gaps}apart by preference (${names.join(", ")}); choose for other reasons.`;
}

/** What a decided trial of gaps allows to be said. */
function preferredGap(curve: PreferenceCurve, unit: LengthUnit): string {
  const { shape, bestGapMm, intervalMm, points } = curve;
  const length = (mm: number) => preferenceLength(mm, unit);
  const span = preferenceSpan(intervalMm, unit);
  if (shape === "valley")
    return `Tells these gaps apart, but likes both ends better than what lies between: no single gap is best. Rated highest at ${length(bestGapMm)}.`;
  if (!isOneGapBest(curve))
    return `Tells these gaps apart, but which is best stays open: anywhere in ${preferenceSpan([points[0].gapMm, points[points.length - 1].gapMm], unit)}.`;
  const [end, further] = curve.reachesNarrowest
    ? ["narrowest", "narrower"]
    : curve.reachesWidest
      ? ["widest", "wider"]
      : [null, null];
  const within = preferenceWithin(bestGapMm, intervalMm, unit);
  if (end === null) return `Prefers about ${within}.`;
  return shape === "end"
    ? `Prefers the ${end} gap tried, ${within}; the best may be ${further} still.`
    : `Prefers about ${length(bestGapMm)} (${span}, as far as the ${end} gap tried; the best may be ${further} still).`;
}

/**
 * What a decided trial of named items, or of gaps that no parabola fits, allows to be said.
 *
 * @param ranked best first
 */
function preferredItem(items: readonly TrialItem[], ranked: readonly RankedItem[], unit: LengthUnit): string {
  const names = (chosen: readonly RankedItem[]) =>
    chosen.map(({ item }) => {
      const { name, gapMm } = items[item];
      return gapMm === null ? name : preferenceLength(gapMm, unit);
    });
  const rivals = names(ranked.filter(({ ranks }) => ranks[0] === 1));
  const rest = names(ranked.filter(({ ranks }) => ranks[0] > 1));
  const [best] = names(ranked);
  if (rivals.length === 1) return `Prefers ${best}.`;
  if (rest.length === 0) return `Tells these apart, but which is best stays open; ${best} was rated highest.`;
  const among = `${rivals.slice(0, -1).join(", ")} or ${rivals[rivals.length - 1]}`;
  return `Prefers ${among} to ${rest.join(", ")}; ${best} was rated highest.`;
}
