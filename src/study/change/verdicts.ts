/**
 * The trade's rule of thumb beside what the model finds for one instrument between two gaps. The rule is never part of the
 * computation; it only says which way a change would have to go. It holds where the notes together go its way by what a
 * player is assumed to notice, and none noticeably the other way; each change has to be larger than its own doubt. Here is what the air column's peaks alone say, at every step of a hand;
 * what lips and stream say takes longer and is in `feltVerdicts.ts`.
 */
import { isSameGap, type Thresholds } from "../../setup/setup.ts";
import type { ChangeUncertainty, ModeUncertainty, Uncertain } from "../uncertainty/changeUncertainty.ts";
import { isDecided, type Judgement, judge } from "./judgement.ts";
import type { ChangedMode } from "./modeChanges.ts";

export type Finding =
  | "agrees"
  | "disagrees"
  /** Single notes, or one of two tests, go one way and others the other, or nowhere: no overall change. */
  | "mixed"
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
    | "octave"
    | "retuned-pitch"
    | "hold"
    | "high-hold"
    | "bend"
    | "margin"
    | "pressure-drop"
    | "starting-pressure";
  /** The stream it was worked out for; of a pressure drop only. */
  readonly litresPerMinute?: number;
  /** What the changes are numbered by. */
  readonly of: "resonance" | "note" | "whole";
  /** Of everything played that has the quantity, from the reference gap to the chosen one; at least one. */
  readonly changes: readonly Change[];
  /** All of them taken together: their mean. */
  readonly together: Change;
  /** How well they are known: an expanded uncertainty, all lips that were tried, or bounds of the computation. */
  readonly doubt: "expanded" | "tried" | "bounds";
  readonly unit: "dB" | "cents" | "%";
  readonly threshold: number;
  /** Sign the rule asks for; 0 where it says only that something changes. */
  readonly asked: 1 | -1 | 0;
  readonly finding: Finding;
}

/** How many ways the lips are modelled to move. */
export type LipModelName = "one-mass" | "two-way";

