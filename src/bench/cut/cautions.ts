/** What a repairer is told before and while altering a shank or a receiver. All of it common practice, no source. */

import { formatLength } from "../../units/formatLength.ts";

const both = (lengthMm: number, inchDigits: number): string =>
  `${formatLength(lengthMm, "mm")} (${formatLength(lengthMm, "in", inchDigits)})`;

export const beforeAnyCut =
  "Let the player try the target gap first, with a shim or another shank: the modelled change may be too small to feel.";

export const stagesCaution =
  "Work in the stages given: never more than half of what remains, then clean, seat, measure again with repeat readings, and let the player try.";

export const latheCaution =
  "Lathe: hold the mouthpiece on a mandrel that fits its bore, not by the rim; check that the shank runs true (0.02 mm, 0.0008 in, or better) before cutting; light cuts, a sharp tool, no file against the chuck.";

export const finestCutCaution =
  "The last stages take less than 0.01 mm (0.0004 in) off the diameter: fine abrasive on the turning shank, not a cutting tool.";

export const thinWallCaution =
  "Thin wall: a shank's end bends and chatters, and a bent end neither seats nor seals; support the bore while cutting, and stop when the minimum wall is reached.";

export const platingCaution =
  "Plating: cutting goes through it and lays the brass bare on the seat, against the receiver and near the player's skin; decide on replating beforehand, and count its thickness twice on the diameter.";

export const solderCaution =
  "Solder: heat near a soldered joint, such as a sleeve or a receiver's, can open it; pull a receiver or leadpipe only as a separate job, and never heat a lacquered part in passing.";

/** Shown whatever is planned. */
export const usualCautions = [latheCaution, thinWallCaution, platingCaution, solderCaution] as const;

export const exitBoreCaution =
  "Shortening makes the exit bore what the backbore is at the new end: leave the edge square, chamfer nothing, deburr the inside only.";

export const sleeveCaution =
  "A layer must lie along the whole seat and follow the taper: a band at one end makes the shank rock. Paper or foil serves for a trial only.";

export const exchangeCaution =
  "An exchanged shank brings its own backbore end: compare the exit bores, or more than the gap has been changed.";

export const stopCaution =
  "A stop has play: go to each mark from the same side, and lock it before measuring.";

/** What wear of the seat does to the gap, in words; `gapPerDiameter` is the change of gap per change of diameter. */
export const seatWearCaution = (gapPerDiameter: number): string =>
  `Seats wear in: every ${both(0.01, 4)} worn off the diameters takes ${both(0.01 * gapPerDiameter, 3)} off the gap. ` +
  "Seat the mouthpiece with the same light twist each time, and measure again after some weeks of playing.";

export const heldBackText =
  "This cannot be undone, and the gap's uncertainty is not known: measure receiver depth and insertion with repeat readings first.";

export const confirmationText =
  "This cannot be undone. Have it done by a qualified repairer, on a mouthpiece whose owner has agreed to it, and only after the gap has been measured with repeat readings.";
