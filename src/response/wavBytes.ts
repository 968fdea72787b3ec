/** One channel of sound as a WAV file of 16 bits, which everything plays. */
import type { Sound } from "./sound.ts";

export function wavBytes({ samples, rate }: Sound): Uint8Array {
  const data = new DataView(new ArrayBuffer(44 + 2 * samples.length));
  const word = (at: number, letters: string) =>
    [...letters].forEach((letter, i) => {
      data.setUint8(at + i, letter.charCodeAt(0));
    });
  const long = (at: number, value: number) => data.setUint32(at, value, true);
  const short = (at: number, value: number) => data.setUint16(at, value, true);
  word(0, "RIFF");
  long(4, 36 + 2 * samples.length);
  word(8, "WAVEfmt ");
  long(16, 16);
  // linear, one channel
  short(20, 1);
  short(22, 1);
  long(24, rate);
  long(28, 2 * rate);
  short(32, 2);
  short(34, 16);
  word(36, "data");
  long(40, 2 * samples.length);
  samples.forEach((value, i) => {
    data.setInt16(44 + 2 * i, Math.round(Math.max(-1, Math.min(1, value)) * 32767), true);
  });
  return new Uint8Array(data.buffer);
}
