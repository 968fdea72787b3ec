/**
 * The trade's rule of thumb beside what the model finds for one instrument between two gaps. The rule is never part of the
 * computation; it only says which way a change would have to go. Each resonance that notes are played on is judged by
 * itself, since a rise here and a fall there would cancel in a mean; a change counts where it is as large as a person can
 * feel and larger than its own expanded uncertainty. Here is what the air column's peaks alone say, at every step of a hand;
 * what lips and stream say takes longer and is in `feltVerdicts.ts`.
 *
 * The claims are common practice, no source, in the tool's own words.
 */
import type { Thresholds } from "../../setup/setup.ts";
import type { ChangeUncertainty, ModeUncertainty, Uncertain } from "../uncertainty/changeUncertainty.ts";
import { isDecided, type Judgement, judge } from "./judgement.ts";
import type { ChangedMode } from "./modeChanges.ts";

export type Finding =
  | "agrees"
  | "disagrees"
  /** Some resonances, or one of two tests, go the rule's way and others against it. */
  | "agrees in part"
  | "too small to feel"
  /** What could be felt is lost in the uncertainty of the dimensions. */
  | "not known well enough"
  | "not a question a model can answer"
  | "same gap"
  | "not possible here";

/** What one resonance, one note or the whole does. */
export interface Change {
  /** Of the resonance or note; 0 for the whole. */
  readonly n: number;
  readonly change: number;
  /** U, 95 %; null while it is not known yet. */
  readonly expanded: number | null;
  /** Between what it lies where its doubt is no such U: over lips nobody can measure, or between bounds. */
  readonly range?: readonly [low: number, high: number];
}

/** Between what a change lies, however that is known; null while it is not. */
export const rangeOf = ({ change, expanded, range }: Change): readonly [low: number, high: number] | null =>
  range ?? (expanded ? [change - expanded, change + expanded] : null);

/** One quantity a claim would have to show in. */
export interface Test {
  readonly name: string;
  /** What the changes are numbered by. */
  readonly of: "resonance" | "note" | "whole";
  /** Of everything played that has the quantity, from the reference gap to the chosen one; at least one. */
  readonly changes: readonly Change[];
  readonly unit: "dB" | "cents" | "%";
  readonly threshold: number;
  /** Sign the rule asks for. */
  readonly asked: 1 | -1;
  readonly finding: Finding;
}

/** A finding, what the model says in a sentence or two with its numbers, and the tests it comes from. */
export interface Evidence {
  readonly finding: Finding;
  readonly model: string;
  readonly tests: readonly Test[];
}

export interface Verdict extends Omit<Evidence, "finding"> {
  readonly claim: "slots" | "resistance" | "noGap" | "tenth";
  /** The rule in the tool's own words: common practice, no source. */
  readonly rule: string;
  /** By the peaks; null where only lips and stream can say anything. */
  readonly finding: Finding | null;
  /** What this verdict leaves out. */
  readonly missing: string | null;
}

/** Resonances notes are played on: the second to the tenth. */
export const PLAYED = [2, 10] as const;

export interface Comparison {
  readonly referenceGapMm: number;
  readonly chosenGapMm: number;
  /** From the reference gap to the chosen one. */
  readonly chosen: readonly ChangedMode[];
  /** From the reference gap to none at all, whatever is chosen; null where the receiver cannot close it. */
  readonly closed: readonly ChangedMode[] | null;
  readonly thresholds: Thresholds;
  /** Of either; null while not known yet. */
  readonly uncertainty: ChangeUncertainty | null;
  readonly closedUncertainty: ChangeUncertainty | null;
}

/** All four claims judged by the peaks. */
export function verdicts(comparison: Comparison): Verdict[] {
  return [slots(comparison), resistance(comparison), noGap(comparison), tenth()];
}

/** Nothing to compare. */
export const SAME_GAP: Evidence = { finding: "same gap", model: "Choose another gap to compare.", tests: [] };

/** Nothing there to compare with. */
export const NEVER_CLOSES: Evidence = {
  finding: "not possible here",
  model: "This receiver stops the shank before it reaches the leadpipe.",
  tests: [],
};

/** Wider: taller peaks, further apart. */
function slots({ referenceGapMm, chosenGapMm, chosen, thresholds, uncertainty }: Comparison): Verdict {
  const about = {
    claim: "slots",
    rule: "A wider gap makes notes hold more firmly in their slots.",
    missing:
      "Lips are modelled as one mass and looked at as a note begins; the gap's own uncertainty is not in the ranges.",
  } as const;
  if (chosenGapMm === referenceGapMm) return { ...about, ...SAME_GAP };
  const asked = chosenGapMm > referenceGapMm ? 1 : -1;
  const tests = [
    ...test("peak height", heights(chosen, uncertainty), "dB", thresholds.decibels, asked),
    ...test("spacing of neighbours", spacings(chosen, uncertainty), "cents", thresholds.cents, asked),
  ];
  return { ...about, ...evidence(tests) };
}

/** No peak says how hard an instrument blows. */
function resistance({ referenceGapMm, chosenGapMm }: Comparison): Verdict {
  const about = {
    claim: "resistance",
    rule: "A wider gap blows with more resistance.",
    missing:
      "A steady stream through even edges; when a note sounds, the lips' opening takes most of the pressure.",
  } as const;
  if (chosenGapMm === referenceGapMm) return { ...about, ...SAME_GAP };
  return { ...about, finding: null, model: "", tests: [] };
}

