/**
 * Where a tapered shank comes to rest in a tapered receiver.
 *
 *      receiver's face                        leadpipe
 *   x = 0 │                   x = i              │ x = D
 *   ══════╪══════════════════════════════════════╪══════   receiver   m − r·x
 *   ──────┼───────────────────┐                  ╞══════   shank      d + s·(i − x)
 *         │◄── insertion i ──►│◄───── gap ──────►│
 *
 * m: receiver's diameter at its mouth, r: its taper, d: shank's diameter at its end, s: its taper. The clearance
 *
 *   c(x) = (m − r·x) − (d + s·(i − x)) = m − d − s·i + (s − r)·x,   0 ≤ x ≤ i
 *
 * is a straight line, so it is smallest at one of its ends, and the shank goes in until that is 0:
 *
 *   s > r: at the mouth,      x = 0:  m − d − s·i = 0        s < r: at the shank's end, x = i:  m − d − r·i = 0
 *
 *        ══════════════              mouth                    ══════════════
 *      ╲▁▁▁                     (touches: ▁)                   ────▁▁▁
 *          ────────┐                                                  ╲┐ end
 *
 * Both at once:  i = (m − d) / max(s, r).  Where that is more than D the end meets the start of the leadpipe first.
 */
import { type FitDimensions, smallestTaper } from "./fitDimensions.ts";

/** Where a seated shank touches: all along its insertion, or in a ring at the receiver's mouth or at its own end. */
export type SeatContact = "length" | "mouth" | "end";

export type Seat =
  | {
      readonly kind: "seated";
      readonly insertionMm: number;
      /** Clearance of the diameters at the end of the contact that stays free, mm; 0 for equal tapers. */
      readonly freeClearanceMm: number;
      /** Which end of the contact touches; equal tapers touch all along. */
      readonly touches: SeatContact;
    }
  | {
      readonly kind: "on-leadpipe";
      readonly insertionMm: number;
      /** How much smaller the shank's diameter is than the receiver's where it is tightest, mm. */
      readonly looseMm: number;
    }
  | { readonly kind: "not-entering" };

/** Needs dimensions that `dimensionFlaw` has passed. */
export function seat(dimensions: FitDimensions): Seat {
  const { shankEndDiameterMm, shankTaper, mouthDiameterMm, receiverTaper, depthMm } = dimensions;
  const roomMm = mouthDiameterMm - shankEndDiameterMm;
  if (roomMm <= 0) return { kind: "not-entering" };
  const taper = seatTaper(shankTaper, receiverTaper);
  if (taper < smallestTaper || roomMm / taper >= depthMm)
    return {
      kind: "on-leadpipe",
      insertionMm: depthMm,
      looseMm: Math.max(0, roomMm - taper * depthMm),
    };
  const insertionMm = roomMm / taper;
  return {
    kind: "seated",
    insertionMm,
    freeClearanceMm: Math.abs(shankTaper - receiverTaper) * insertionMm,
    touches: shankTaper === receiverTaper ? "length" : shankTaper > receiverTaper ? "mouth" : "end",
  };
}

/** The taper that stops the shank: diameter per insertion. */
export const seatTaper = (shankTaper: number, receiverTaper: number): number =>
  Math.max(shankTaper, receiverTaper);
