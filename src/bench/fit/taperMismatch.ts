/**
 * Two tapers that differ touch in one ring. Within a stated clearance of diameter c₀ the contact is c₀/|s − r| long; the
 * free end can move by its clearance |s − r|·i across the insertion i, half of it each way, so the mouthpiece rocks by
 * ± |s − r|/2 radians about the ring.
 */

import type { FitDimensions } from "./fitDimensions.ts";
import type { Seat, SeatContact } from "./seat.ts";

export interface TaperMismatch {
  /** Along its whole length: the clearance is nowhere above the stated one. */
  readonly touches: SeatContact;
  /** How far the clearance of the diameters stays within the stated one, mm. */
  readonly contactLengthMm: number;
  /** Clearance of the diameters at the free end, mm. */
  readonly freeClearanceMm: number;
  /** How far the mouthpiece can tilt to each side, degrees. */
  readonly rockingDegrees: number;
}

/** What it means that shank and receiver have different tapers: how much of the seat touches, and how far it rocks. */
export function taperMismatch(
  { shankTaper, receiverTaper }: FitDimensions,
  { insertionMm, freeClearanceMm, touches }: Seat & { kind: "seated" },
  clearanceMm: number,
): TaperMismatch {
  const difference = Math.abs(shankTaper - receiverTaper);
  const isFull = touches === "length" || freeClearanceMm <= clearanceMm;
  return {
    touches: isFull ? "length" : touches,
    contactLengthMm: isFull ? insertionMm : clearanceMm / difference,
    freeClearanceMm,
    rockingDegrees: ((difference / 2) * 180) / Math.PI,
  };
}
