/**
 * Steady, incompressible, one-dimensional flow through a row of cones: what it loses of its total pressure p + ½ρu².
 *
 * Friction of a cone, with the variable w = D⁻⁴ in place of x (½ρu² = 8ρQ²w/π², and dx/D·w is exact in w for constant f):
 *
 *   Δp = ∫ f ½ρu²/D dx = (8ρQ²/π²) · L (D₁+D₂)(D₁²+D₂²)/(4 D₁⁴ D₂⁴) · ⟨f⟩
 *
 * ⟨f⟩ the mean of f over w, by three-point Gauss–Legendre on pieces whose radius changes by a fifth at most; f falls with the
 * local Reynolds number, which is why it cannot be one number a cone.
 *
 * Area changes: consecutive cones that all widen (or all narrow) are one run, because the fast core that the widening leaves
 * behind, and the edge that the narrowing turns around, do not start anew at every point of a profile. Each cone adds its
 * angle's part of the growth of the run's sudden loss, so a profile drawn with more points loses the same. In a straight
 * stretch the run's beginning is forgotten over `EVEN_AFTER` diameters.
 */
import { partOfSudden, suddenLoss } from "./areaChange.ts";
import { DRAWN_TUBING, frictionFactor, reynoldsNumber } from "./friction.ts";

/** SI. */
export interface Gas {
  /** kg/m³ */
  readonly density: number;
  /** Pa·s */
  readonly viscosity: number;
}

/** Length and radii in m; length 0 is a step. */
export interface Cone {
  readonly length: number;
  readonly radiusIn: number;
  readonly radiusOut: number;
}

export interface PipeLoss {
  /** Pa */
  readonly friction: number;
  /** Pa */
  readonly areaChange: number;
  /** Speed at which the last run of widening or narrowing began, m/s: where the next pipe takes it up. */
  readonly runStart: number;
}

/** Diameters of straight bore after which 1/e of a run's beginning is left (some ten until the profile is even: from memory). */
const EVEN_AFTER = 5;
const LARGEST_CHANGE = 0.2;
/** Gauss–Legendre on 0 to 1. */
const POINTS = [0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)];
const WEIGHTS = [5 / 18, 8 / 18, 5 / 18];

/** Mean speed, m/s, of a flow in m³/s through a radius in m. */
export const speedThrough = (flow: number, radius: number): number => flow / (Math.PI * radius * radius);

/** ½ρu², Pa */
export const dynamicPressure = (flow: number, radius: number, density: number): number =>
  0.5 * density * speedThrough(flow, radius) ** 2;

/**
 * Total pressure lost along cones in a row by a steady flow, friction and area changes apart, Pa.
 * @param flow m³/s, from 0
 * @param runStart of the pipe before, if one joins without a break
 */
export function pipeLoss(
  cones: readonly Cone[],
  gas: Gas,
  flow: number,
  runStart = cones.length > 0 ? speedThrough(flow, cones[0].radiusIn) : 0,
): PipeLoss {
  let friction = 0;
  let areaChange = 0;
  let start = runStart;
  for (const { length, radiusIn, radiusOut } of cones) {
    friction += coneFriction(length, radiusIn, radiusOut, gas, flow);
    const before = speedThrough(flow, radiusIn);
    const after = speedThrough(flow, radiusOut);
    if (after === before) {
      start = before + (start - before) * Math.exp(-length / (EVEN_AFTER * 2 * radiusIn));
      continue;
    }
    const widening = after < before;
    start = widening ? Math.max(start, before) : Math.min(start, before);
    const part = partOfSudden(Math.abs(radiusOut - radiusIn) / length, widening);
    areaChange += part * (suddenLoss(start, after, gas.density) - suddenLoss(start, before, gas.density));
  }
  return { friction, areaChange, runStart: start };
}

/** The same pipe blown from its other end. */
export const reversed = (cones: readonly Cone[]): Cone[] =>
  cones
    .map(({ length, radiusIn, radiusOut }) => ({ length, radiusIn: radiusOut, radiusOut: radiusIn }))
    .reverse();

function coneFriction(length: number, radiusIn: number, radiusOut: number, gas: Gas, flow: number): number {
  if (length === 0 || flow === 0) return 0;
  const pieces = Math.max(1, Math.ceil(Math.abs(Math.log(radiusOut / radiusIn)) / LARGEST_CHANGE));
  const radius = (k: number) =>
    k === pieces ? radiusOut : radiusIn * (radiusOut / radiusIn) ** (k / pieces);
  let sum = 0;
  for (let k = 0; k < pieces; k++) {
    const diameter1 = 2 * radius(k);
    const diameter2 = 2 * radius(k + 1);
    const share = pieces === 1 ? 1 : (diameter2 - diameter1) / (2 * (radiusOut - radiusIn));
    const w1 = diameter1 ** -4;
    const w2 = diameter2 ** -4;
    // (w₁ − w₂)/(4 (D₂ − D₁)), which is 0/0 in a cylinder, written out
    const stretch = ((diameter1 + diameter2) * (diameter1 ** 2 + diameter2 ** 2) * w1 * w2) / 4;
    const factor = WEIGHTS.reduce((mean, weight, i) => {
      const diameter = (w1 + (w2 - w1) * POINTS[i]) ** -0.25;
      const reynolds = reynoldsNumber(flow, diameter / 2, gas.viscosity / gas.density);
      return mean + weight * frictionFactor(reynolds, DRAWN_TUBING / diameter);
    }, 0);
    sum += stretch * factor * share * length;
  }
  return (8 * gas.density * flow * flow * sum) / Math.PI ** 2;
}
