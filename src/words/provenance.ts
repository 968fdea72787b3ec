/** Where the numbers of a setup come from, in words: what was measured, what came from a file, what a stand-in lends. */
import {
  gapProvenance,
  hasDimension,
  PROVENANCE_DIMENSIONS,
  type ProvenanceDimension,
  provenanceOf,
} from "../setup/dimension/provenance.ts";
import type { Provenance, Setup } from "../setup/setup.ts";
import type { LengthUnit } from "../units/length.ts";
import { roundedLength } from "../units/uncertainLength.ts";

const LIST = new Intl.ListFormat("en-GB", { type: "conjunction" });

/** Beside a field. */
export const PROVENANCE_WORD: Readonly<Record<Provenance, string>> = {
  measured: "measured",
  file: "from a file",
  assumed: "assumed",
};

export const PROVENANCES = Object.keys(PROVENANCE_WORD) as readonly Provenance[];

/** In sentences. */
export const DIMENSION_NAME: Readonly<Record<ProvenanceDimension, string>> = {
  "mouthpiece.profile": "mouthpiece bore",
  "mouthpiece.insertion": "insertion",
  "mouthpiece.cupDepth": "cup depth",
  "mouthpiece.shankEndDiameter": "shank end diameter",
  "mouthpiece.shankTaper": "shank taper",
  "receiver.depth": "receiver depth",
  "receiver.mouthDiameter": "receiver mouth diameter",
  "receiver.taper": "receiver taper",
  "leadpipe.profile": "leadpipe",
  "body.profile": "body",
  "body.slideAt": "slide position",
  "air.temperature": "room temperature",
  "air.humidity": "humidity",
};

const GAP: readonly ProvenanceDimension[] = ["receiver.depth", "mouthpiece.insertion"];

/** The instrument itself: the air is the room's. */
const dimensionsOf = (setup: Setup): readonly ProvenanceDimension[] =>
  Object.entries(PROVENANCE_DIMENSIONS)
    .filter(([part]) => part !== "air")
    .flatMap(([, dimensions]) => [...dimensions])
    .filter((dimension) => hasDimension(setup, dimension));

const namesOf = (setup: Setup, provenance: Provenance): readonly string[] =>
  dimensionsOf(setup)
    .filter((dimension) => provenanceOf(setup, dimension) === provenance)
    .map((dimension) => DIMENSION_NAME[dimension]);

/** One line for a report: what was measured, what a file gave, what is assumed. */
export function provenanceLine(setup: Setup): string {
  if (Object.keys(setup.provenance).length === 0)
    return "The setup file does not say what was measured on this instrument and what is assumed.";
  const said = (
    [
      ["Measured", "measured"],
      ["From a file", "file"],
      ["Assumed, from a stand-in", "assumed"],
    ] as const
  ).flatMap(([words, provenance]) => {
    const names = namesOf(setup, provenance);
    return names.length === 0 ? [] : [`${words}: ${LIST.format(names)}.`];
  });
  return said.join(" ");
}

/** How the gap is known, and what of the rest a stand-in lends: the head of what is said of instruments like it. Empty where nothing is assumed. */
export function standInWords(setup: Setup, expandedMm: number | null, unit: LengthUnit): string {
  const assumed = dimensionsOf(setup).filter((dimension) => provenanceOf(setup, dimension) === "assumed");
  if (assumed.length === 0) return "";
  const rest = dimensionsOf(setup).filter((dimension) => !GAP.includes(dimension));
  const isWhole = rest.every((dimension) => assumed.includes(dimension));
  const lent = assumed.filter((dimension) => !GAP.includes(dimension));
  const gap = gapWords(setup, expandedMm, unit);
  if (lent.length === 0) return gap;
  return `${gap}; ${isWhole ? "the rest is a stand-in" : `of a stand-in: ${LIST.format(lent.map((one) => DIMENSION_NAME[one]))}`}`;
}

function gapWords(setup: Setup, expandedMm: number | null, unit: LengthUnit): string {
  const from = gapProvenance(setup);
  if (from === "assumed") return "The gap is assumed, not measured";
  if (from === "file") return "Gap from a file";
  return expandedMm === null
    ? "Gap measured, how well is not stated"
    : `Gap measured to ±${roundedLength(expandedMm, expandedMm, unit)}`;
}
