/** A setup's own mouthpiece and instrument as parts, and a pair of parts put into a setup. */
import type { Fit } from "../../../bench/fit/fit.ts";
import { type FitDimension, receiverDimensions, shankDimensions } from "../../../bench/fit/fitDimensions.ts";
import { dimensionAt } from "../../../setup/dimension/dimension.ts";
import { isProvenanceDimension } from "../../../setup/dimension/provenance.ts";
import { valueAt } from "../../../setup/file/fileLengths.ts";
import type { Setup } from "../../../setup/setup.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { fileInMm, problemText, readAltered } from "../../form/setup/edits.ts";
import { keysOf, putAt } from "../../form/setup/paths.ts";
import type { AnyPart } from "./partTables.ts";

/** Where each stands in a setup's file. */
export const PLACE: Readonly<Record<FitDimension, string>> = {
  shankEndDiameterMm: "mouthpiece.shankEndDiameter",
  shankTaper: "mouthpiece.shankTaper",
  mouthDiameterMm: "receiver.mouthDiameter",
  receiverTaper: "receiver.taper",
  depthMm: "receiver.depth",
};
const insertionPlace = "mouthpiece.insertion";

/** What the setup does not say of them is left out. */
export function partsOfSetup(setup: Setup): { readonly mouthpiece: AnyPart; readonly instrument: AnyPart } {
  const part = (name: string, dimensions: readonly FitDimension[]): AnyPart => {
    const known = <T>(value: (path: string) => T | undefined) =>
      Object.fromEntries(
        dimensions.flatMap((dimension) => {
          const given = value(PLACE[dimension]);
          return given === undefined ? [] : [[dimension, given]];
        }),
      );
    return {
      name,
      dimensions: known((path) => dimensionAt(setup, path)?.value),
      uncertainties: known((path) => setup.uncertainties[path]?.standard),
    };
  };
  return {
    mouthpiece: part("This setup's mouthpiece", shankDimensions),
    instrument: part("This setup's instrument", receiverDimensions),
  };
}

/**
 * The setup with this shank in this receiver where it comes to rest, or why that is no instrument. The insertion is as
 * uncertain as the gap without the depth's part: the two add up to the gap's own uncertainty again.
 */
export function withPair(
  setup: Setup,
  mouthpiece: AnyPart,
  instrument: AnyPart,
  { insertionMm, budget }: Fit,
): { readonly setup: Setup } | { readonly problem: string } {
  if (insertionMm === undefined) return { problem: "This pair has no gap to put into a setup." };
  const file = fileInMm(setup);
  const values = { ...mouthpiece.dimensions, ...instrument.dimensions };
  const given = { ...mouthpiece.uncertainties, ...instrument.uncertainties };
  const uncertainties = { ...(file.uncertainties as object | undefined) } as Record<string, unknown>;
  for (const dimension of [...shankDimensions, ...receiverDimensions]) {
    const isTyped = valueAt(file, keysOf(PLACE[dimension])) !== values[dimension];
    if (isTyped && isProvenanceDimension(PLACE[dimension]))
      putAt(file, ["provenance", PLACE[dimension]], "measured");
    putAt(file, keysOf(PLACE[dimension]), values[dimension]);
    putAt(uncertainties, [PLACE[dimension]], given[dimension]);
  }
  putAt(file, keysOf(insertionPlace), withoutRoundingNoise(insertionMm));
  // foreseen from the five dimensions, whatever was measured before
  putAt(file, ["provenance", insertionPlace], "file");
  const ofInsertionMm = Math.hypot(
    ...budget.filter(({ dimension }) => dimension !== "depthMm").map(({ contributionMm }) => contributionMm),
  );
  putAt(uncertainties, [insertionPlace], ofInsertionMm > 0 ? ofInsertionMm : undefined);
  putAt(file, ["uncertainties"], Object.keys(uncertainties).length > 0 ? uncertainties : undefined);
  const outcome = readAltered(setup, file);
  return "setup" in outcome ? outcome : { problem: problemText(outcome.problems, "") };
}
