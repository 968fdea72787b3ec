/** What a repairer is told before and while altering a shank or a receiver. All of it common practice, no source. */
import type { CutCaution } from "../../bench/cut/cautions.ts";
import type { CutPlan } from "../../bench/cut/cut.ts";
import { formatLength } from "../../units/formatLength.ts";

/** Every caution in words; that of the seat's wear has a number of its plan in it. */
export const CAUTION: Readonly<Record<Exclude<CutCaution, "seat-wear">, string>> = {
  "try-first":
    "Let the player try the target gap first, with a shim or another shank: the modelled change may be too small to notice.",
  stages:
    "Work in the stages given: never more than half of what remains, then clean, seat, measure again with repeat readings, and let the player try.",
  lathe:
    "Lathe: hold the mouthpiece on a mandrel that fits its bore, not by the rim; check that the shank runs true (0.02 mm, 0.0008 in, or better) before cutting; light cuts, a sharp tool, no file against the chuck.",
  "finest-cut":
    "The last stages take less than 0.01 mm (0.0004 in) off the diameter: fine abrasive on the turning shank, not a cutting tool.",
  "thin-wall":
    "Thin wall: a shank's end bends and chatters, and a bent end neither seats nor seals; support the bore while cutting, and stop when the minimum wall is reached.",
  plating:
    "Plating: cutting goes through it and lays the brass bare on the seat, against the receiver and near the player's skin; decide on replating beforehand, and count its thickness twice on the diameter.",
  solder:
    "Solder: heat near a soldered joint, such as a sleeve or a receiver's, can open it; pull a receiver or leadpipe only as a separate job, and never heat a lacquered part in passing.",
  "exit-bore":
    "Shortening makes the exit bore what the backbore is at the new end: leave the edge square, chamfer nothing, deburr the inside only.",
  sleeve:
    "A layer must lie along the whole seat and follow the taper: a band at one end makes the shank rock. Paper or foil serves for a trial only.",
  exchange:
    "An exchanged shank brings its own backbore end: compare the exit bores, or more than the gap has been changed.",
  stop: "A stop has play: go to each mark from the same side, and lock it before measuring.",
};

/** Cautions of a plan or of one of its ways, a sentence or two each. */
export const cautionWords = (
  cautions: readonly CutCaution[],
  { gapPerDiameter }: Pick<CutPlan, "gapPerDiameter">,
): string[] =>
  cautions.flatMap((caution) => {
    if (caution !== "seat-wear") return [CAUTION[caution]];
    return gapPerDiameter === undefined ? [] : [seatWearCaution(gapPerDiameter)];
  });

/** What wear of the seat does to the gap; `gapPerDiameter` is the change of gap per change of diameter. */
export const seatWearCaution = (gapPerDiameter: number): string =>
  `Seats wear in: every ${both(0.01, 4)} worn off the diameters takes ${both(0.01 * gapPerDiameter, 3)} off the gap. ` +
  "Seat the mouthpiece with the same light twist each time, and measure again after some weeks of playing.";

const both = (lengthMm: number, inchDigits: number): string =>
  `${formatLength(lengthMm, "mm")} (${formatLength(lengthMm, "in", inchDigits)})`;

/** Of a way that is possible and yet not to be begun. */
export const HELD_BACK =
  "This cannot be undone, and the gap's uncertainty is not known: measure receiver depth and insertion with repeat readings first.";

/** What has to be confirmed before work that cannot be undone. */
/** What the owner signs on the card. */
export const CONSENT =
  "I own this mouthpiece and this instrument, or may decide for who does. I was told what is to be done, and that it cannot be undone, and ask for it to be done.";

export const CONFIRMATION =
  "This cannot be undone. Have it done by a qualified repairer, on a mouthpiece whose owner has agreed to it, and only after the gap has been measured with repeat readings.";
