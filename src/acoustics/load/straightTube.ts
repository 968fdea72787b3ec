/**
 * What a straight tube is to whoever blows into it, closed at its far end by a rigid wall or open to the room without a flange: the
 * load whose impedance is known from its length. Viscous and thermal losses as everywhere (Zwikker & Kosten 1949).
 */
import { radiationState } from "../bell/radiation.ts";
import { coneTwoPort, Medium, Station } from "../duct/cone.ts";
import { applyTo, STATE, TWO_PORT } from "../duct/twoPort.ts";
import type { Air } from "../medium/air.ts";

export interface StraightTube {
  readonly end: "closed" | "open";
  /** m */
  readonly length: number;
  /** m */
  readonly radius: number;
}

/**
 * [p, U] at the tube's mouth at every frequency, up to a common factor: finite at every resonance.
 * @param frequencies Hz
 * @returns four doubles a frequency, in Pa and m³/s
 */
export function straightTubeStates(
  { end, length, radius }: StraightTube,
  air: Air,
  frequencies: Float64Array,
): Float64Array {
  const medium = new Medium(air, 1);
  const station = new Station();
  const twoPort = new Float64Array(TWO_PORT);
  const state = new Float64Array(STATE);
  const states = new Float64Array(STATE * frequencies.length);
  frequencies.forEach((hz, i) => {
    const omega = 2 * Math.PI * hz;
    medium.setFrequency(omega, 0);
    station.set(radius, medium);
    if (end === "closed") state.set([1, 0, 0, 0]);
    else radiationState("unflanged", radius, air, omega, 0, state);
    coneTwoPort(station, station, station, length, twoPort);
    applyTo(state, twoPort);
    states.set(state, STATE * i);
  });
  return states;
}
