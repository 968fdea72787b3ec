/** What a printed sheet tells of, as data: measured, modelled, planned, tried. */
import type { CutPlan } from "../../bench/cut/cut.ts";
import type { CutWay } from "../../bench/cut/cutWay.ts";
import type { Contradiction } from "../../bench/fit/contradiction.ts";
import { writeSetup } from "../../setup/file/writeSetup.ts";
import type { Setup } from "../../setup/setup.ts";
import type { TrialFinding } from "../../trial/finding.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { Evidence, Verdict } from "../change/verdicts.ts";
import type { Felt } from "../feel/felt.ts";
import type { Explored } from "../instrument/exploration.ts";
import type { GapSweep } from "../instrument/gapSweep.ts";
import type { ListenedNote } from "../listened/measuredGaps.ts";
import type { MeasuredOutcome } from "../listened/measuredTrial.ts";
import type { BesideModel } from "../swept/besideModel.ts";
import type { SweptChange } from "../swept/sweptChange.ts";
import { fingerprint } from "./fingerprint.ts";
import type { Recommendation } from "./recommendation.ts";

/** The gap as it is at the bench. */
export interface PresentGap {
  readonly gapMm: number;
  /** U at 95 %, mm; undefined where it is not known. */
  readonly expandedMm: number | undefined;
  /** How many readings of each length; null where the setup alone says what the gap is. */
  readonly readings: { readonly depth: number; readonly insertion: number } | null;
}

export interface SheetRecord {
  readonly unit: LengthUnit;
  readonly setup: Setup;
  readonly version: string;
  readonly present: PresentGap;
  /** The gap that changes are counted from, mm: on a technician's report the one measured. */
  readonly referenceGapMm: number;
  /** The gap they are told to. */
  readonly told: ToldGap;
  readonly recommendation: Recommendation;
  /** What contradicts the gap: the page carries it, whatever else is written there. */
  readonly doubts: readonly Contradiction[];
  /** The model is still at work on what is null below. */
  readonly isWorking: boolean;
  readonly explored: Explored | null;
  readonly retuned: GapSweep | null;
  readonly felt: Felt | null;
  /** From the reference gap to none. */
  readonly closed: Evidence | null;
  /** null where no cut is planned that can be done. */
  readonly plan: CutPlan | null;
  readonly way: CutWay | null;
  /** null where no trial was played, or it is sealed. */
  readonly trial: TrialFinding | null;
  /** What was measured at the turns of that trial; null where nothing was, and nothing was to be. */
  readonly measuredTrial: MeasuredOutcome | null;
  /** What was measured on the player at two gaps or more, note by note. */
  readonly listened: readonly ListenedNote[];
  /** What sweeps of the instrument found, before against after; null where there are none of both. */
  readonly swept: { readonly change: SweptChange; readonly beside: BesideModel } | null;
}

/** Which of a job's gaps a report tells the changes to. */
export interface ToldGap {
  readonly kind: "planned" | "preferred" | "what-if";
  readonly gapMm: number;
}

/** The gap that a report tells the changes to: the one planned, else preferred, else where the slider stands. */
export function toldGap(plannedMm: number | null, trial: TrialFinding | null, whatIfMm: number): ToldGap {
  if (plannedMm !== null) return { kind: "planned", gapMm: plannedMm };
  if (trial?.preferredGapMm != null) return { kind: "preferred", gapMm: trial.preferredGapMm };
  return { kind: "what-if", gapMm: whatIfMm };
}

/** Whether the model finds every change too small to notice, by lips, stream and peaks; null while it is not known. */
export function isTooSmallToNotice(
  record: Pick<SheetRecord, "explored" | "felt" | "closed">,
): boolean | null {
  const findings = (["slots", "resistance"] as const).map((claim) => {
    const { main = null, peaks = null } = claimEvidence(record, claim) ?? {};
    return main && [main.finding, peaks?.finding ?? main.finding];
  });
  if (findings.includes(null)) return null;
  return findings.flat().every((finding) => finding === "too-small" || finding === "same-gap");
}

/** What the record has on a claim: lips and stream where they can say anything, and the peaks alone beside them. */
export interface ClaimEvidence {
  readonly verdict: Verdict;
  /** null while it is not known. */
  readonly main: Evidence | null;
  /** null where `main` is the peaks' own. */
  readonly peaks: Evidence | null;
}

export const CLAIMS = ["slots", "resistance", "noGap"] as const;
export type Claim = (typeof CLAIMS)[number];

/** What the model says of a claim, lips and stream before peaks; null while it is not known. */
export function claimEvidence(
  { explored, felt, closed }: Pick<SheetRecord, "explored" | "felt" | "closed">,
  claim: Claim,
): ClaimEvidence | null {
  const verdict = explored?.verdicts.find((one) => one.claim === claim);
  if (!verdict) return null;
  const { finding, basis, tests } = verdict;
  const own = finding && { finding, basis, tests };
  if (finding === "same-gap" || finding === "not-possible") return { verdict, main: own, peaks: null };
  return { verdict, main: claim === "noGap" ? closed : (felt?.[claim] ?? null), peaks: own };
}

/** Matches a printed sheet to the record it was made from: the instrument, both gaps, how well the present one is known. */
export function recordFingerprint({
  setup,
  present,
  told,
  recommendation,
  referenceGapMm,
}: SheetRecord): string {
  const {
    name: _name,
    about: _about,
    ...file
  } = writeSetup({ ...setup, units: "mm" }) as Record<string, unknown>;
  const text = JSON.stringify([file, present, told, recommendation, referenceGapMm]);
  return fingerprint(text).replace(/(.{4})(?=.)/g, "$1 ");
}
