/** One channel of sound as it was recorded, and what is wrong with a recording before anything is made of it. */
export interface Sound {
  /** −1 to 1. */
  readonly samples: Float32Array;
  /** Samples a second. */
  readonly rate: number;
}

/** `clipped`: louder than can be written; `cut off`: ended before the excitation did; `noisy`: hardly louder than the room. */
export type SoundWarning = "clipped" | "cut off" | "noisy";

const FULL_SCALE = 0.998;
/** So many samples at full scale are no chance. */
const CLIPPED = 4;
const NOISY_DB = 10;
/** A silence that is too short tells nothing of the noise, s. */
const SHORTEST_SILENCE = 0.05;

export function soundWarnings(excitation: Sound, recording: Sound): SoundWarning[] {
  const warnings: SoundWarning[] = [];
  if (recording.samples.filter((value) => Math.abs(value) >= FULL_SCALE).length >= CLIPPED)
    warnings.push("clipped");
  if (recording.samples.length < soundingEnd(excitation)) warnings.push("cut off");
  const ratio = signalToNoiseDb(excitation, recording);
  if (ratio !== null && ratio < NOISY_DB) warnings.push("noisy");
  return warnings;
}

/**
 * Of the recording while the excitation sounds over the silence before it, root mean squares, dB; null where no silence was recorded.
 */
export function signalToNoiseDb(excitation: Sound, { samples, rate }: Sound): number | null {
  const from = excitation.samples.findIndex((value) => value !== 0);
  if (from < SHORTEST_SILENCE * rate) return null;
  const noise = meanSquare(samples.subarray(0, from));
  const both = meanSquare(samples.subarray(from, soundingEnd(excitation)));
  return 10 * Math.log10(Math.max(1e-3, both / noise - 1));
}

const soundingEnd = ({ samples }: Sound): number => samples.findLastIndex((value) => value !== 0) + 1;

const meanSquare = (samples: Float32Array): number =>
  Math.max(
    // a digital silence is not quieter than a step of 16 bits
    1e-10,
    samples.reduce((sum, value) => sum + value * value, 0) / Math.max(1, samples.length),
  );
