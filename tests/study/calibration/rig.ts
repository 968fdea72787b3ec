/** A rig that is known: a loudspeaker behind an impedance of its own, a microphone in the space before the mouth. */
import { type StraightTube, straightTubeStates } from "../../../src/acoustics/load/straightTube.ts";
import { type Climate, moistAir } from "../../../src/acoustics/medium/air.ts";

export const ROOM: Climate = { temperatureC: 20, humidity: 0.5, co2: 0.0004, pressurePa: 101_325 };

type Complex = readonly [re: number, im: number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = (x: Complex, [c, d]: Complex): Complex => times(x, [c / (c * c + d * d), -d / (c * c + d * d)]);
const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d];

/**
 * What the microphone gives on a load of pressure p and flow U: a capillary of 40 MPa·s/m³ with mass feeds a space of 1.5 cm³,
 * and the microphone stands 4 mm before the mouth in it, so that it also hears some of the load's flow.
 */
export function rigOn(states: Float64Array, frequencies: Float64Array): Float64Array {
  const response = new Float64Array(2 * frequencies.length);
  frequencies.forEach((hz, i) => {
    const w = 2 * Math.PI * hz;
    const p: Complex = [states[4 * i], states[4 * i + 1]];
    const u: Complex = [states[4 * i + 2], states[4 * i + 3]];
    const source: Complex = [4e7, w * 2e3];
    const compliance: Complex = [0, (w * 1.5e-6) / 1.4e5];
    // the microphone's pressure, and the flow that the source has to give
    const heard = plus(p, times([0, w * 60], u));
    const given = plus(u, times(compliance, heard));
    const driven = plus(heard, times(source, given));
    // a loudspeaker that rolls off below 110 Hz
    const low = 2 * Math.PI * 110;
    const speaker = over([-w * w, 0], [low * low - w * w, (w * low) / 0.8]);
    response.set(times(speaker, over(heard, driven)), 2 * i);
  });
  return response;
}

export const onTube = (tube: StraightTube, climate: Climate, frequencies: Float64Array): Float64Array =>
  rigOn(straightTubeStates(tube, moistAir(climate), frequencies), frequencies);

/** [p, U] of an impedance, two doubles a frequency. */
export function statesOf(impedance: Float64Array): Float64Array {
  const states = new Float64Array(2 * impedance.length);
  for (let i = 0; i < impedance.length / 2; i++)
    states.set([impedance[2 * i], impedance[2 * i + 1], 1, 0], 4 * i);
  return states;
}

export const TUBES: readonly StraightTube[] = [
  { end: "closed", length: 0.06, radius: 0.006 },
  { end: "closed", length: 0.0971, radius: 0.006 },
  { end: "closed", length: 0.151, radius: 0.006 },
  { end: "open", length: 0.2103, radius: 0.006 },
];

/** A load beside a leak of the mouth's seal: a slit as wide as a hair's air, of this resistance and mass, Pa·s/m³ and Pa·s²/m³. */
export function leaking(
  states: Float64Array,
  frequencies: Float64Array,
  { resistance, mass }: { readonly resistance: number; readonly mass: number },
): Float64Array {
  const leaked = new Float64Array(states.length);
  frequencies.forEach((hz, i) => {
    const p: Complex = [states[4 * i], states[4 * i + 1]];
    const u: Complex = [states[4 * i + 2], states[4 * i + 3]];
    const flow = plus(u, over(p, [resistance, 2 * Math.PI * hz * mass]));
    leaked.set([...p, ...flow], 4 * i);
  });
  return leaked;
}
