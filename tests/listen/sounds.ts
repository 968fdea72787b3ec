/** Sounds made of harmonics, for what a test needs to know exactly. */

export interface Tone {
  readonly hz: number | ((atS: number) => number);
  readonly fromS: number;
  readonly toS: number;
  /** Amplitudes of the harmonics; falling by a third from one to the next where not given. */
  readonly harmonics?: readonly number[];
  readonly level?: number;
}

const FALLING = Array.from({ length: 10 }, (_, k) => 0.66 ** k);
const FADE_S = 0.02;

/** A generator of numbers in −1 to 1 (Park & Miller 1988). */
export function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return (2 * state) / 2147483647 - 1;
  };
}

/** Tones and white noise, as a microphone would give them. */
export function sound(
  rateHz: number,
  seconds: number,
  tones: readonly Tone[],
  noise = 0.0003,
  seed = 7,
): Float32Array {
  const samples = new Float32Array(Math.round(rateHz * seconds));
  const random = randomNumbers(seed);
  for (let i = 0; i < samples.length; i++) samples[i] = noise * Math.sqrt(3) * random();
  for (const { hz, fromS, toS, harmonics = FALLING, level = 0.1 } of tones) {
    let turns = 0;
    const norm = level / Math.sqrt(harmonics.reduce((sum, a) => sum + (a * a) / 2, 0));
    for (let i = Math.round(fromS * rateHz); i < Math.min(samples.length, toS * rateHz); i++) {
      const atS = i / rateHz;
      const now = typeof hz === "number" ? hz : hz(atS - fromS);
      turns += now / rateHz;
      const fade = Math.min(1, (atS - fromS) / FADE_S, (toS - atS) / FADE_S);
      let sum = 0;
      harmonics.forEach((amplitude, k) => {
        if ((k + 1) * now < 0.45 * rateHz) sum += amplitude * Math.sin(2 * Math.PI * (k + 1) * turns + k * k);
      });
      samples[i] += norm * fade * sum;
    }
  }
  return samples;
}

export const blocksOf =
  (sampleRateHz: number, ...channels: Float32Array[]) =>
  () => [{ sampleRateHz, channels }];

/** A WAV file of 16 bits. */
export function wavBytes(rateHz: number, ...channels: Float32Array[]): Uint8Array {
  const length = channels[0].length * channels.length * 2;
  const view = new DataView(new ArrayBuffer(44 + length));
  const text = (at: number, letters: string) => {
    for (let i = 0; i < letters.length; i++) view.setUint8(at + i, letters.charCodeAt(i));
  };
  text(0, "RIFF");
  view.setUint32(4, 36 + length, true);
  text(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channels.length, true);
  view.setUint32(24, rateHz, true);
  view.setUint32(28, rateHz * channels.length * 2, true);
  view.setUint16(32, channels.length * 2, true);
  view.setUint16(34, 16, true);
  text(36, "data");
  view.setUint32(40, length, true);
  channels[0].forEach((_, i) => {
    channels.forEach((channel, c) => {
      const value = Math.max(-32768, Math.min(32767, Math.round(32767 * channel[i])));
      view.setInt16(44 + 2 * (i * channels.length + c), value, true);
    });
  });
  return new Uint8Array(view.buffer);
}
