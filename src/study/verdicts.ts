/**
 * The trade's rule of thumb beside what the model finds for one instrument between two gaps. The rule is never part of the
 * computation; it only says which way a change would have to go. A finding is "agrees" or "disagrees" only where the change
 * is larger than the threshold a person can feel; what needs a part that is not built yet says so.
 *
 * The claims are common practice, no source, in the tool's own words.
 */
import type { Thresholds } from "../setup/setup.ts";
import type { ModeInContext } from "./modeTable.ts";
import { decibels } from "./pitch.ts";

export type Finding =
  | "agrees"
  | "disagrees"
  | "too small to feel"
  | "not modelled yet"
  | "not a question a model can answer"
  | "same gap"
  | "not possible here";

/** One quantity a claim would have to show in. */
export interface Test {
  readonly name: string;
  /** Mean change over the played resonances, from the reference gap to the chosen one. */
  readonly change: number;
  /** Smallest and largest change of any played resonance. */
  readonly range: readonly [low: number, high: number];
  readonly unit: "dB" | "cents";
  readonly threshold: number;
  /** Sign the rule asks for. */
  readonly asked: 1 | -1;
  readonly finding: Finding;
}

export interface Verdict {
  readonly claim: "slots" | "resistance" | "noGap" | "tenth";
  /** The rule in the tool's own words: common practice, no source. */
  readonly rule: string;
  readonly finding: Finding;
  /** What the model says, one sentence with its number. */
  readonly model: string;
  readonly tests: readonly Test[];
  /** What this verdict leaves out. */
  readonly missing: string | null;
}

/** Resonances notes are played on: the second to the tenth. */
export const PLAYED = [2, 10] as const;

export interface Comparison {
  readonly referenceGapMm: number;
  readonly chosenGapMm: number;
  readonly reference: readonly ModeInContext[];
  readonly chosen: readonly ModeInContext[];
  /** At no gap at all, whatever is chosen; null where the receiver cannot close it. */
  readonly closed: readonly ModeInContext[] | null;
  readonly thresholds: Thresholds;
}

export function verdicts(comparison: Comparison): Verdict[] {
  return [slots(comparison), resistance(), noGap(comparison), tenth()];
}

/** Wider: taller peaks, further apart. */
function slots({ referenceGapMm, chosenGapMm, reference, chosen, thresholds }: Comparison): Verdict {
  const rule = "A wider gap makes notes hold more firmly in their slots.";
  const missing =
    "Hold and pull of a note need the lips, which are not modelled yet; peaks are only part of a slot.";
  if (chosenGapMm === referenceGapMm)
    return {
      claim: "slots",
      rule,
      finding: "same gap",
      model: "Choose another gap to compare.",
      tests: [],
      missing,
    };
  const asked = chosenGapMm > referenceGapMm ? 1 : -1;
  const tests = [
    test("peak height", heights(chosen, reference), "dB", thresholds.decibels, asked),
    test("spacing of neighbours", spacings(chosen, reference), "cents", thresholds.cents, asked),
  ];
  return { claim: "slots", rule, finding: overall(tests), model: sentence(tests), tests, missing };
}

const resistance = (): Verdict => ({
  claim: "resistance",
  rule: "A wider gap blows with more resistance.",
  finding: "not modelled yet",
  model: "Resistance is a pressure drop over a flow; neither the stream nor the lips are modelled yet.",
  tests: [],
  missing: null,
});

/** A larger bore has lower peaks: closing the gap would have to lower them. */
function noGap({ referenceGapMm, reference, closed, thresholds }: Comparison): Verdict {
  const rule = "No gap at all blows freer, as if the bore were larger.";
  const missing =
    "“Freer” is a matter of flow, which is not modelled yet; lower peaks are what a larger bore would show.";
  if (closed === null)
    return {
      claim: "noGap",
      rule,
      finding: "not possible here",
      model: "This receiver stops the shank before it reaches the leadpipe.",
      tests: [],
      missing,
    };
  if (referenceGapMm === 0)
    return {
      claim: "noGap",
      rule,
      finding: "same gap",
      model: "The reference has no gap.",
      tests: [],
      missing,
    };
  const tests = [
    test("peak height without a gap", heights(closed, reference), "dB", thresholds.decibels, -1),
  ];
  return { claim: "noGap", rule, finding: overall(tests), model: sentence(tests), tests, missing };
}

const tenth = (): Verdict => ({
  claim: "tenth",
  rule: "About a tenth of an inch suits most players.",
  finding: "not a question a model can answer",
  model: "What suits a player is found by playing, best blind.",
  tests: [],
  missing: null,
});

const isPlayed = ({ n }: ModeInContext): boolean => n >= PLAYED[0] && n <= PLAYED[1];

/** Change of every played resonance that both have, where `change` gives one. */
function changes(
  chosen: readonly ModeInContext[],
  reference: readonly ModeInContext[],
  change: (to: ModeInContext, from: ModeInContext) => number | null,
): number[] {
  return reference
    .filter(isPlayed)
    .map((from) => {
      const to = chosen.find(({ n }) => n === from.n);
      return to ? change(to, from) : null;
    })
    .filter((value) => value !== null);
}

const heights = (chosen: readonly ModeInContext[], reference: readonly ModeInContext[]): number[] =>
  changes(chosen, reference, (to, from) =>
    to.peakImpedance === null || from.peakImpedance === null
      ? null
      : decibels(to.peakImpedance, from.peakImpedance),
  );

const spacings = (chosen: readonly ModeInContext[], reference: readonly ModeInContext[]): number[] =>
  changes(chosen, reference, (to, from) =>
    to.spacingCents === null || from.spacingCents === null ? null : to.spacingCents - from.spacingCents,
  );

function test(
  name: string,
  values: readonly number[],
  unit: "dB" | "cents",
  threshold: number,
  asked: 1 | -1,
): Test {
  if (values.length === 0)
    return { name, change: 0, range: [0, 0], unit, threshold, asked, finding: "too small to feel" };
  const change = values.reduce((sum, value) => sum + value, 0) / values.length;
  const finding: Finding =
    Math.abs(change) < threshold ? "too small to feel" : change * asked > 0 ? "agrees" : "disagrees";
  return { name, change, range: [Math.min(...values), Math.max(...values)], unit, threshold, asked, finding };
}

/** The test that goes furthest past its threshold decides; none past it is too small to feel. */
function overall(tests: readonly Test[]): Finding {
  const strength = ({ change, threshold }: Test) => Math.abs(change) / threshold;
  return tests.reduce((best, other) => (strength(other) > strength(best) ? other : best)).finding;
}

function sentence(tests: readonly Test[]): string {
  const parts = tests.map(({ name, change, unit, threshold }) => {
    const amount = Math.abs(change).toFixed(unit === "dB" ? 2 : 1);
    // what rounds to nothing has no sign
    const sign = Number(amount) === 0 ? "" : change > 0 ? "+" : "−";
    const size = `${sign}${amount} ${unit}`;
    return `${name} ${size} (felt from ${threshold} ${unit})`;
  });
  const text = `${parts.join("; ")}.`;
  return text[0].toUpperCase() + text.slice(1);
}
