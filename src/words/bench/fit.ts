/** A mouthpiece in a receiver in sentences: where its shank comes to rest, and what is to be known about the gap there. */
import type { Fit, FitFinding } from "../../bench/fit/fit.ts";
import { dimensionName } from "../../bench/fit/fitDimensions.ts";
import type { FitCell } from "../../bench/fit/fitMatrix.ts";
import type { SeatContact } from "../../bench/fit/seat.ts";
import type { TaperMismatch } from "../../bench/fit/taperMismatch.ts";
import type { LengthUnit } from "../../units/length.ts";
import { type LengthInWords, lengthInWords } from "./inWords.ts";

export const OUTCOME: Readonly<Record<Fit["outcome"], string>> = {
  seated: "seated",
  "on-leadpipe": "on the leadpipe",
  "not-entering": "does not enter",
  impossible: "impossible",
};

export const TOUCHES: Readonly<Record<SeatContact, string>> = {
  length: "along its length",
  mouth: "at the mouth",
  end: "at its end",
};

/** What is to be known about a pair, a sentence each. */
export const fitWords = ({ findings }: Fit, unit: LengthUnit): string[] =>
  findings.map((finding) => findingWords(finding, lengthInWords(unit)));

/** The same in one line, after the gap; or what has to be measured first. */
export function fitCellWords({ fit, missing }: FitCell, unit: LengthUnit): string {
  if (fit === undefined)
    return `Unknown: measure the ${missing.map((dimension) => dimensionName[dimension]).join(", the ")}.`;
  const gap = fit.gapMm === undefined ? [] : [`Gap ${lengthInWords(unit)(fit.gapMm)}.`];
  return [...gap, ...fitWords(fit, unit)].join(" ");
}

function findingWords(finding: FitFinding, inWords: LengthInWords): string {
  switch (finding.kind) {
    case "impossible":
      return `This cannot be: ${finding.flaw}.`;
    case "too-large": {
      const { shankEndDiameterMm, mouthDiameterMm } = finding;
      const excessMm = shankEndDiameterMm - mouthDiameterMm;
      const how =
        excessMm > 0
          ? `its end is ${inWords(excessMm, 3)} larger than the receiver at its face`
          : "its end is as large as the receiver at its face";
      return `The shank does not enter: ${how} (${inWords(shankEndDiameterMm, 3)} in ${inWords(mouthDiameterMm, 3)}). It is a shank for another receiver, or a diameter is wrong.`;
    }
    case "untapered":
      return `Neither part has a taper, so nothing stops the shank before the leadpipe: the gap is 0, and ${loose(finding.looseMm, inWords)}.`;
    case "falls-through":
      return `The shank falls through to the leadpipe before it seats: the gap is 0, it sits loose, and ${loose(finding.looseMm, inWords)}.`;
    case "just-seats":
      return "The shank meets the leadpipe just as it seats: the gap is 0.";
    case "contact":
      return contactWords(finding.contact, inWords);
    case "unknown-uncertainty":
      return "No dimension has an uncertainty, so that of the gap is unknown.";
    case "taken-as-exact":
      return `Without an uncertainty, and taken as exact: ${finding.dimensions.map((d) => dimensionName[d]).join(", ")}.`;
    case "touch-unknown":
      return "The tapers are too close, for their uncertainties, to say which end touches.";
    case "maybe-contact":
      return "The gap is less than its expanded uncertainty: the shank may touch the leadpipe.";
  }
}

const loose = (looseMm: number, inWords: LengthInWords): string =>
  `${inWords(looseMm, 3)} of clearance of the diameters is left at the tightest place`;

function contactWords(
  { touches, contactLengthMm, freeClearanceMm, rockingDegrees }: TaperMismatch,
  inWords: LengthInWords,
): string {
  if (touches === "length")
    return `It seats along its whole insertion: nowhere more than ${inWords(freeClearanceMm, 3)} of clearance.`;
  const contact = `contact ${inWords(contactLengthMm, 1)} long; the free end has ${inWords(freeClearanceMm, 3)} of clearance and rocks by ±${rockingDegrees.toFixed(2)}°`;
  return touches === "mouth"
    ? `It touches at the receiver's face only: ${contact}. The one ring at the face seals it, and the crevice behind is open to the gap; when it rocks, air leaks straight out.`
    : `It touches at the shank's end only: ${contact}. The one ring at the end seals the gap, and the crevice is open to the room; when it rocks, air leaks along the shank.`;
}
