/**
 * The whole bore laid out for a look at every place of it: stations from rim to bell, close enough for Simpson's rule, and
 * the links between them, each a short cone, a step or the gap.
 */
import type { Bore, Piece } from "./bore.ts";
import { cutPiece } from "./chain.ts";
import { Medium } from "./cone.ts";

/** Longest cell of Simpson's rule, m, two links long. */
const CELL = 5e-3;
/**
 * Most of ln a within a cell. Simpson's error goes with its fourth power: in the quickest flares of the tests' random bores
 * 6e-4 of the gradient at 0.1, 4e-6 at 0.03.
 */
const WIDENING = 0.03;
export type BorePart = "mouthpiece" | "leadpipe" | "body";

/** A place of the bore, x m from the start of its part. */
export interface Place {
  readonly part: BorePart;
  readonly x: number;
}

/** Closer than this, m, is the same place. */
const SAME = 1e-9;

/** A stretch of bore or a lump: what stands between two neighbouring states. */
export interface Link {
  /** Stations at its entrance and exit; a gap has the shank's end and the leadpipe's mouth. */
  readonly near: number;
  readonly far: number;
  readonly piece: Piece | null;
  readonly medium: Medium;
}

export interface Layout {
  readonly places: readonly Place[];
  /** Radius, m, air and Simpson's weight, m, of every place. */
  readonly radii: Float64Array;
  readonly mediums: readonly Medium[];
  readonly weights: Float64Array;
  /** Rim to bell. */
  readonly links: readonly Link[];
}

/**
 * The stations of a bore and what links them, in the order of its axis.
 *
 * @param lower what of the lower part is looked at, from the slide on
 * @param leadpipeLength m, what of the upper part is leadpipe
 * @param draw m of tuning slide drawn; its cylinder belongs to the place of the slide
 */
export function layOut(bore: Bore, lower: readonly Piece[], leadpipeLength: number, draw: number): Layout {
  const places: Place[] = [];
  const radii: number[] = [];
  const weights: number[] = [];
  const links: Link[] = [];
  const mediumAt: Medium[] = [];
  const mediums = new Map<Piece["air"], Medium>();
  const mediumOf = (air: Piece["air"]): Medium => {
    const medium = mediums.get(air) ?? new Medium(air, bore.wallLossFactor);
    mediums.set(air, medium);
    return medium;
  };
  const addStation = (place: Place, radius: number, weight: number, medium: Medium): number => {
    places.push(place);
    radii.push(radius);
    weights.push(weight);
    mediumAt.push(medium);
    return places.length - 1;
  };
  const placeAt = (part: BorePart, x: number): Place =>
    part === "body" ? { part, x: x - leadpipeLength } : { part, x };
  /** @param runs false for the slide, which takes up no place of the body */
  const addPieces = (pieces: readonly Piece[], before: BorePart, start: number, runs = true): number => {
    let x = start;
    let part = before;
    for (const piece of pieces) {
      const medium = mediumOf(piece.air);
      const cells = cellsOf(piece);
      const steps = piece.length === 0 ? [piece] : cutIntoCells(piece, cells);
      const isStep = piece.length === 0;
      const after = part === "leadpipe" && x > leadpipeLength - SAME ? "body" : part;
      let near = addStation(placeAt(isStep ? part : after, x), piece.radiusIn, steps[0].length / 3, medium);
      part = after;
      steps.forEach((step, i) => {
        if (runs) x += step.length;
        // Simpson's: thirds of a link, 1 4 1 in every cell
        const weight = i % 2 ? (step.length + (steps[i + 1]?.length ?? 0)) / 3 : (4 * step.length) / 3;
        const far = addStation(placeAt(part, x), step.radiusOut, weight, medium);
        links.push({ near, far, piece: step, medium });
        near = far;
      });
    }
    return x;
  };
  addPieces(bore.mouthpiece, "mouthpiece", 0);
  const shankEnd = places.length - 1;
  links.push({ near: shankEnd, far: shankEnd + 1, piece: null, medium: mediumOf(bore.gapAir) });
  const slideAt = addPieces(bore.upper, "leadpipe", 0);
  if (draw !== 0 && bore.slide) {
    const { radius, air } = bore.slide;
    addPieces([{ length: draw, radiusIn: radius, radiusOut: radius, air }], "body", slideAt, false);
  }
  addPieces(lower, "body", slideAt);
  return {
    places,
    radii: Float64Array.from(radii),
    mediums: mediumAt,
    weights: Float64Array.from(weights),
    links,
  };
}

/**
 * A piece in cells of two equal links each: of equal length, or where a cone's narrow end would widen too much within one, of
 * equal widening.
 */
function cutIntoCells(piece: Piece, cells: number): Piece[] {
  const { length, radiusIn, radiusOut } = piece;
  const [narrow, wide] = radiusIn < radiusOut ? [radiusIn, radiusOut] : [radiusOut, radiusIn];
  if (Math.log1p((wide / narrow - 1) / cells) <= WIDENING) return cutPiece(piece, 2 * cells);
  const widening = Math.log(radiusOut / radiusIn);
  const radius = (k: number) => (k === cells ? radiusOut : radiusIn * Math.exp((widening * k) / cells));
  const share = (k: number) =>
    (Math.exp((widening * k) / cells) * Math.expm1(widening / cells)) / Math.expm1(widening);
  return Array.from({ length: cells }, (_, k) =>
    cutPiece({ ...piece, length: length * share(k), radiusIn: radius(k), radiusOut: radius(k + 1) }, 2),
  ).flat();
}

const cellsOf = ({ length, radiusIn, radiusOut }: Piece): number =>
  Math.max(
    1,
    Math.ceil(Math.abs(length) / CELL),
    Math.ceil(Math.abs(Math.log(radiusOut / radiusIn)) / WIDENING),
  );
