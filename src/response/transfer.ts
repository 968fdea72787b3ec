/**
 * What one rig makes of one excitation, again and again on different loads: responses with one origin of time and at the same
 * frequencies, so that they can be held against one another as complex numbers.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import { arrival, impulseResponse, noiseOf, windowedSpectrum } from "./impulseResponse.ts";
import type { Sound } from "./sound.ts";

/** What was played, and what the microphone heard of it, on one clock. */
export interface RigTake {
  readonly excitation: Sound;
  readonly recording: Sound;
}

export interface Transfers {
  /** Hz, rising. */
  readonly hz: Float64Array;
  readonly responses: readonly Transfer[];
}

export interface Transfer {
  /** Two doubles a frequency. */
  readonly values: Float64Array;
  /** Standard deviation of the noise in each of both parts. */
  readonly deviation: Float64Array;
}

/** A column rings that long at most, s: ten decay times of the lowest resonance of a tuba. */
const SECONDS = 1.5;
/** Below a tenth of the lowest frequency's period nothing has arrived, s. */
const EARLY = 1e-3;

/** @throws OutOfRange where rates differ or a take is too short */
export function transfers(takes: readonly RigTake[]): Transfers {
  const [{ rate }] = takes.map(({ recording }) => recording);
  for (const { excitation, recording } of takes) {
    if (excitation.rate !== rate || recording.rate !== rate)
      throw new OutOfRange(
        `recordings of ${rate} and of ${excitation.rate === rate ? recording.rate : excitation.rate} samples a second cannot be compared; record all at one rate`,
      );
    if (recording.samples.length < 2 * rate) throw new OutOfRange("two seconds of recording is the least");
  }
  // all in one grid of frequencies
  const longest = Math.max(...takes.map(({ recording }) => recording.samples.length));
  const impulses = takes.map(({ excitation, recording }) => {
    const padded = new Float32Array(longest);
    padded.set(recording.samples);
    return impulseResponse(excitation.samples.subarray(0, longest), padded, rate);
  });
  // a load never makes the sound arrive later than at its wall: they begin where the earliest does
  const start = Math.min(...impulses.map(arrival)) - EARLY;
  const spectra = impulses.map((impulse) => windowedSpectrum(impulse, start, SECONDS));
  const from = Math.max(...spectra.map(({ hz }) => hz[0])) - 1e-6;
  const to = Math.min(...spectra.map(({ hz }) => hz[hz.length - 1])) + 1e-6;
  const shared = spectra.map(({ hz, values }) => {
    const [first, end] = [hz.findIndex((f) => f >= from), hz.findLastIndex((f) => f <= to) + 1];
    return { hz: hz.slice(first, end), values: values.slice(2 * first, 2 * end) };
  });
  return {
    hz: shared[0].hz,
    responses: shared.map((spectrum, k) => ({
      values: spectrum.values,
      deviation: noiseOf(spectrum, impulses[k]),
    })),
  };
}
