/** What a repairer is told before and while altering a shank or a receiver. All of it common practice, no source. */
import type { CutCaution } from "../../bench/cut/cautions.ts";
import type { CutPlan } from "../../bench/cut/cut.ts";
import { formatLength } from "../../units/formatLength.ts";

/** Every caution in words; that of the seat's wear has a number of its plan in it. */
export const CAUTION: Readonly<Record<Exclude<CutCaution, "seat-wear">, string>> = {
  "try-first":
    "Let the player try it first. Pulling a mouthpiece out is no trial: a taper seats at one depth, and off its seat it wobbles and leaks. Use an adjustable receiver, matched shanks, or a thin, even wrap over the whole seat, and measure each after it is made.",
  stages:
    "Work in the stages given: never more than half of what remains, then clean, seat, measure again with repeat readings, and let the player try. Go by the insertion, which shows twenty times what a diameter does at 1:20.",
  lathe:
    "Lathe: eye protection and the chuck guard; no gloves, rings, loose sleeves or hair; clear swarf with a hook. Light cuts, a sharp tool, no file against the chuck.",
  holding:
    "Holding: soft collet, cup fixture or a mandrel that fits the bore, never the rim; a light live centre, since a tapered plug can spread a thin end. The shank runs true to 0.02 mm (0.0008 in) before any cut.",
  abrasive:
    "Abrasive: never held by the fingers or wrapped round a turning shank. Only on a backed strip or holder.",
  "thin-wall":
    "Thin wall: a shank's end bends and chatters, and a bent end neither seats nor seals; support the bore while cutting, and stop when the minimum wall is reached.",
  plating:
    "Plating: cutting goes through it and lays the brass bare on the seat, near the player's skin. 0.0005 in of plate is 0.001 in of diameter, some 0.020 in of gap. Stripping plate is a plater's work.",
  solder:
    "Solder and heat: ventilate, keep a fire watch, do not breathe flux fumes; old joints may hold lead, old hard solder cadmium. Heat near a joint can open it and spoils lacquer.",
  dust: "Dust: brass may hold lead; wipe it up wet. Never dry-sand a copper alloy with beryllium.",
  playing: "Loud sound and long trials tire ears and lips: keep them short, and rest in between.",
  "local-rules": "Local rules and a qualified repairer come before this page.",
  "both-edges":
    "Shortening: break both edges lightly, inside and out. An outside burr scores the receiver and holds the shank out. The exit bore becomes what the backbore is at the new end.",
  sleeve:
    "A layer must lie along the whole seat and follow the taper: a band at one end makes the shank rock. Foil or paper is for trying only.",
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

/** What the owner signs on the card. */
export const CONSENT =
  "I own this mouthpiece and this instrument, or may decide for the owner. I was told what is to be done, and that it cannot be undone. I ask for it to be done.";

/** What has to be confirmed before work that cannot be undone. */
export const CONFIRMATION =
  "This cannot be undone. Have it done by a qualified repairer, on a mouthpiece whose owner has agreed to it, and only after the gap has been measured with repeat readings.";
