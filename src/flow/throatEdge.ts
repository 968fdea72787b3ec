/**
 * What a stream loses as it turns around the edge between a cup and its throat. At a sharp edge it leaves the wall, contracts
 * to C_c of the throat's area and fills the throat again (Borda–Carnot):
 *
 *   K = (1/C_c − 1)² ζ(r/D)     over ½ρū² of the throat
 *   1/C_c = 1 + (1/π) ∫₀^π sin(βγ/π) cot(γ/2) dγ        wall at β to the axis, out of a wide room (von Mises 1917, from memory:
 *                                                       0.611 at 90°, 0.747 at 45°; of slots, which round holes follow closely)
 *   ζ = (0.03 + 0.47 · 10^(−7.7 r/D))/0.5               of an edge rounded to r (Idelchik, Handbook of Hydraulic Resistance,
 *                                                       inlets, from memory; r/D up to 0.2)
 *
 * Where pipes flow laminar the boundary layer fills the place that the stream would leave, so the estimate has this loss only
 * as far as the pipe's friction is turbulent. Nobody measures the edge: the bounds are none of this loss, as of an edge rounded
 * well, and all of a sharp one's at any speed.
 */
import type { Bounded } from "./gapLoss.ts";

export interface ThroatEdge {
  /** β, radians; 0 where there is no cup to come from. */
  readonly wallAngle: number;
  /** Diameter of the throat, m. */
  readonly diameter: number;
  /** r, m; null where nobody has measured it. */
  readonly radius: number | null;
}

/** What an edge is taken to be rounded to where a setup does not say, m: common practice, no source. */
export const ASSUMED_EDGE_RADIUS = 0.5e-3;

const POINTS = 200;

/** C_c of a stream out of a wide room past a wall at an angle to the axis, radians from 0 to π. */
export function contractionCoefficient(wallAngle: number): number {
  let sum = 0;
  for (let k = 0; k < POINTS; k++) {
    const gamma = ((k + 0.5) * Math.PI) / POINTS;
    sum += Math.sin((wallAngle * gamma) / Math.PI) / Math.tan(gamma / 2) / POINTS;
  }
  return 1 / (1 + sum);
}

/** ζ of an edge whose radius is this part of the throat's diameter: 1 where sharp. */
export const roundedPart = (radiusOverDiameter: number): number =>
  (0.03 + 0.47 * 10 ** (-7.7 * radiusOverDiameter)) / 0.5;

/**
 * K between its bounds.
 * @param turbulent part of the friction that is turbulent, 0 to 1
 */
export function throatEdgeLoss({ wallAngle, diameter, radius }: ThroatEdge, turbulent: number): Bounded {
  const upper = (1 / contractionCoefficient(wallAngle) - 1) ** 2;
  const rounded = roundedPart((radius ?? ASSUMED_EDGE_RADIUS) / diameter);
  return {
    lower: 0,
    estimate: upper * rounded * turbulent,
    upper: radius === null ? upper : upper * rounded,
  };
}
