/** What a leadpipe under design must keep to: how wide it may be, how it is made, what of it is held. */
import { OutOfRange } from "../../units/outOfRange.ts";
import { dot } from "./designSpline.ts";

export interface DesignLimits {
  /** Control diameters of the spline, the ends included. */
  readonly knots: number;
  readonly holdsEntry: boolean;
  readonly holdsEnd: boolean;
  readonly smallestMm: number;
  readonly largestMm: number;
  /** Never narrows towards the bell: can be drawn off a mandrel. */
  readonly widens: boolean;
  /** Of the wall's line, mm; 0 for any. */
  readonly leastCurvatureRadiusMm: number;
  /** Between which the gap may be chosen, mm; null: it stays. */
  readonly gapMm: readonly [low: number, high: number] | null;
}

/** What breaks a limit by as much counts as one cent: mm of narrowing between control diameters; part of the curvature. */
const NARROWING_MM = 1e-3;
const CURVATURE_PART = 0.01;
/** @throws OutOfRange in words on limits that no leadpipe keeps */
export function checkLimits(
  { smallestMm, largestMm, widens, holdsEntry, holdsEnd, leastCurvatureRadiusMm }: DesignLimits,
  held: readonly number[],
) {
  const [entry, end] = [held[0], held[held.length - 1]];
  if (!(smallestMm > 0 && largestMm > smallestMm && largestMm < 1000))
    throw new OutOfRange(
      `no leadpipe is between ${smallestMm} and ${largestMm} mm wide: give a smallest and a larger largest diameter`,
    );
  for (const [name, d, isHeld] of [
    ["entry", entry, holdsEntry],
    ["end", end, holdsEnd],
  ] as const)
    if (isHeld && !(d >= smallestMm && d <= largestMm))
      throw new OutOfRange(
        `the leadpipe's ${name} is held at ${d} mm, outside ${smallestMm} to ${largestMm} mm: widen the limits or free it`,
      );
  if (widens && holdsEntry && holdsEnd && end < entry)
    throw new OutOfRange(
      `a leadpipe from ${entry} to ${end} mm cannot widen throughout: free an end or let it narrow`,
    );
  if (!(leastCurvatureRadiusMm >= 0 && leastCurvatureRadiusMm < 1e7))
    throw new OutOfRange(
      `a radius of curvature of ${leastCurvatureRadiusMm} mm cannot be asked for: give 0 or more, in mm`,
    );
}

/**
 * How far each limit of the shape is broken, 0 where it is kept, and how that changes a mm of each control diameter.
 * @param curvatures second derivatives of the basis where they can be largest
 */
export function brokenLimits(
  { widens, leastCurvatureRadiusMm }: DesignLimits,
  controls: readonly number[],
  curvatures: readonly (readonly number[])[],
): { readonly by: number; readonly row: readonly number[] }[] {
  const hinge = (by: number, row: readonly number[]) =>
    by > 0 ? { by, row } : { by: 0, row: controls.map(() => 0) };
  const narrowing = !widens
    ? []
    : controls.slice(1).map((d, k) =>
        hinge(
          (controls[k] - d) / NARROWING_MM,
          controls.map((_, j) => (j === k ? 1 : j === k + 1 ? -1 : 0) / NARROWING_MM),
        ),
      );
  if (leastCurvatureRadiusMm === 0) return narrowing;
  const bends = curvatures.map((basis) => {
    // half the diameter's second derivative, in parts of what is allowed
    const bend = (dot(basis, controls) / 2) * leastCurvatureRadiusMm;
    const scale = (Math.sign(bend) * leastCurvatureRadiusMm) / 2 / CURVATURE_PART;
    return hinge(
      (Math.abs(bend) - 1) / CURVATURE_PART,
      basis.map((value) => scale * value),
    );
  });
  return [...narrowing, ...bends];
}
