/** From a measured gap to a target: every way there, with its size, its side effects, its stages; or why there is no plan. */

import { cavityDiameterMm, exitBoreMm, profileFlaws } from "../setup/geometry.ts";
import type { ProfileMm } from "../setup/setup.ts";
import { formatLength } from "../units/formatLength.ts";
import { beforeAnyCut, seatWearCaution, stagesCaution } from "./cautions.ts";
import { exchange, moveStop, sleeve } from "./cutReversible.ts";
import { shorten } from "./cutShorten.ts";
import { stagedSteps } from "./cutStages.ts";
import { turnDown } from "./cutTurnDown.ts";
import type { CutWay, CutWork } from "./cutWay.ts";
import { smallestTaper } from "./fitDimensions.ts";
import { seatTaper } from "./seat.ts";

export interface CutQuestion {
  /** The gap as it is, mm, and its standard uncertainty where it is known. */
  readonly gapMm: number;
  readonly standardUncertaintyMm?: number;
  /** The factor from standard to expanded uncertainty. */
  readonly coverageFactor?: number;
  readonly targetMm: number;
  /** How near the target is near enough, mm. */
  readonly toleranceMm?: number;
  /** What must be left of the shank's wall, mm. */
  readonly minimumWallMm?: number;
  readonly shank: {
    /** Outside, at the end; several ways cannot be checked without it. */
    readonly endDiameterMm?: number;
    /** That of the receiver where it is not known. */
    readonly taper?: number;
    /** From rim to shank end. */
    readonly boreMm: ProfileMm;
  };
  readonly receiver: {
    readonly mouthDiameterMm?: number;
    readonly taper: number;
    readonly depthMm: number;
  };
  /** Change of gap for one mark of an adjustable receiver, mm. */
  readonly stopMmPerMark?: number;
}

export interface CutPlan {
  readonly outcome: "plan" | "nothing to do" | "refused";
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

/** Common practice, no source. */
export const defaultMinimumWallMm = 0.4;
export const defaultToleranceMm = 0.05;
const smallestToleranceMm = 0.001;
const mm = (lengthMm: number, digits = 2): string => formatLength(lengthMm, "mm", digits);

/** Every question has an answer; one that cannot be worked out is refused in words. */
export function planCut(question: CutQuestion): CutPlan {
  const { gapMm, targetMm, coverageFactor = 2, toleranceMm = defaultToleranceMm, receiver } = question;
  const flaw = questionFlaw(question);
  if (flaw) return { ...nothing, outcome: "refused", words: [`No plan: ${flaw}.`] };
  const changeMm = targetMm - gapMm;
  const { standardUncertaintyMm } = question;
  const expandedUncertaintyMm =
    standardUncertaintyMm === undefined ? undefined : coverageFactor * standardUncertaintyMm;
  const enoughMm = Math.max(toleranceMm, expandedUncertaintyMm ?? 0);
  const t = seatTaper(question.shank.taper ?? receiver.taper, receiver.taper);
  const known = {
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
  return {
    ...known,
    outcome: "plan",
    ways:
      changeMm < 0
        ? [moveStop(work), exchange(work), turnDown(work)]
        : [moveStop(work), exchange(work), sleeve(work), shorten(work)],
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

/** Where the dimensions foresee another gap than the measured one, one of them is wrong. */
function seatWords({
  endDiameterMm,
  mouthDiameterMm,
  shankTaper,
  receiverTaper,
  depthMm,
  gapMm,
}: CutWork): string[] {
  if (endDiameterMm === undefined || mouthDiameterMm === undefined) return [];
  const t = seatTaper(shankTaper, receiverTaper);
  if (t < smallestTaper) return [];
  const foreseenMm = Math.max(0, depthMm - Math.max(0, mouthDiameterMm - endDiameterMm) / t);
  return Math.abs(foreseenMm - gapMm) > 0.25
    ? [
        `The diameters and tapers foresee a gap of ${mm(foreseenMm)}, not ${mm(gapMm)}: check them before cutting, since the sizes rest on them.`,
      ]
    : [];
}

/** The first thing that makes the question one that cannot be answered; undefined when it can. */
function questionFlaw(question: CutQuestion): string | undefined {
  const { gapMm, targetMm, standardUncertaintyMm = 0, coverageFactor = 2, shank, receiver } = question;
  const {
    toleranceMm = defaultToleranceMm,
    minimumWallMm = defaultMinimumWallMm,
    stopMmPerMark = 1,
  } = question;
  const { endDiameterMm, taper: shankTaper = 0, boreMm } = shank;
  const { depthMm, taper, mouthDiameterMm } = receiver;
  const within = (value: number, low: number, high: number) => value >= low && value <= high;
  const shown = (value: number) =>
    Math.abs(value) < 1e6 ? mm(value, 3) : Number.isNaN(value) ? "not a number" : "far too large";
  if (!within(depthMm, 0.1, 1000)) return `the receiver's depth is ${shown(depthMm)}; give 0.1 mm to 1000 mm`;
  if (!within(gapMm, 0, depthMm))
    return `the gap is ${shown(gapMm)}; give 0 mm to the receiver's depth, ${mm(depthMm, 3)}`;
  if (!within(targetMm, 0, depthMm))
    return `the target is ${shown(targetMm)}; give 0 mm to the receiver's depth, ${mm(depthMm, 3)}`;
  if (!within(standardUncertaintyMm, 0, 1000))
    return `the gap's uncertainty is ${shown(standardUncertaintyMm)}; give a standard uncertainty of 0 mm or more`;
  if (!within(coverageFactor, 1, 1000)) return "the coverage factor is no number from 1; give 2, say";
  if (!within(toleranceMm, smallestToleranceMm, 1000))
    return `the tolerance is ${shown(toleranceMm)}; give ${smallestToleranceMm} mm or more, such as 0.05 mm`;
  if (!within(minimumWallMm, 0, 1000))
    return `the minimum wall is ${shown(minimumWallMm)}; give 0 mm or more, such as 0.4 mm`;
  if (!within(stopMmPerMark, 0.001, 1000))
    return `a mark of the stop is ${shown(stopMmPerMark)}; give 0.001 mm or more, such as 0.25 mm`;
  if (!within(taper, 0, 1) || !within(shankTaper, 0, 1))
    return "a taper is no change of diameter per length; give 0 to 1, such as 0.05";
  if (boreMm.length < 2 || !boreMm.flat().every(Number.isFinite) || profileFlaws(boreMm).length > 0)
    return "the mouthpiece's bore is no profile; give two points or more that run forwards with diameters above 0";
  if (endDiameterMm !== undefined && !within(endDiameterMm, 0.1, 1000))
    return `the shank's end diameter is ${shown(endDiameterMm)}; give 0.1 mm to 1000 mm`;
  if (endDiameterMm !== undefined && endDiameterMm <= exitBoreMm(boreMm))
    return `the shank's end diameter is ${shown(endDiameterMm)}, which leaves no wall around the bore; give more than ${shown(exitBoreMm(boreMm))}`;
  if (mouthDiameterMm === undefined) return undefined;
  if (!within(mouthDiameterMm, 0.1, 1000))
    return `the receiver's mouth diameter is ${shown(mouthDiameterMm)}; give 0.1 mm to 1000 mm`;
  return cavityDiameterMm(mouthDiameterMm, taper, depthMm) > 0
    ? undefined
    : "the receiver would taper to nothing within its depth; give a smaller taper";
}
