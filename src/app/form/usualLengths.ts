/**
 * Between which a length of its kind lies as a rule, mm. Wide enough for every family; a number outside them that would lie
 * inside in the other unit is asked about.
 */
import type { UsualLengthsMm } from "../../units/otherUnit.ts";

export const USUAL_MM = {
  /** Receiver depth and insertion. */
  depth: [8, 90],
  gap: [0.25, 9],
  /** Outside of a shank, inside of a receiver. */
  seat: [4, 40],
  /** Inside of a leadpipe. */
  leadpipeBore: [4, 40],
  leadpipeLength: [50, 900],
  rim: [10, 45],
  cupDepth: [3, 60],
  throatEdgeRadius: [0, 6],
  throat: [1.5, 14],
  throatLength: [0.5, 40],
  backboreExit: [4, 25],
  mouthpieceLength: [30, 160],
  wall: [0.2, 2],
  /** A working tolerance, an error of manufacture, a spring-back. */
  tolerance: [0.002, 0.3],
} as const satisfies Readonly<Record<string, UsualLengthsMm>>;
