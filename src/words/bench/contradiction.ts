/** A contradiction between the gap and the diameters and tapers in sentences: what does not go together, and what to check. */
import type { Contradiction, GapGivenBy } from "../../bench/fit/contradiction.ts";
import type { LengthUnit } from "../../units/length.ts";
import { lengthInWords } from "./inWords.ts";

const GIVEN: Readonly<Record<GapGivenBy, string>> = {
  readings: " as measured",
  file: " as in the setup file",
  question: "",
};

/** Two sentences. */
export function contradictionWords(found: Contradiction, unit: LengthUnit): string {
  const inWords = lengthInWords(unit);
  const { gapMm, foreseenMm, givenBy } = found;
  const given = `${inWords(gapMm)}${GIVEN[givenBy]}`;
  if (found.kind === "foresees-other-gap")
    return `The diameters and tapers predict a gap of ${inWords(found.foreseenMm)}, not ${given}. ${CHECK}`;
  const where = found.at === "face" ? "at the receiver's face" : "at its end";
  const wider = `At a gap of ${given} the shank would be ${inWords(found.excessMm, 3)} wider than the receiver ${where}`;
  const foreseen =
    foreseenMm === undefined
      ? "it cannot sit there"
      : `the diameters and tapers predict a gap of ${inWords(foreseenMm)}`;
  return `${wider}: ${foreseen}. ${CHECK}`;
}

const CHECK = "One of them is wrong: measure them again before cutting anything.";
