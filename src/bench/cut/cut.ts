/** From a measured gap to a target: every way there, with its size, its side effects, its stages; or why there is no plan. */

import type { LengthUnit } from "../../units/length.ts";
import { smallestTaper } from "../fit/fitDimensions.ts";
import { seatTaper } from "../fit/seat.ts";
import { lengthInWords } from "../measure/inWords.ts";
import { beforeAnyCut, heldBackText, seatWearCaution, stagesCaution } from "./cautions.ts";
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
  readonly outcome: "plan" | "nothing to do" | "refused";
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
  /** Why it was refused, or what to know, a sentence each. */
  readonly words: readonly string[];
  readonly cautions: readonly string[];
}

/** Every question has an answer; one that cannot be worked out is refused in words. */
export function planCut(question: CutQuestion): CutPlan {
  const { gapMm, targetMm, coverageFactor = 2, toleranceMm = defaultToleranceMm, receiver } = question;
  const { unit = "mm" } = question;
  const flaw = questionFlaw(question);
  if (flaw) return { ...nothing, outcome: "refused", flaw, unit, words: [`No plan: ${flaw.message}.`] };
  const mm = lengthInWords(unit);
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
      outcome: "nothing to do",
      words: [`The gap is within ${mm(toleranceMm)} of the target already.`],
    };
  if (expandedUncertaintyMm !== undefined && expandedUncertaintyMm > Math.abs(changeMm))
    return {
      ...known,
      outcome: "refused",
      words: [
        `No plan: the gap is known to ±${mm(expandedUncertaintyMm)} only, more than the ${mm(Math.abs(changeMm))} asked for; measure again with more repeat readings or a better tool.`,
      ],
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
    words: [
      ...(expandedUncertaintyMm === undefined
        ? [
            "The gap's uncertainty is not known, so nobody can say that this change is real: measure it with repeat readings before anything that cannot be undone.",
          ]
        : expandedUncertaintyMm > toleranceMm
          ? [
              `The tolerance of ${mm(toleranceMm)} is finer than the gap is known: the work is done at ±${mm(expandedUncertaintyMm)}.`,
            ]
          : []),
      ...(question.shank.taper === undefined
        ? ["The shank's taper is not known; that of the receiver is taken for it."]
        : []),
      ...(receiver.mouthDiameterMm === undefined ? [] : seatWords(work)),
    ],
    cautions: [beforeAnyCut, stagesCaution, ...(t < smallestTaper ? [] : [seatWearCaution(1 / t)])],
  };
}

/** Nothing that cannot be undone is begun on a gap whose uncertainty nobody knows. */
const heldBack = (way: CutWay): CutWay =>
  way.isReversible || !way.isPossible ? way : { ...way, stages: [], heldBack: heldBackText };

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
  inWords: lengthInWords(question.unit ?? "mm"),
});

/** Where the dimensions foresee another gap than the measured one, one of them is wrong. */
function seatWords({
  endDiameterMm,
  mouthDiameterMm,
  shankTaper,
  receiverTaper,
  depthMm,
  gapMm,
  inWords,
}: CutWork): string[] {
  if (endDiameterMm === undefined || mouthDiameterMm === undefined) return [];
  const t = seatTaper(shankTaper, receiverTaper);
  if (t < smallestTaper) return [];
  const foreseenMm = Math.max(0, depthMm - Math.max(0, mouthDiameterMm - endDiameterMm) / t);
  return Math.abs(foreseenMm - gapMm) > 0.25
    ? [
        `The diameters and tapers foresee a gap of ${inWords(foreseenMm)}, not ${inWords(gapMm)}: check them before cutting, since the sizes rest on them.`,
      ]
    : [];
}
