/** What a gap chart draws of a sweep: the samples of one quantity along the gap, a series a resonance or note. */
import { bisector } from "d3";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import type { Thresholds } from "../../../setup/setup.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteText } from "../../../words/instruments.ts";

/** What is drawn of a sweep: of resonances, or of notes, which no slide is drawn for. */
export interface Swept<Mode extends { readonly n: number } = ChangedMode> {
  readonly referenceGapMm: number;
  readonly retune: number | null;
  readonly reference: readonly { readonly n: number }[];
  readonly rows: readonly {
    readonly gapMm: number;
    readonly slideMm: number;
    readonly modes: readonly Mode[];
  }[];
}

export interface Quantity<Mode extends { readonly n: number } = ChangedMode> {
  readonly name: string;
  /** What the lines are of. */
  readonly noun?: "resonance" | "note";
  readonly title: string;
  readonly axis: string;
  readonly unit: "dB" | "cents";
  readonly digits: number;
  readonly of: (mode: Mode) => number | null;
  readonly feltFrom: (thresholds: Thresholds) => number;
  /** What the rule of thumb says of it, and nothing more than which way it points. */
  readonly rule?: string;
  /** The finding's verb and its object, for the text alternative. */
  readonly inWords: string;
}

/** Resonances notes are played on, drawn and labelled; the others only when one of them is asked for. */
export const played = [2, 10] as const;

export interface Sample {
  readonly gapMm: number;
  readonly value: number | null;
}

export interface Series {
  readonly n: number;
  readonly samples: readonly Sample[];
}

export function quantityOf<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { modes }: { readonly modes: readonly Mode[] },
  n: number,
): number | null {
  const mode = modes.find((candidate) => candidate.n === n);
  const value = mode ? quantity.of(mode) : null;
  return value !== null && Number.isFinite(value) ? value : null;
}

export const viewOf = ({ retune }: Pick<GapSweep, "retune">, instrument?: InstrumentKind): string =>
  retune === null ? "slide as it is" : `slide set again on ${noteText(retune, instrument)}`;

export function seriesOf<Mode extends { readonly n: number }>(
  quantity: Quantity<Mode>,
  { reference, rows }: Swept<Mode>,
  highlight?: number,
): Series[] {
  const ordered = [...rows].sort((a, b) => a.gapMm - b.gapMm);
  return reference
    .filter(({ n }) => (n >= played[0] && n <= played[1]) || n === highlight)
    .map(({ n }) => ({
      n,
      samples: ordered.map((row) => ({ gapMm: row.gapMm, value: quantityOf(quantity, row, n) })),
    }))
    .filter(({ samples }) => samples.some(({ value }) => value !== null));
}

const byGap = bisector(({ gapMm }: { gapMm: number }) => gapMm);

/** Between neighbouring gaps of the sweep by straight lines, as drawn; null beyond its ends and beside a missing value. */
export function valueAt(samples: readonly Sample[], gapMm: number): number | null {
  const i = byGap.left(samples, gapMm);
  const next = samples[i];
  if (next === undefined) return null;
  if (next.gapMm === gapMm) return next.value;
  const before = samples[i - 1];
  if (before === undefined || before.value === null || next.value === null) return null;
  return before.value + ((gapMm - before.gapMm) / (next.gapMm - before.gapMm)) * (next.value - before.value);
}

export type Slid = Swept<{ readonly n: number }>;

/** What the player's hand on the slide has to do, when the drawing shows the retuned instrument. */
export function slideText({ retune, rows }: Slid, gapMm: number, unit: LengthUnit): string {
  if (retune === null) return "";
  const slides = [...rows]
    .sort((a, b) => a.gapMm - b.gapMm)
    .map((row) => ({ gapMm: row.gapMm, value: row.slideMm }));
  const slideMm = valueAt(slides, gapMm);
  if (slideMm === null) return "";
  const size = formatLength(Math.abs(slideMm), unit, unit === "mm" ? 1 : 2);
  return Number.parseFloat(size) === 0 ? ", slide stays" : `, slide ${slideMm < 0 ? "in" : "out"} ${size}`;
}
