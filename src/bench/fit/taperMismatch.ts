/**
 * Two tapers that differ touch in one ring. Within a stated clearance of diameter c₀ the contact is c₀/|s − r| long; the
 * free end can move by its clearance |s − r|·i across the insertion i, half of it each way, so the mouthpiece rocks by
 * ± |s − r|/2 radians about the ring.
 */

import type { LengthInWords } from "../measure/inWords.ts";
import type { FitDimensions } from "./fitDimensions.ts";
import type { Seat } from "./seat.ts";

export interface TaperMismatch {
  /** Along its length: the clearance is nowhere above the stated one. */
  readonly touches: "along its length" | "at the mouth" | "at its end";
  /** How far the clearance of the diameters stays within the stated one, mm. */
  readonly contactLengthMm: number;
  /** Clearance of the diameters at the free end, mm. */
  readonly freeClearanceMm: number;
  /** How far the mouthpiece can tilt to each side, degrees. */
  readonly rockingDegrees: number;
  readonly words: string;
}

/** What it means, in words, that shank and receiver have different tapers; nothing where they are the same. */
export function taperMismatch(
  { shankTaper, receiverTaper }: FitDimensions,
  { insertionMm, freeClearanceMm, touches }: Seat & { kind: "seated" },
  clearanceMm: number,
  inWords: LengthInWords,
): TaperMismatch {
  const difference = Math.abs(shankTaper - receiverTaper);
  const isFull = touches === "all along" || freeClearanceMm <= clearanceMm;
  const contactLengthMm = isFull ? insertionMm : clearanceMm / difference;
  const rockingDegrees = ((difference / 2) * 180) / Math.PI;
  return {
    touches: isFull ? "along its length" : touches,
    contactLengthMm,
    freeClearanceMm,
    rockingDegrees,
    words: words(
      isFull ? "along its length" : touches,
      contactLengthMm,
      freeClearanceMm,
      rockingDegrees,
      inWords,
    ),
  };
}

function words(
  touches: TaperMismatch["touches"],
  contactMm: number,
  freeMm: number,
  degrees: number,
  inWords: LengthInWords,
): string {
  if (touches === "along its length")
    return `It seats along its whole insertion: nowhere more than ${inWords(freeMm, 3)} of clearance.`;
  const contact = `contact ${inWords(contactMm, 1)} long; the free end has ${inWords(freeMm, 3)} of clearance and rocks by ±${degrees.toFixed(2)}°`;
  return touches === "at the mouth"
    ? `It touches at the receiver's mouth only: ${contact}. The one ring at the face seals it, and the crevice behind is open to the gap; when it rocks, air leaks straight out.`
    : `It touches at the shank's end only: ${contact}. The one ring at the end seals the gap, and the crevice is open to the room; when it rocks, air leaks along the shank.`;
}
