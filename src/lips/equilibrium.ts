/**
 * Lips of one mass at rest in a steady stream: with Δ = p_m − p_e = ½ρv² the drop that makes the jet's speed v,
 *
 *   y_e = y₀ + Δ/(μ ω_l²),   u_e = W y_e v,   p_e = R₀ u_e,   p_m = Δ + p_e
 *
 * Everything is explicit in v, and p_m rises with it, so that each p_m has one v. R₀ is what the modal sum itself gives at
 * 0 Hz, so that this is the rest of the same equations the oscillator integrates; it is no statement on how the instrument
 * resists a steady flow.
 */
import type { Equilibrium } from "./lipModel.ts";
import { massPerAreaAt, type OneMassLips } from "./lips.ts";

type Valve = OneMassLips & { readonly density: number };

/** μ ω_l², pressure that opens the lips by a metre, Pa/m. */
const stiffnessAt = (valve: Valve, lipHz: number): number =>
  massPerAreaAt(valve, lipHz) * (2 * Math.PI * lipHz) ** 2;

/** The rest with a jet of `v` m/s. */
export function equilibriumAt(valve: Valve, resistance: number, lipHz: number, v: number): Equilibrium {
  const drop = 0.5 * valve.density * v * v;
  const opening = valve.restOpening + drop / stiffnessAt(valve, lipHz);
  const flow = valve.width * opening * v;
  const cupPressure = resistance * flow;
  return { jetSpeed: v, opening, swing: 0, flow, cupPressure, mouthPressure: drop + cupPressure };
}

/** The rest under a mouth pressure above 0 Pa: Newton in v from above, where p_m(v) is convex, cannot overshoot. */
export function equilibriumOf(
  valve: Valve,
  resistance: number,
  lipHz: number,
  mouthPressure: number,
): Equilibrium {
  const { density, width, restOpening } = valve;
  const opens = density / (2 * stiffnessAt(valve, lipHz));
  let v = Math.sqrt((2 * mouthPressure) / density);
  for (let i = 0; i < 100; i++) {
    const excess =
      0.5 * density * v * v + resistance * width * v * (restOpening + opens * v * v) - mouthPressure;
    const slope = density * v + resistance * width * (restOpening + 3 * opens * v * v);
    const step = excess / slope;
    v -= step;
    if (Math.abs(step) <= 1e-15 * v) break;
  }
  return equilibriumAt(valve, resistance, lipHz, v);
}
