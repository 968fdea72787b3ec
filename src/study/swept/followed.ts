/** The same resonance in several takes: each goes to the nearest of those that were heard before, where it is near enough. */
import { median } from "d3";
import type { KeptResonance } from "../../response/keptSweep.ts";
import { cents } from "../instrument/pitch.ts";

export type HeardResonance = KeptResonance;

/** Neighbours of a brass instrument lie no closer than some 100 cents below the twentieth. */
const NEAR_CENTS = 45;

/** A row a resonance, with what each take has of it, or null; the lowest first. */
export function followed(takes: readonly (readonly HeardResonance[])[]): (HeardResonance | null)[][] {
  const rows: (HeardResonance | null)[][] = [];
  for (const [k, take] of takes.entries()) {
    const pairs = take
      .flatMap((one) => rows.map((row) => ({ one, row, apart: Math.abs(cents(one.hz, middle(row))) })))
      .filter(({ apart }) => apart < NEAR_CENTS)
      .sort((a, b) => a.apart - b.apart);
    const left = new Set(take);
    for (const { one, row } of pairs) {
      if (!left.has(one) || row[k]) continue;
      row[k] = one;
      left.delete(one);
    }
    for (const one of left)
      rows.push(Object.assign(new Array<HeardResonance | null>(takes.length).fill(null), { [k]: one }));
  }
  return rows.sort((a, b) => middle(a) - middle(b));
}

const middle = (row: readonly (HeardResonance | null)[]): number =>
  median(row.flatMap((one) => one?.hz ?? []))!;
