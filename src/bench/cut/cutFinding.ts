/** What is to be known about a plan and about each of its ways, as codes and numbers. */
import type { Contradiction } from "../fit/contradiction.ts";

/** Of a plan: why it was refused, or what to know. */
export type CutFinding =
  /** What is wrong with the question, to follow a colon. */
  | { readonly kind: "question-flaw"; readonly flaw: string }
  | { readonly kind: "within-tolerance"; readonly toleranceMm: number }
  | {
      readonly kind: "change-below-uncertainty";
      readonly expandedUncertaintyMm: number;
      readonly changeMm: number;
    }
  | { readonly kind: "unknown-uncertainty" }
  | {
      readonly kind: "tolerance-below-uncertainty";
      readonly toleranceMm: number;
      readonly expandedUncertaintyMm: number;
    }
  | { readonly kind: "receiver-taper-taken" }
  /** The sizes rest on dimensions of which one is wrong. */
  | Contradiction;

/** Of a way: why it is not possible. */
export type CutObstacle =
  | { readonly kind: "turned-without-taper" }
  | { readonly kind: "end-diameter-unknown" }
  /** `mostMm`: the change of gap that would leave the minimum wall. */
  | {
      readonly kind: "turned-too-thin";
      readonly wallMm: number;
      readonly minimumWallMm: number;
      readonly mostMm: number;
    }
  | { readonly kind: "only-goes-in-further" }
  | { readonly kind: "longer-than-backbore"; readonly cutMm: number; readonly backboreMm: number }
  | { readonly kind: "shortened-too-thin"; readonly wallMm: number; readonly minimumWallMm: number }
  | { readonly kind: "untapered" }
  | { readonly kind: "too-wide-for-mouth"; readonly endDiameterMm: number }
  | { readonly kind: "stop-unknown" }
  | { readonly kind: "finer-than-can-be-cut"; readonly sizeMm: number; readonly finestMm: number };

/** Of a way: why it is not possible, or what to know about its size. */
export type CutWayFinding =
  | CutObstacle
  | { readonly kind: "keep-taper" }
  /** How far from the end the taper is turned, and by how much further the shank then goes in. */
  | { readonly kind: "turn-extent"; readonly lengthMm: number; readonly addedMm: number }
  /** How much of the shank is then in the receiver. */
  | { readonly kind: "engagement-left"; readonly lengthMm: number }
  /** The stages end this far from the planned gap: what is left is finer than can be cut and seen. */
  | { readonly kind: "stops-short"; readonly leftMm: number; readonly finestMm: number }
  | { readonly kind: "exit-bore-changes" }
  /** How much of what is cut off becomes gap. */
  | { readonly kind: "part-becomes-gap"; readonly share: number }
  | { readonly kind: "wall-unchecked" }
  | { readonly kind: "layer-comes-off" }
  /** How much larger the other shank is at the seat; below 0 for smaller. */
  | { readonly kind: "order-by-difference"; readonly differenceMm: number }
  | { readonly kind: "order-by-end-diameter"; readonly endDiameterMm: number }
  | { readonly kind: "separate-shank-only" }
  | { readonly kind: "stop-column" };
