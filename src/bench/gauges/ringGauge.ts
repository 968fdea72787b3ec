/**
 * A go/no-go ring for a shank: bored as the receiver is and as long as it is deep, so that its far face stands where the
 * leadpipe starts. A shank seats in it as in the receiver, and through a window the gap is read where its end stands.
 *
 *      A face                       window      B: start of the leadpipe
 *      ┌──────────────────────┬───┬───┬───┬───┐
 *      │                      gap marks     0 │
 *      │  m − r·x             ╎ no-go  ╎ go   │
 *      └──────────────────────────────────────┘
 *
 * The bore cannot be held by its diameter: an error of ε there moves the shank by ε/r (seat.ts), twenty times as much at 1:20.
 * So the ring is set by insertion: a shank whose insertion in the receiver was measured must stand as deep in the ring.
 * Sizes of wall, window and marks are common practice, no source.
 */
import { cavityDiameterMm } from "../../setup/geometry.ts";
import type { Receiver } from "../../setup/setup.ts";
import { smallestTaper } from "../fit/fitDimensions.ts";

export interface RingQuestion {
  readonly receiver: Receiver;
  /** A shank stands right with a gap between these, mm. */
  readonly limitsMm: readonly [lowMm: number, highMm: number];
  /** Between gap marks, mm. */
  readonly everyMm: number;
  /** Insertion of the shank that the ring is set by, mm. */
  readonly insertionMm: number;
}

export interface RingGauge {
  readonly lengthMm: number;
  readonly faceBoreMm: number;
  readonly farBoreMm: number;
  readonly taper: number;
  readonly outsideMm: number;
  readonly windowWidthMm: number;
  /** From the far face, mm. */
  readonly windowLengthMm: number;
  /** Gaps that are marked, from the far face, mm. */
  readonly marksMm: readonly number[];
  readonly limitsMm: readonly [lowMm: number, highMm: number];
  /** What the shank it is set by must go in, mm. */
  readonly masterInsertionMm: number;
  /** How much further a shank goes in where the bore is 0.01 mm larger, mm. */
  readonly insertionPerHundredthMm: number;
}

export type RingFlaw =
  | { readonly kind: "no-taper" }
  | { readonly kind: "limits-out-of-reach"; readonly mostMm: number }
  | { readonly kind: "marks-too-close"; readonly everyMm: number; readonly leastMm: number };

const WALL_MM = 4;
const WINDOW_WIDTH_MM = 4;
const BEYOND_WINDOW_MM = 1.5;
/** What stays a closed ring at the face, mm. */
const CLOSED_MM = 4;
const LEAST_MARK_MM = 0.2;

/** The ring for a receiver, or why none can be made. */
export function ringGauge(question: RingQuestion): RingGauge | RingFlaw {
  const { receiver, limitsMm, everyMm, insertionMm } = question;
  const { mouthDiameterMm, taper, depthMm } = receiver;
  const [lowMm, highMm] = limitsMm;
  if (taper < smallestTaper) return { kind: "no-taper" };
  if (!(everyMm >= LEAST_MARK_MM)) return { kind: "marks-too-close", everyMm, leastMm: LEAST_MARK_MM };
  const mostMm = depthMm - CLOSED_MM - BEYOND_WINDOW_MM;
  if (!(lowMm >= 0 && highMm > lowMm && highMm <= mostMm)) return { kind: "limits-out-of-reach", mostMm };
  // one mark beyond the wider limit, where there is room
  const count = Math.floor(Math.min(mostMm, highMm + 1.5 * everyMm) / everyMm + 1e-9);
  const marksMm = Array.from({ length: count + 1 }, (_, i) => i * everyMm);
  return {
    lengthMm: depthMm,
    faceBoreMm: mouthDiameterMm,
    farBoreMm: cavityDiameterMm(mouthDiameterMm, taper, depthMm),
    taper,
    outsideMm: Math.ceil(mouthDiameterMm + 2 * WALL_MM),
    windowWidthMm: Math.min(WINDOW_WIDTH_MM, 0.4 * mouthDiameterMm),
    windowLengthMm: Math.max(highMm, marksMm[marksMm.length - 1]) + BEYOND_WINDOW_MM,
    marksMm,
    limitsMm,
    masterInsertionMm: insertionMm,
    insertionPerHundredthMm: 0.01 / taper,
  };
}
