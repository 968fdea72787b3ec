/** One mouthpiece in one receiver: where the shank seats, the gap that leaves, how well it sits, and how sure that is. */
import type { LengthUnit } from "../../units/length.ts";
import { type LengthInWords, lengthInWords } from "../measure/inWords.ts";
import { dimensionFlaw } from "./dimensionFlaw.ts";
import {
  dimensionName,
  type FitDimensions,
  type FitUncertainties,
  fitDimensions,
  smallestTaper,
} from "./fitDimensions.ts";
import { type FitBudgetRow, fitUncertainty } from "./fitUncertainty.ts";
import { type Seat, seat, seatTaper } from "./seat.ts";
import { type TaperMismatch, taperMismatch } from "./taperMismatch.ts";

export interface FitOptions {
  readonly uncertainties?: FitUncertainties;
  /** Clearance of the diameters up to which two walls count as touching, mm. */
  readonly clearanceMm?: number;
  /** What the words speak in; mm where left out. */
  readonly unit?: LengthUnit;
}

export interface Fit {
  readonly outcome: "seated" | "on the leadpipe" | "does not enter" | "impossible";
  /** Undefined, as all numbers below, where the outcome has none. */
  readonly insertionMm: number | undefined;
  readonly gapMm: number | undefined;
  readonly standardUncertaintyMm: number | undefined;
  /** What that uncertainty is made of; empty without one. */
  readonly budget: readonly FitBudgetRow[];
  /** False where the tapers are too close, for their uncertainties, to say which end touches. */
  readonly isTouchKnown: boolean;
  /** For a seated shank. */
  readonly contact: TaperMismatch | undefined;
  /** Change of insertion per change of diameter at the seat, mm per mm. */
  readonly insertionPerDiameter: number | undefined;
  /** What the person should know, a sentence each. */
  readonly words: readonly string[];
}

export const defaultClearanceMm = 0.01;

/** Every geometry has an answer; one that cannot be is answered in words. */
export function fitOf(dimensions: FitDimensions, options: FitOptions = {}): Fit {
  const { uncertainties = {}, clearanceMm = defaultClearanceMm, unit = "mm" } = options;
  const inWords = lengthInWords(unit);
  const flaw = dimensionFlaw(dimensions, uncertainties, unit) ?? clearanceFlaw(clearanceMm);
  if (flaw) return withoutNumbers("impossible", `This cannot be: ${flaw}.`);

  const seated = seat(dimensions);
  if (seated.kind === "does not enter")
    return withoutNumbers("does not enter", tooLargeWords(dimensions, inWords));
  const perDiameter = 1 / seatTaper(dimensions.shankTaper, dimensions.receiverTaper);
  if (seated.kind === "on the leadpipe")
    return {
      ...withoutNumbers("on the leadpipe", onLeadpipeWords(dimensions, seated, inWords)),
      insertionMm: seated.insertionMm,
      gapMm: 0,
    };

  const { insertionMm } = seated;
  const gapMm = dimensions.depthMm - insertionMm;
  const uncertainty = fitUncertainty(dimensions, uncertainties);
  const contact = taperMismatch(dimensions, seated, clearanceMm, inWords);
  return {
    outcome: "seated",
    insertionMm,
    gapMm,
    standardUncertaintyMm: uncertainty?.standardUncertaintyMm,
    budget: uncertainty?.budget ?? [],
    isTouchKnown: uncertainty?.isTouchKnown ?? true,
    contact,
    insertionPerDiameter: perDiameter,
    words: [contact.words, ...uncertaintyWords(gapMm, uncertainty, uncertainties)],
  };
}

/** What is wrong with a preferred gap; undefined where nothing is. */
export const preferredFlaw = (preferredMm: number): string | undefined =>
  preferredMm >= 0 && preferredMm <= 1000
    ? undefined
    : "the preferred gap is not a length from 0 to 1000 mm; give one such as 2.5 mm";

/** What is wrong with a clearance; undefined when nothing is. */
export const clearanceFlaw = (clearanceMm: number): string | undefined =>
  clearanceMm >= 0 && clearanceMm <= 1000
    ? undefined
    : "the clearance is not a length of 0 mm or more; give one such as 0.01 mm";

const withoutNumbers = (outcome: Fit["outcome"], words: string): Fit => ({
  outcome,
  insertionMm: undefined,
  gapMm: undefined,
  standardUncertaintyMm: undefined,
  budget: [],
  isTouchKnown: true,
  contact: undefined,
  insertionPerDiameter: undefined,
  words: [words],
});

function tooLargeWords(
  { shankEndDiameterMm, mouthDiameterMm }: FitDimensions,
  inWords: LengthInWords,
): string {
  const excessMm = shankEndDiameterMm - mouthDiameterMm;
  const how =
    excessMm > 0
      ? `its end is ${inWords(excessMm, 3)} larger than the receiver's mouth`
      : "its end is as large as the receiver's mouth";
  return `The shank does not enter: ${how} (${inWords(shankEndDiameterMm, 3)} in ${inWords(mouthDiameterMm, 3)}). It is a shank for another receiver, or a diameter is wrong.`;
}

function onLeadpipeWords(
  { shankTaper, receiverTaper }: FitDimensions,
  { looseMm }: Seat & { kind: "on the leadpipe" },
  inWords: LengthInWords,
): string {
  const loose = `${inWords(looseMm, 3)} of clearance of the diameters is left at the tightest place`;
  if (seatTaper(shankTaper, receiverTaper) < smallestTaper)
    return `Neither part has a taper, so nothing stops the shank before the leadpipe: the gap is 0, and ${loose}.`;
  return looseMm > 1e-6
    ? `The shank falls through to the leadpipe before it seats: the gap is 0, it sits loose, and ${loose}.`
    : "The shank meets the leadpipe just as it seats: the gap is 0.";
}

function uncertaintyWords(
  gapMm: number,
  uncertainty: ReturnType<typeof fitUncertainty>,
  given: FitUncertainties,
): string[] {
  if (uncertainty === undefined) return ["No dimension has an uncertainty, so that of the gap is unknown."];
  const without = fitDimensions.filter((dimension) => given[dimension] === undefined);
  return [
    ...(without.length > 0
      ? [`Without an uncertainty, and taken as exact: ${without.map((d) => dimensionName[d]).join(", ")}.`]
      : []),
    ...(uncertainty.isTouchKnown
      ? []
      : ["The tapers are too close, for their uncertainties, to say which end touches."]),
    ...(gapMm < 2 * uncertainty.standardUncertaintyMm
      ? ["The gap is less than its expanded uncertainty: the shank may touch the leadpipe."]
      : []),
  ];
}
