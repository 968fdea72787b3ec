/** From a measured gap to a target: every way there, with its size, its side effects, its stages; or why there is no plan. */

import type { LengthUnit } from "../../units/length.ts";
import { type Contradiction, contradiction } from "../fit/contradiction.ts";
import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import type { CutCaution } from "./cautions.ts";
import type { CutFinding } from "./cutFinding.ts";
import {
  type CutFlaw,
  type CutQuestion,
  defaultMinimumWallMm,
  defaultToleranceMm,
  questionFlaw,
} from "./cutQuestion.ts";
import { exchange, moveStop, sleeve } from "./cutReversible.ts";
import { shorten } from "./cutShorten.ts";
import { stagedSteps } from "./cutStages.ts";
import { turnDown } from "./cutTurnDown.ts";
import type { CutWay, CutWork } from "./cutWay.ts";

export interface CutPlan {
  readonly outcome: "plan" | "nothing-to-do" | "refused";
  /** Which part of the question cannot be used, and why; undefined when all can. */
  readonly flaw: CutFlaw | undefined;
  /** Of the lengths in words. */
  readonly unit: LengthUnit;
  readonly gapMm: number | undefined;
  readonly targetMm: number | undefined;
  /** Target less gap, mm: below 0 for less gap. Undefined, as what follows, when the numbers cannot be used. */
  readonly changeMm: number | undefined;
  /** Undefined when the gap's uncertainty is not known. */
  readonly expandedUncertaintyMm: number | undefined;
  /** Between which the work is done, mm: target ± the larger of tolerance and expanded uncertainty, not below 0. */
  readonly limitsMm: readonly [lowMm: number, highMm: number] | undefined;
  /** Gap lost for each mm that the seats wear off the diameters; undefined without a taper. */
  readonly gapPerDiameter: number | undefined;
  /** The ones that can be undone first; empty without a plan. */
  readonly ways: readonly CutWay[];
  /** Why it was refused, or what to know; never empty without a plan. */
  readonly findings: readonly CutFinding[];
  readonly cautions: readonly CutCaution[];
}

/** Every question has an answer; one that cannot be worked out is refused, with what is wrong. */
export function planCut(question: CutQuestion): CutPlan {
  const { gapMm, targetMm, coverageFactor = 2, toleranceMm = defaultToleranceMm, receiver } = question;
  const { unit = "mm" } = question;
  const flaw = questionFlaw(question);
  if (flaw)
    return {
      ...nothing,
      outcome: "refused",
      flaw,
      unit,
      findings: [{ kind: "question-flaw", flaw: flaw.message }],
    };
  const changeMm = targetMm - gapMm;
  const { standardUncertaintyMm } = question;
  const expandedUncertaintyMm =
    standardUncertaintyMm === undefined ? undefined : coverageFactor * standardUncertaintyMm;
  const enoughMm = Math.max(toleranceMm, expandedUncertaintyMm ?? 0);
  const t = seatTaper(question.shank.taper ?? receiver.taper, receiver.taper);
  const known = {
    flaw: undefined,
    unit,
    gapMm,
    targetMm,
    changeMm,
    expandedUncertaintyMm,
    limitsMm: [Math.max(0, targetMm - enoughMm), targetMm + enoughMm] as const,
    gapPerDiameter: t < smallestTaper ? undefined : 1 / t,
    ways: [],
    cautions: [],
  };
  if (Math.abs(changeMm) <= toleranceMm)
    return {
      ...known,
      outcome: "nothing-to-do",
      findings: [{ kind: "within-tolerance", toleranceMm }],
    };
  if (expandedUncertaintyMm !== undefined && expandedUncertaintyMm > Math.abs(changeMm))
    return {
      ...known,
      outcome: "refused",
      findings: [{ kind: "change-below-uncertainty", expandedUncertaintyMm, changeMm }],
    };

  const work = workOf(
    question,
    changeMm,
    stagedSteps(Math.abs(changeMm), expandedUncertaintyMm ?? 0, toleranceMm),
  );
  const ways =
    changeMm < 0
      ? [moveStop(work), exchange(work), turnDown(work)]
      : [moveStop(work), exchange(work), sleeve(work), shorten(work)];
  return {
    ...known,
    outcome: "plan",
    ways: expandedUncertaintyMm === undefined ? ways.map(heldBack) : ways,
    findings: [
      ...(expandedUncertaintyMm === undefined
        ? [{ kind: "unknown-uncertainty" } as const]
        : expandedUncertaintyMm > toleranceMm
          ? [{ kind: "tolerance-below-uncertainty", toleranceMm, expandedUncertaintyMm } as const]
          : []),
      ...(question.shank.taper === undefined ? [{ kind: "receiver-taper-taken" } as const] : []),
      ...doubtOf(question, expandedUncertaintyMm),
    ],
    cautions: ["try-first", "stages", ...(t < smallestTaper ? [] : (["seat-wear"] as const))],
  };
}

/** Nothing that cannot be undone is begun on a gap whose uncertainty nobody knows. */
const heldBack = (way: CutWay): CutWay =>
  way.isReversible || !way.isPossible ? way : { ...way, stages: [], isHeldBack: true };

const nothing = {
  gapMm: undefined,
  targetMm: undefined,
  changeMm: undefined,
  expandedUncertaintyMm: undefined,
  limitsMm: undefined,
  gapPerDiameter: undefined,
  ways: [],
  cautions: [],
} as const;

const workOf = (question: CutQuestion, changeMm: number, stepsMm: readonly number[]): CutWork => ({
  gapMm: question.gapMm,
  changeMm,
  stepsMm,
  minimumWallMm: question.minimumWallMm ?? defaultMinimumWallMm,
  endDiameterMm: question.shank.endDiameterMm,
  mouthDiameterMm: question.receiver.mouthDiameterMm,
  shankTaper: question.shank.taper ?? question.receiver.taper,
  receiverTaper: question.receiver.taper,
  depthMm: question.receiver.depthMm,
  boreMm: question.shank.boreMm,
  stopMmPerMark: question.stopMmPerMark,
});

function doubtOf(
  { gapMm, shank, receiver }: CutQuestion,
  expandedUncertaintyMm: number | undefined,
): Contradiction[] {
  const { endDiameterMm, taper: shankTaper } = shank;
  const { mouthDiameterMm, taper: receiverTaper, depthMm } = receiver;
  const found = contradiction({
    gapMm,
    givenBy: "question",
    depthMm,
    endDiameterMm,
    mouthDiameterMm,
    shankTaper,
    receiverTaper,
    expandedUncertaintyMm,
  });
  return found ? [found] : [];
}
