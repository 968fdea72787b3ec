/**
 * A take for a class without a microphone: a note bent to its edges as a player would, invented, with edges that are known. It is
 * analysed as any recording is.
 */
import { randomLcg, randomNormal } from "d3";
import { wavBytes } from "../../src/response/wavBytes.ts";

const RATE_HZ = 16_000;
const BENDS = 3;
/** Where this player's note breaks, cents about the note at rest, and how far the ends scatter from bend to bend. */
export const INVENTED = { lowCents: -95, highCents: 75, scatterCents: 10 } as const;

const HOLD_S = 0.9;
const BEND_S = 1.3;
const BROKEN_S = 0.3;
const SILENCE_S = 0.35;
const FADE_S = 0.02;
const HARMONICS = [1, 0.7, 0.5, 0.35, 0.25];
const LEVEL = 0.08;
const NOISE = 0.0004;

/** Bends down and up in turn; each ends where the note breaks into its neighbour. */
export function inventedSound(restHz: number, partial: number, seed = 5): Float32Array {
  const random = randomLcg(seed);
  const scatter = randomNormal.source(random)(0, INVENTED.scatterCents);
  const noise = randomNormal.source(random)(0, NOISE);
  const parts: number[] = [];
  const quiet = (seconds: number) => {
    for (let i = 0; i < seconds * RATE_HZ; i++) parts.push(noise());
  };
  quiet(0.5);
  for (let bend = 0; bend < 2 * BENDS; bend++) {
    const isDown = bend % 2 === 0;
    const edge = (isDown ? INVENTED.lowCents : INVENTED.highCents) + scatter();
    // the lowest partial that is listened to has no neighbour below that sounds
    const neighbour = isDown ? Math.max(1, partial - 1) : partial + 1;
    const brokenCents = 1200 * Math.log2(neighbour / partial) || edge;
    const length = HOLD_S + BEND_S + BROKEN_S;
    let turns = 0;
    for (let i = 0; i < length * RATE_HZ; i++) {
      const atS = i / RATE_HZ;
      const bent = Math.min(1, Math.max(0, (atS - HOLD_S) / BEND_S)) * edge;
      const cents = atS < HOLD_S + BEND_S ? bent : brokenCents;
      turns += (restHz * 2 ** (cents / 1200)) / RATE_HZ;
      const fade = Math.min(1, atS / FADE_S, (length - atS) / FADE_S);
      const sum = HARMONICS.reduce((all, size, k) => all + size * Math.sin(2 * Math.PI * (k + 1) * turns), 0);
      parts.push(LEVEL * fade * sum + noise());
    }
    quiet(SILENCE_S);
  }
  return Float32Array.from(parts);
}

/** What its file is called, wherever it is named. */
export const INVENTED_NAME = "invented take";

export const inventedFile = (restHz: number, partial: number): File =>
  new File(
    [wavBytes({ samples: inventedSound(restHz, partial), rate: RATE_HZ }) as Uint8Array<ArrayBuffer>],
    INVENTED_NAME,
    { type: "audio/wav" },
  );
