/**
 * The trade's rule of thumb beside what the model finds for one instrument between two gaps. The rule is never part of the
 * computation; it only says which way a change would have to go. Each resonance that notes are played on is judged by
 * itself, since a rise here and a fall there would cancel in a mean; a change counts where it is as large as a person can
 * feel and larger than its own expanded uncertainty. Here is what the air column's peaks alone say, at every step of a hand;
 * what lips and stream say takes longer and is in `feltVerdicts.ts`.
 */
import { isSameGap, type Thresholds } from "../../setup/setup.ts";
import type { ChangeUncertainty, ModeUncertainty, Uncertain } from "../uncertainty/changeUncertainty.ts";
import { isDecided, type Judgement, judge } from "./judgement.ts";
import type { ChangedMode } from "./modeChanges.ts";

export type Finding =
  | "agrees"
  | "disagrees"
  /** Some resonances, or one of two tests, go the rule's way and others against it. */
  | "agrees-in-part"
  | "too-small"
  /** What could be felt is lost in the uncertainty of the dimensions. */
  | "unknown"
  | "not-for-a-model"
  | "same-gap"
  | "not-possible";

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
  readonly quantity:
    | "peak-height"
    | "spacing"
    | "closed-peak-height"
    | "hold"
    | "pressure-drop"
    | "starting-pressure";
  /** The stream it was worked out for; of a pressure drop only. */
  readonly litresPerMinute?: number;
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

/** What a finding rests on, with the numbers that are told beside its tests. */
export type Basis =
  | { readonly kind: "same-gap" }
  | { readonly kind: "reference-without-gap" }
  /** The receiver stops the shank before the leadpipe. */
  | { readonly kind: "never-closes" }
  | { readonly kind: "no-peaks" }
  | { readonly kind: "no-notes" }
  /** Lips and stream are asked apart from the peaks. */
  | { readonly kind: "not-by-peaks" }
  | { readonly kind: "playing" }
  | { readonly kind: "peaks" }
  | {
      readonly kind: "lips";
      /** Mean change of hold over the notes, cents, and its range over the lips tried. */
      readonly meanCents: number;
      readonly meanRangeCents: readonly [low: number, high: number];
      /** Notes that hold firmer, or looser, by what can be felt. */
      readonly firmer: readonly number[];
      readonly looser: readonly number[];
      /** Changes of pull and margin over the notes; null where no note has one. */
      readonly pull: readonly [low: number, high: number] | null;
      readonly margin: readonly [low: number, high: number] | null;
      readonly areLipsOfDrawingOnly?: true;
    }
  | {
      readonly kind: "stream-and-lips";
      /** Change of every diameter of the leadpipe, mm, that does as much; null where none does, left out where not asked. */
      readonly equivalentBoreMm?: number | null;
      /** Something is assumed of the setup, and what lips do was not tried on instruments like it. */
      readonly areLipsOfDrawingOnly?: true;
    };

/** A finding, what it rests on, and the tests it comes from. */
export interface Evidence {
  readonly finding: Finding;
  readonly basis: Basis;
  readonly tests: readonly Test[];
}

export interface Verdict extends Omit<Evidence, "finding"> {
  readonly claim: "slots" | "resistance" | "noGap" | "tenth";
  /** By the peaks; null where only lips and stream can say anything. */
  readonly finding: Finding | null;
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
export const SAME_GAP: Evidence = { finding: "same-gap", basis: { kind: "same-gap" }, tests: [] };

/** Nothing there to compare with. */
export const NEVER_CLOSES: Evidence = {
  finding: "not-possible",
  basis: { kind: "never-closes" },
  tests: [],
};

/** Wider: taller peaks, further apart. */
function slots({ referenceGapMm, chosenGapMm, chosen, thresholds, uncertainty }: Comparison): Verdict {
  const claim = "slots";
  if (isSameGap(chosenGapMm, referenceGapMm)) return { claim, ...SAME_GAP };
  const asked = chosenGapMm > referenceGapMm ? 1 : -1;
  const tests = [
    ...test("peak-height", heights(chosen, uncertainty), "dB", thresholds.decibels, asked),
    ...test("spacing", spacings(chosen, uncertainty), "cents", thresholds.cents, asked),
  ];
  return { claim, ...evidence(tests) };
}

/** No peak says how hard an instrument blows. */
function resistance({ referenceGapMm, chosenGapMm }: Comparison): Verdict {
  const claim = "resistance";
  if (isSameGap(chosenGapMm, referenceGapMm)) return { claim, ...SAME_GAP };
  return { claim, finding: null, basis: { kind: "not-by-peaks" }, tests: [] };
}

/** A larger bore has lower peaks: closing the gap would have to lower them. */
function noGap({ referenceGapMm, closed, thresholds, closedUncertainty }: Comparison): Verdict {
  const claim = "noGap";
  if (closed === null) return { claim, ...NEVER_CLOSES };
  if (isSameGap(referenceGapMm, 0)) return { claim, ...SAME_GAP, basis: { kind: "reference-without-gap" } };
  const tests = test("closed-peak-height", heights(closed, closedUncertainty), "dB", thresholds.decibels, -1);
  return { claim, ...evidence(tests) };
}

const tenth = (): Verdict => ({
  claim: "tenth",
  finding: "not-for-a-model",
  basis: { kind: "playing" },
  tests: [],
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
  quantity: Test["quantity"],
  changes: readonly Change[],
  unit: "dB" | "cents",
  threshold: number,
  asked: 1 | -1,
): Test[] =>
  changes.length === 0
    ? []
    : [
        {
          quantity,
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
  !isDecided(judgement) ? judgement : (judgement === "more") === asked > 0 ? "agrees" : "disagrees";

/** What a test finds: changes large enough to feel and known to be there, for or against what the rule asks. */
export const findingOf = (changes: readonly Change[], threshold: number, asked: 1 | -1): Finding =>
  combined(changes.map((change) => findingFor(judged(change, threshold), asked)));

function evidence(tests: readonly Test[]): Evidence {
  if (tests.length === 0) return { finding: "not-possible", basis: { kind: "no-peaks" }, tests };
  return { finding: combined(tests.map(({ finding }) => finding)), basis: { kind: "peaks" }, tests };
}

/** What several findings come to: those that decide anything, else that one of them hides it, else too small. */
export function combined(findings: readonly Finding[]): Finding {
  const all = new Set(findings);
  const decided = [...all].filter((finding) => finding !== "too-small" && finding !== "unknown");
  if (decided.length > 0) return decided.length === 1 ? decided[0] : "agrees-in-part";
  return all.has("unknown") ? "unknown" : "too-small";
}

/** The smallest and the largest change of a test. */
export function extremes({ changes }: Test): readonly [low: Change, high: Change] {
  const byChange = [...changes].sort((a, b) => a.change - b.change);
  return [byChange[0], byChange[byChange.length - 1]];
}
