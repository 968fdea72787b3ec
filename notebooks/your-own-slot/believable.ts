/** How many bends make a difference believable: from the scatter of one take, what two gaps would have to differ by to be told apart. */
import { randomLcg, randomNormal } from "d3";
import type { Found } from "../../src/app/tasks/listen/session.ts";
import { type KeptTake, measuredIn } from "../../src/listen/keptTake.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { slotsAt } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import {
  differenceFoundBy,
  type ListenedNote,
  listenedNotes,
  planScatter,
  repeatsNeeded,
} from "../../src/study/listened/measuredGaps.ts";
import { demo, referenceGapMm } from "../paper/demo.ts";

/** The take as one at some gap would be kept; null where both edges were not found. */
export function noteOf({ asked, take }: Found): ListenedNote | null {
  const measured = measuredIn(take, asked.hz);
  if (measured?.test !== "slot" || measured.lowCents.length === 0 || measured.highCents.length === 0)
    return null;
  const kept: KeptTake = {
    id: "",
    at: "",
    partial: asked.partial,
    toPartial: null,
    gapMm: referenceGapMm,
    blind: null,
    measured,
    warnings: [],
    hasSound: false,
  };
  return listenedNotes([{ gapMm: referenceGapMm, take: kept }], () => asked.hz)[0] ?? null;
}

/** Scatter of one bend down and one up together, cents; null where nothing was repeated. */
export const scatterOf = (note: ListenedNote | null): number | null => note && planScatter(note);

export const MOST_BENDS = 30;

/** For so many bends each way at each of two gaps, the difference of width that is found four times in five, cents. */
export const foundBy = (scatter: number): { readonly bends: number[]; readonly cents: number[] } => {
  const bends = Array.from({ length: MOST_BENDS - 1 }, (_, i) => i + 2);
  return { bends, cents: bends.map((count) => differenceFoundBy(scatter, count)) };
};

/** Two gaps that do not differ at all, measured with so many bends each: by how much they seem to, many times over, cents. */
export function seemingDifferences(scatter: number, bends: number, times = 40, seed = 11): number[] {
  const width = randomNormal.source(randomLcg(seed))(0, scatter);
  const mean = () => Array.from({ length: bends }, width).reduce((sum, one) => sum + one, 0) / bends;
  return Array.from({ length: times }, () => mean() - mean());
}

/** What the model of the lips says that a tenth of an inch more gap does to this note's slot, on the demo instrument, cents. */
export function modelChange(partial: number): number | null {
  const instrument = new Instrument(demo, { modes: MODAL_COUNT });
  const [one, other] = [referenceGapMm, 2 * referenceGapMm].map(
    (gapMm) => slotsAt(instrument, gapMm, { referenceGapMm }).notes.find(({ n }) => n === partial)?.slot,
  );
  return one && other ? other.slotWidthCents - one.slotWidthCents : null;
}

/** Bends each way at each of two gaps to find a change of this size; null where none up to 99 does. */
export const bendsFor = (scatter: number, cents: number): number | null =>
  repeatsNeeded(scatter, Math.abs(cents));
