/** What a printed sheet tells of, as data: measured, modelled, planned, tried. */
import type { CutPlan } from "../../bench/cut/cut.ts";
import type { CutWay } from "../../bench/cut/cutWay.ts";
import type { Setup } from "../../setup/setup.ts";
import { writeSetup } from "../../setup/writeSetup.ts";
import type { TrialFinding } from "../../trial/finding.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { Evidence, Verdict } from "../change/verdicts.ts";
import type { Felt } from "../feel/felt.ts";
import type { Explored } from "../instrument/exploration.ts";
import type { GapSweep } from "../instrument/gapSweep.ts";
import { fingerprint } from "./fingerprint.ts";

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
  /** The gap chosen, which the sheet recommends, and the one it is compared with, mm. */
  readonly recommendedGapMm: number;
  readonly referenceGapMm: number;
  /** The model is still at work on what is null below. */
  readonly isWorking: boolean;
  readonly explored: Explored | null;
  readonly retuned: GapSweep | null;
  readonly felt: Felt | null;
  /** From the reference gap to none. */
  readonly closed: Evidence | null;
  /** Towards the recommended gap; null where no cut is planned, or one to another gap. */
  readonly plan: CutPlan | null;
  readonly way: CutWay | null;
  /** null where no trial was played, or it is sealed. */
  readonly trial: TrialFinding | null;
}

/** Gaps nearer than this are one: finer than any of them is measured, mm. */
export const SAME_MM = 0.005;

/** The gap stays as it is. */
export const isLeftAsItIs = ({ present, recommendedGapMm }: SheetRecord): boolean =>
  Math.abs(recommendedGapMm - present.gapMm) < SAME_MM;

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
export function recordFingerprint({ setup, present, recommendedGapMm, referenceGapMm }: SheetRecord): string {
  const {
    name: _name,
    about: _about,
    ...file
  } = writeSetup({ ...setup, units: "mm" }) as Record<string, unknown>;
  const text = JSON.stringify([file, present, recommendedGapMm, referenceGapMm]);
  return fingerprint(text).replace(/(.{4})(?=.)/g, "$1 ");
}
