/**
 * Where diameters and tapers contradict the gap that is given. With insertion i = D − g (seat.ts for the letters), the room
 * between shank and receiver is
 *
 *   m − d − r·i at the shank's end,   m − d − s·i at the receiver's face;
 *
 * a shank with none is wider than the receiver where it is said to sit, and would stop i' = (m − d)/max(s, r) < i inside; one
 * with some at both ends would go further in, i' > i. Either way the gap they foresee is D − i', and a dimension is wrong.
 */
import { smallestTaper } from "./fitDimensions.ts";
import { seatTaper } from "./seat.ts";

/** Who says what the gap is: readings at the bench, the setup's file, or whoever asks. */
export type GapGivenBy = "readings" | "file" | "question";

export type Contradiction =
  | {
      readonly kind: "foresees-other-gap";
      readonly foreseenMm: number;
      readonly gapMm: number;
      readonly givenBy: GapGivenBy;
    }
  | {
      readonly kind: "wider-than-receiver";
      readonly at: "face" | "end";
      /** How much wider, mm of diameter. */
      readonly excessMm: number;
      /** Undefined where nothing has a taper, so that nothing foresees a gap. */
      readonly foreseenMm: number | undefined;
      readonly gapMm: number;
      readonly givenBy: GapGivenBy;
    };

export interface GapAndDiameters {
  readonly gapMm: number;
  readonly givenBy: GapGivenBy;
  readonly depthMm: number;
  readonly endDiameterMm: number | undefined;
  readonly mouthDiameterMm: number | undefined;
  /** That of the receiver where it is not known. */
  readonly shankTaper: number | undefined;
  readonly receiverTaper: number;
  /** Expanded, of the gap less what is foreseen; undefined where nobody knows. */
  readonly expandedUncertaintyMm?: number | undefined;
}

/** Gaps nearer than this do not contradict: 1/80 mm of diameter at 1:20, what a caliper may err. Own choice, no source. */
export const CONTRADICTION_FROM_MM = 0.25;
const USUAL_TAPER = 0.05;

/** Undefined where the gap and the dimensions go together, or too little is known. */
export function contradiction(given: GapAndDiameters): Contradiction | undefined {
  const { gapMm, givenBy, depthMm, endDiameterMm, mouthDiameterMm, receiverTaper } = given;
  if (endDiameterMm === undefined || mouthDiameterMm === undefined) return undefined;
  const shankTaper = given.shankTaper ?? receiverTaper;
  const fromMm = Math.max(CONTRADICTION_FROM_MM, given.expandedUncertaintyMm ?? 0);
  const taper = seatTaper(shankTaper, receiverTaper);
  const isTapered = taper >= smallestTaper;
  const roomMm = mouthDiameterMm - endDiameterMm;
  const foreseenMm = isTapered ? Math.max(0, depthMm - Math.max(0, roomMm) / taper) : undefined;
  const insertionMm = depthMm - gapMm;
  const excess = {
    end: receiverTaper * insertionMm - roomMm,
    face: shankTaper * insertionMm - roomMm,
  };
  const at = excess.face > excess.end ? "face" : "end";
  if (excess[at] > fromMm * (isTapered ? taper : USUAL_TAPER))
    return { kind: "wider-than-receiver", at, excessMm: excess[at], foreseenMm, gapMm, givenBy };
  return foreseenMm !== undefined && Math.abs(foreseenMm - gapMm) > fromMm
    ? { kind: "foresees-other-gap", foreseenMm, gapMm, givenBy }
    : undefined;
}

/** Whether a finding is one of these. */
export const isContradiction = (finding: { readonly kind: string }): finding is Contradiction =>
  finding.kind === "foresees-other-gap" || finding.kind === "wider-than-receiver";

/** Tells one doubt from another, to a hundredth of a mm: whoever has looked at it need not be asked again until it changes. */
export const contradictionsKey = (all: readonly Contradiction[]): string =>
  all
    .map((one) =>
      [
        one.kind === "wider-than-receiver" ? `wider-at-${one.at} ${one.excessMm.toFixed(3)}` : "other-gap",
        one.foreseenMm?.toFixed(2) ?? "none",
        one.gapMm.toFixed(2),
        one.givenBy,
      ].join(" "),
    )
    .join("; ");
