/**
 * A trial played alone: what is tried lies in envelopes that one person filled, shuffled and only then lettered. Until they are
 * opened a turn's place is that of an envelope, and nobody, the page included, knows its volume.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import type { Trial, Turn } from "./trial.ts";

/** Told apart over a room; as many as a trial may have items. */
const LETTERS = "CFHJKLM";

/** The letters written on the envelopes of a trial of so many items. */
export const envelopeLetters = (count: number): readonly string[] => [...LETTERS.slice(0, count)];

/** Envelope and repeat, as `K2`: no two turns are called alike. */
export const envelopeCodes = (order: readonly number[], count: number): string[] =>
  order.map((envelope, i) => `${LETTERS[envelope]}${1 + Math.floor(i / count)}`);

/** The letter of the envelope to take at a turn. */
export const envelopeOf = ({ code }: Turn): string => code[0];

/**
 * The trial once the envelopes are open: every turn at the item that its envelope held.
 *
 * @param holds of each envelope, in the order of their letters, the place of its item @throws OutOfRange in words
 */
export function withEnvelopesOpen(trial: Trial, holds: readonly number[]): Trial {
  const { items, turns } = trial;
  const isWhole = holds.length === items.length && items.every((_, item) => holds.includes(item));
  if (!isWhole) throw new OutOfRange("Every envelope holds one thing, and no two hold the same.");
  return { ...trial, turns: turns.map((turn) => ({ ...turn, item: holds[turn.item] })) };
}