/** A larger bore has lower peaks: closing the gap would have to lower them. */
function noGap({ referenceGapMm, closed, thresholds, closedUncertainty }: Comparison): Verdict {
  const about = {
    claim: "noGap",
    rule: "No gap at all blows freer, as if the bore were larger.",
    missing: null,
  } as const;
  if (closed === null) return { ...about, ...NEVER_CLOSES };
  if (referenceGapMm === 0) return { ...about, ...SAME_GAP, model: "The reference has no gap." };
  const tests = test(
    "peak height without a gap",
    heights(closed, closedUncertainty),
    "dB",
    thresholds.decibels,
    -1,
  );
  return { ...about, ...evidence(tests) };
}

const tenth = (): Verdict => ({
  claim: "tenth",
  rule: "About a tenth of an inch suits most players.",
  finding: "not a question a model can answer",
  model: "What suits a player is found by playing, best blind.",
  tests: [],
  missing: null,
});

/** Whether notes are played on a resonance. */
export const isPlayed = ({ n }: { readonly n: number }): boolean => n >= PLAYED[0] && n <= PLAYED[1];

/** Change of every played resonance that has one. */
const changes = (
  modes: readonly ChangedMode[],
  uncertainty: ChangeUncertainty | null,
  change: (mode: ChangedMode) => number | null,
  known: (mode: ModeUncertainty) => Uncertain | null,
): Change[] =>
  modes.filter(isPlayed).flatMap((mode) => {
    const value = change(mode);
    if (value === null) return [];
    const itsUncertainty = uncertainty?.modes.find(({ n }) => n === mode.n);
    return [
      { n: mode.n, change: value, expanded: (itsUncertainty && known(itsUncertainty)?.expanded) ?? null },
    ];
  });

const heights = (modes: readonly ChangedMode[], uncertainty: ChangeUncertainty | null): Change[] =>
  changes(
    modes,
    uncertainty,
    ({ heightDb }) => heightDb,
    ({ heightDb }) => heightDb,
  );

const spacings = (modes: readonly ChangedMode[], uncertainty: ChangeUncertainty | null): Change[] =>
  changes(
    modes,
    uncertainty,
    ({ spacingChangeCents }) => spacingChangeCents,
    ({ spacingCents }) => spacingCents,
  );

/** None where no resonance has the quantity. */
const test = (
  name: string,
  changes: readonly Change[],
  unit: "dB" | "cents",
  threshold: number,
  asked: 1 | -1,
): Test[] =>
  changes.length === 0
    ? []
    : [
        {
          name,
          of: "resonance",
          changes,
          unit,
          threshold,
          asked,
          finding: findingOf(changes, threshold, asked),
        },
      ];

/** A change held against a threshold, by its expanded uncertainty; one that is not known yet does not count. */
export const judged = ({ change, expanded }: Change, threshold: number): Judgement =>
  judge(change, threshold, { expanded: expanded ?? 0 });

/** What a judged change means to a rule that asks for more or for less. */
export const findingFor = (judgement: Judgement, asked: 1 | -1): Finding =>
  judgement === "unknown"
    ? "not known well enough"
    : judgement === "too-small"
      ? "too small to feel"
      : (judgement === "more") === asked > 0
        ? "agrees"
        : "disagrees";

/** What a test finds: changes large enough to feel and known to be there, for or against what the rule asks. */
export const findingOf = (changes: readonly Change[], threshold: number, asked: 1 | -1): Finding =>
  combined(changes.map((change) => findingFor(judged(change, threshold), asked)));

function evidence(tests: readonly Test[]): Evidence {
  if (tests.length === 0)
    return {
      finding: "not possible here",
      model: "None of the resonances that notes are played on has a peak.",
      tests,
    };
  return { finding: combined(tests.map(({ finding }) => finding)), model: sentence(tests), tests };
}

/** What several findings come to: those that decide anything, else that one of them hides it, else too small. */
export function combined(findings: readonly Finding[]): Finding {
  const all = new Set(findings);
  const decided = [...all].filter(
    (finding) => finding !== "too small to feel" && finding !== "not known well enough",
  );
  if (decided.length > 0) return decided.length === 1 ? decided[0] : "agrees in part";
  return all.has("not known well enough") ? "not known well enough" : "too small to feel";
}

/** The smallest and the largest change of a test. */
export function extremes({ changes }: Test): readonly [low: Change, high: Change] {
  const byChange = [...changes].sort((a, b) => a.change - b.change);
  return [byChange[0], byChange[byChange.length - 1]];
}

function sentence(tests: readonly Test[]): string {
  const parts = tests.map((one) => {
    const { name, changes, unit, threshold } = one;
    const digits = unit === "dB" ? 2 : 1;
    const [low, high] = extremes(one).map(({ change }) => signed(change, digits));
    const expanded = Math.max(...changes.map((change) => change.expanded ?? 0));
    const known = expanded > 0 ? `known to ±${expanded.toPrecision(1)}, ` : "";
    const felt = changes.filter((change) => isDecided(judged(change, threshold))).map(({ n }) => n);
    const where = felt.length > 0 ? `, on resonance${felt.length > 1 ? "s" : ""} ${felt.join(", ")}` : "";
    return `${name} ${low === high ? low : `${low} to ${high}`} ${unit} (${known}felt from ${threshold} ${unit}${where})`;
  });
  const text = `${parts.join("; ")}.`;
  return text[0].toUpperCase() + text.slice(1);
}

/** With its sign; what rounds to nothing has none. */
export function signed(value: number, digits: number): string {
  const amount = Math.abs(value).toFixed(digits);
  return `${Number(amount) === 0 ? "" : value > 0 ? "+" : "−"}${amount}`;
}
