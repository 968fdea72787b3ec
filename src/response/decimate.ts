/**
 * Sound at a lower rate, by a windowed-sinc low-pass (Blackman's window: 74 dB down). What two sounds have lost by it drops out
 * where they are divided by one another.
 */

/** A whole factor by which a rate can be lowered so that all up to `highestHz` stays clear of what folds back. */
export const decimation = (rate: number, highestHz: number): number =>
  Math.max(1, Math.floor(rate / (2.75 * highestHz)));

/** Every `factor`th sample of the sound without what would fold back. */
export function decimated(samples: Float32Array, factor: number): Float32Array {
  if (factor === 1) return samples;
  const half = 9 * factor;
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, i) => {
    const x = (i - half) / factor;
    const t = (2 * Math.PI * i) / (2 * half);
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    return (sinc * (0.42 - 0.5 * Math.cos(t) + 0.08 * Math.cos(2 * t))) / factor;
  });
  const out = new Float32Array(Math.floor((samples.length - 1) / factor) + 1);
  for (let k = 0; k < out.length; k++) {
    const first = k * factor - half;
    let sum = 0;
    for (let i = Math.max(0, -first); i < taps.length && first + i < samples.length; i++)
      sum += taps[i] * samples[first + i];
    out[k] = sum;
  }
  return out;
}
