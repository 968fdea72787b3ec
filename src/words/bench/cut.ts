/** A plan for a cut in sentences: what is to be known about it, its ways, what each takes off and what else it changes. */
import type { CutPlan } from "../../bench/cut/cut.ts";
import type { CutFinding, CutWayFinding } from "../../bench/cut/cutFinding.ts";
import type { CutDimension, CutSideEffect, CutSizeUnit, CutWay, CutWayName } from "../../bench/cut/cutWay.ts";
import type { CutRefused } from "../../bench/cut/setupAfterCut.ts";
import { isContradiction } from "../../bench/fit/contradiction.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { contradictionWords } from "./contradiction.ts";
import { type LengthInWords, lengthInWords } from "./inWords.ts";

export const CUT_OUTCOME: Readonly<Record<CutPlan["outcome"], string>> = {
  plan: "plan",
  "nothing-to-do": "nothing to do",
  refused: "refused",
};

export const WAY_TITLE: Readonly<Record<CutWayName, string>> = {
  stop: "move the stop of an adjustable receiver",
  exchange: "exchange the shank",
  sleeve: "sleeve or plate the shank",
  "turn-down": "turn the shank's taper down",
  shorten: "shorten the shank's end",
};

export const CUT_DIMENSION: Readonly<Record<CutDimension, string>> = {
  insertion: "insertion",
  "shank-end-diameter": "shank end diameter",
  wall: "wall at the shank's end",
  "exit-bore": "exit bore",
  "mouthpiece-length": "mouthpiece length",
};

/** What the size of a way counts. */
export const SIZE_UNIT: Readonly<Record<CutSizeUnit, string>> = {
  "off-diameter": "mm off the diameter",
  "off-length": "mm off the length",
  "layer-thickness": "mm of layer thickness",
  "of-diameter": "mm of the diameter",
  "marks-to-less": "marks towards less gap",
  "marks-to-more": "marks towards more gap",
};

/** `0.015 mm off the diameter (0.0006 in)`, `1.2 marks towards less gap`. A length is given in both units, `first` first. */
export function stageSize(size: number, unit: CutSizeUnit, first: LengthUnit = "mm"): string {
  if (unit === "marks-to-less" || unit === "marks-to-more") return `${size.toFixed(1)} ${SIZE_UNIT[unit]}`;
  const [mm, inches] = [formatLength(size, "mm", 3), formatLength(size, "in", 4)];
  const [shown, other] = first === "mm" ? [mm, inches] : [inches, mm];
  return `${shown}${SIZE_UNIT[unit].slice(2)} (${other})`;
}

/** A length that is checked after a stage: an insertion as finely as it can be read, a dimension as finely as it is cut. */
export const checkLength = ({ what, afterMm }: CutSideEffect, unit: LengthUnit): string =>
  lengthInWords(unit)(afterMm, what === "insertion" ? 2 : 3);

/** Why a plan was refused, or what to know about it, a sentence each. */
export const planWords = ({ findings, unit }: CutPlan): string[] =>
  findings.map((finding) => findingWords(finding, unit));

/** The same without what contradicts the gap, where that is said apart. */
export const planNotes = (plan: CutPlan): string[] =>
  planWords({ ...plan, findings: plan.findings.filter((finding) => !isContradiction(finding)) });

/** Why a way is not possible, or what to know about its size, a sentence each. */
export const wayWords = ({ findings }: CutWay, unit: LengthUnit): string[] =>
  findings.map((finding) => wayFindingWords(finding, lengthInWords(unit)));

/** Why there is no setup after a cut, a sentence. */
export function refusedWords(refused: CutRefused, unit: LengthUnit): string {
  switch (refused.kind) {
    case "not-in-plan":
      return "This way is not in the plan: choose one that is.";
    case "not-possible":
      return wayWords(refused.way, unit)[0];
    case "no-instrument":
      return `There would be no instrument to model: ${refused.problem}.`;
  }
}