/** Least and greatest change over one lip model's parameters. */
export interface ModelRange {
  readonly model: LipModelName;
  readonly range: readonly [low: number, high: number];
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
  /** What modelled lips do, told by the tests alone. */
  | {
      readonly kind: "on-lips";
      /** Change of starting pressures with each lip model by itself, %; where they are what is told. */
      readonly startingByModel?: readonly ModelRange[];
      readonly areLipsOfDrawingOnly?: true;
    }
  /** Only where the shank ends inside counts. */
  | { readonly kind: "geometry" }
  /** What else differs between two instruments is not in one setup. */
  | { readonly kind: "one-instrument" }
  | {
      readonly kind: "lips";
      /** Mean change of hold over the notes, cents, and its range over the lips tried. */
      readonly meanCents: number;
      readonly meanRangeCents: readonly [low: number, high: number];
      /** The same of each lip model by itself. */
      readonly byModel: readonly ModelRange[];
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
      /** Change of starting pressures with each lip model by itself, %. */
      readonly startingByModel: readonly ModelRange[];
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
  readonly claim:
    | "slots"
    | "resistance"
    | "noGap"
    | "tenth"
    | "tooWide"
    | "tooNarrow"
    | "attack"
    | "brightness"
    | "octaves"
    | "shoulder"
    | "sameMake";
  /** By the peaks; null where only lips and stream can say anything. */
  readonly finding: Finding | null;
}

/** Resonances notes are played on: the second to the tenth. */
export const PLAYED = [2, 10] as const;

/** From here on notes are high: above the staff on a trumpet. */
export const HIGH_FROM = 7;

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

/** All claims judged by the peaks. */
export function verdicts(comparison: Comparison): Verdict[] {
  const { referenceGapMm, chosenGapMm } = comparison;
  const isSame = isSameGap(chosenGapMm, referenceGapMm);
  const between = (claim: Verdict["claim"], found: () => Omit<Verdict, "claim">): Verdict => ({
    claim,
    ...(isSame ? SAME_GAP : found()),
  });
  return [
    slots(comparison),
    resistance(comparison),
    noGap(comparison),
    tenth(),
    between("tooWide", notByPeaks),
    between("tooNarrow", notByPeaks),
    between("attack", notByPeaks),
    between("brightness", () => brightness(comparison)),
    between("octaves", () => octaves(comparison)),
    { claim: "shoulder", finding: "disagrees", basis: { kind: "geometry" }, tests: [] },
    { claim: "sameMake", finding: "not-for-a-model", basis: { kind: "one-instrument" }, tests: [] },
  ];
}

const notByPeaks = (): Omit<Verdict, "claim"> => ({
  finding: null,
  basis: { kind: "not-by-peaks" },
  tests: [],
});

/** Above the staff the higher peaks carry what is heard as brilliance: whether they get taller or lower. */
function brightness({ chosen, thresholds, uncertainty }: Comparison): Evidence {
  const high = heights(chosen, uncertainty).filter(({ n }) => n >= HIGH_FROM);
  return evidence(test("peak-height", high, "dB", thresholds.decibels, 0));
}

/** A partial against the one an octave below it. */
function octaves({ chosen, thresholds, uncertainty }: Comparison): Evidence {
  const shifts = changes(
    chosen,
    uncertainty,
    ({ shiftCents }) => shiftCents,
    ({ shiftCents }) => shiftCents,
  );
  const pairs = shifts.flatMap((low): Change[] => {
    const high = shifts.find(({ n }) => n === 2 * low.n);
    if (!high) return [];
    // both shifts' errors at worst against each other
    const expanded = low.expanded === null || high.expanded === null ? null : low.expanded + high.expanded;
    return [{ n: high.n, change: high.change - low.change, expanded }];
  });
  return evidence(test("octave", pairs, "cents", thresholds.cents, 0));
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
  asked: Test["asked"],
): Test[] =>
  changes.length === 0
    ? []
    : [judgedTest({ quantity, of: "resonance", changes, doubt: "expanded", unit, threshold, asked })];

/** A test with what it finds; the mean of its changes as what they do together, where nothing better is known of that. */
export function judgedTest(about: Omit<Test, "finding" | "together"> & { readonly together?: Change }): Test {
  const test = { ...about, together: about.together ?? meanOf(about.changes) };
  return { ...test, finding: findingAt(test) };
}

/** The mean; its doubt is the mean of theirs, as if all erred the same way, so that it is never too small. */
function meanOf(changes: readonly Change[]): Change {
  const mean = (of: (change: Change) => number): number =>
    changes.reduce((sum, one) => sum + of(one), 0) / changes.length;
  const isKnown = changes.every(({ expanded }) => expanded !== null);
  return {
    n: 0,
    change: mean(({ change }) => change),
    expanded: isKnown ? mean(({ expanded }) => expanded!) : null,
    ...(changes.every(({ range }) => range) && {
      range: [mean(({ range }) => range![0]), mean(({ range }) => range![1])] as const,
    }),
  };
}

/** A change of a test as its doubt asks for, held against a multiple of the test's threshold. */
export function judgedIn(
  { doubt, threshold }: Pick<Test, "doubt" | "threshold">,
  { change, expanded, range = [change, change] }: Change,
  factor = 1,
): Judgement {
  if (doubt === "expanded") return judge(change, factor * threshold, { expanded: expanded ?? 0 });
  return judge(change, factor * threshold, doubt === "tried" ? { tried: range } : { bounds: range });
}

/**
 * What a test finds, at a multiple of its threshold. A rule holds where all notes together go its way and none goes the other
 * so that it would be noticed. Single notes that do, or notes that go both ways, are no overall change.
 */
export function findingAt(test: Omit<Test, "finding">, factor = 1): Finding {
  const { changes, together, asked } = test;
  const each = changes.map((change) => judgedIn(test, change, factor));
  const whole = judgedIn(test, together, factor);
  const decided = each.filter(isDecided);
  if (asked === 0 && (isDecided(whole) || 2 * decided.length >= changes.length)) {
    if (decided.length > 0) return "agrees";
  } else if (isDecided(whole)) {
    if (decided.some((one) => one !== whole)) return "mixed";
    return (whole === "more") === asked > 0 ? "agrees" : "disagrees";
  }
  if (decided.length > 0) return "mixed";
  return whole === "unknown" || each.includes("unknown") ? "unknown" : "too-small";
}

/** What the evidence would come to if players noticed changes half as large, and only those twice as large; null without tests. */
export function atOtherThresholds({
  tests,
}: Pick<Evidence, "tests">): { readonly half: Finding; readonly twice: Finding } | null {
  if (tests.length === 0) return null;
  const at = (factor: number) => combined(tests.map((one) => findingAt(one, factor)));
  return { half: at(0.5), twice: at(2) };
}

function evidence(tests: readonly Test[]): Evidence {
  if (tests.length === 0) return { finding: "not-possible", basis: { kind: "no-peaks" }, tests };
  return { finding: combined(tests.map(({ finding }) => finding)), basis: { kind: "peaks" }, tests };
}

/** What several tests come to: what those find that find anything, else that one of them hides it, else too small. */
export function combined(findings: readonly Finding[]): Finding {
  const all = new Set(findings);
  const decided = [...all].filter((finding) => finding !== "too-small" && finding !== "unknown");
  if (decided.length > 0) return decided.length === 1 ? decided[0] : "mixed";
  return all.has("unknown") ? "unknown" : "too-small";
}

/** The smallest and the largest change of a test. */
export function extremes({ changes }: Test): readonly [low: Change, high: Change] {
  const byChange = [...changes].sort((a, b) => a.change - b.change);
  return [byChange[0], byChange[byChange.length - 1]];
}