function findingWords(finding: CutFinding, unit: LengthUnit): string {
  const mm = lengthInWords(unit);
  switch (finding.kind) {
    case "question-flaw":
      return `No plan: ${finding.flaw}.`;
    case "within-tolerance":
      return `The gap is within ${mm(finding.toleranceMm)} of the planned gap already.`;
    case "change-below-uncertainty":
      return `No plan: the gap is known to ±${mm(finding.expandedUncertaintyMm)} only, more than the ${mm(Math.abs(finding.changeMm))} asked for; measure again with more repeat readings or a better tool.`;
    case "unknown-uncertainty":
      return "The gap's uncertainty is not known, so nobody can say that this change is real: measure it with repeat readings before anything that cannot be undone.";
    case "tolerance-below-uncertainty":
      return `The tolerance of ${mm(finding.toleranceMm)} is finer than the gap is known: the work is done at ±${mm(finding.expandedUncertaintyMm)}.`;
    case "receiver-taper-taken":
      return "The shank's taper is not known; that of the receiver is taken for it.";
    case "foresees-other-gap":
    case "wider-than-receiver":
      return contradictionWords(finding, unit);
  }
}

function wayFindingWords(finding: CutWayFinding, mm: LengthInWords): string {
  switch (finding.kind) {
    case "turned-without-taper":
      return "Neither part has a taper, so a smaller diameter does not stop further in.";
    case "end-diameter-unknown":
      return "Nobody can say what wall would be left: measure the shank's end diameter.";
    case "turned-too-thin": {
      const { wallMm, minimumWallMm, mostMm } = finding;
      const left = wallMm > 0 ? `Only ${mm(wallMm, 3)} of wall` : "No wall";
      const most =
        mostMm > 0
          ? `at most ${mm(mostMm, 3)} of gap can be taken off this way`
          : "nothing can be taken off this way";
      return `${left} would be left at the end, below the minimum of ${mm(minimumWallMm, 3)} (common practice, no source); ${most}.`;
    }
    case "finer-than-can-be-cut":
      return `This change is ${mm(finding.sizeMm, 3)} of metal, and less than ${mm(finding.finestMm, 3)} can neither be cut nor checked at the bench (common practice, no source). Leave it, or try a wrap or another shank.`;
    case "turn-extent":
      return `Turn it for ${mm(finding.lengthMm)} from the end: past the face mark by more than the ${mm(finding.addedMm)} that it goes in further, or a ledge stops the shank. See that as much stands free before the mouthpiece's shoulder.`;
    case "engagement-left":
      return `${mm(finding.lengthMm)} of the shank are then in the receiver: a short seat rocks.`;
    case "stops-short":
      return `The stages end ${mm(finding.leftMm)} of gap short: the next would be finer than ${mm(finding.finestMm, 3)} of metal, which can neither be cut nor checked (common practice, no source). Stop there, measure, and let the player try.`;
    case "keep-taper":
      return "Keep the shank's taper, and take the same off all along the seat.";
    case "only-goes-in-further":
      return "The shank touches at its end and has hardly any taper: shortened, it only goes in further.";
    case "longer-than-backbore":
      return `${mm(finding.cutMm, 3)} would be cut off, but the backbore is only ${mm(finding.backboreMm, 3)} long.`;
    case "shortened-too-thin":
      return `Only ${mm(Math.max(0, finding.wallMm), 3)} of wall would be left at the new end, below the minimum of ${mm(finding.minimumWallMm, 3)} (common practice, no source).`;
    case "exit-bore-changes":
      return "The exit bore becomes what the backbore is there, which is more than a change of gap: model it before cutting.";
    case "part-becomes-gap":
      return `The shank touches at its end, so only ${Math.round(100 * finding.share)} % of what is cut off becomes gap.`;
    case "wall-unchecked":
      return "Without the shank's end diameter the wall cannot be checked.";
    case "untapered":
      return "Neither part has a taper, so the diameter does not decide where the shank stops.";
    case "too-wide-for-mouth":
      return `The shank's end would become ${mm(finding.endDiameterMm)}, too large to enter the receiver.`;
    case "layer-comes-off":
      return "The layer can be taken off again. A sleeve thicker than that needs the shank turned down first, which cannot be undone.";
    case "order-by-difference":
      return `Order one ${mm(Math.abs(finding.differenceMm), 3)} ${finding.differenceMm < 0 ? "smaller" : "larger"} at the seat, of the same length.`;
    case "order-by-end-diameter":
      return `Order one with an end diameter of ${mm(finding.endDiameterMm, 3)}, of the same length, with the receiver's taper.`;
    case "separate-shank-only":
      return "Only for a mouthpiece whose shank comes off.";
    case "stop-column":
      return "Whether the air column changes by as much depends on how the stop is made.";
    case "stop-unknown":
      return "Only for an adjustable receiver: give how far the stop moves for one mark.";
  }
}
