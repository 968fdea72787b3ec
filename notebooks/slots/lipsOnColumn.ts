/** Modelled lips on the demo's air column: what begins at which lip frequency and pressure, and how hard it is to start. */
import { DEFAULT_LIPS } from "../../src/lips/lips.ts";
import { noteAt } from "../../src/lips/note.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { MODAL_COUNT } from "../../src/study/feel/modalColumn.ts";
import { type Blown, blownAt, valveIn } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../paper/demo.ts";

export const instrument = new Instrument(demo, { modes: MODAL_COUNT });
export const valve = valveIn(instrument, DEFAULT_LIPS);

export const notes = Array.from({ length: PLAYED[1] - PLAYED[0] + 1 }, (_, i) => PLAYED[0] + i);
/** Shown, Hz. */
export const lipRange = [180, 1250] as const;
const points = 280;
const lipHzs = Array.from(
  { length: points },
  (_, i) => lipRange[0] * (lipRange[1] / lipRange[0]) ** (i / (points - 1)),
);

let last: { readonly gapMm: number; readonly blown: Blown } | null = null;

/** The lips at one gap; the last one is kept. */
export function blownOn(gapMm: number): Blown {
  if (last?.gapMm !== gapMm) last = { gapMm, blown: blownAt(instrument, gapMm, valve) };
  return last.blown;
}

export interface ThresholdCurve {
  readonly n: number;
  readonly lipHz: readonly number[];
  /** NaN where the note cannot be started. */
  readonly pascals: readonly number[];
  /** Where it starts most easily; null where it does nowhere. */
  readonly easiest: {
    readonly lipHz: number;
    readonly mouthPressure: number;
    readonly frequencyHz: number;
  } | null;
}

/** Of every note played, over the lips' frequency. */
export const thresholdCurves = ({ thresholds }: Blown): readonly ThresholdCurve[] =>
  notes.map((n) => ({
    n,
    lipHz: lipHzs,
    pascals: lipHzs.map((lipHz) => thresholds.at(n, lipHz)?.mouthPressure ?? Number.NaN),
    easiest: thresholds.lowest(n),
  }));

/** What grows fastest from rest. */
export interface Beginning {
  readonly lipHz: number;
  /** null where everything decays, or where what grows is no note. */
  readonly n: number | null;
  readonly soundsHz: number;
  /** 1/s; below 0 it decays. */
  readonly rate: number;
}

export function whatBegins({ stability, modes }: Blown, lipHz: number, mouthPressure: number): Beginning {
  const { rate, frequencyHz } = stability.fastest(lipHz, mouthPressure);
  return { lipHz, n: rate > 0 ? noteAt(modes, frequencyHz) : null, soundsHz: frequencyHz, rate };
}

/** Neighbouring lip frequencies at which the same note begins. */
export interface Stretch {
  readonly n: number;
  readonly beginnings: readonly Beginning[];
}

/** All that begins under one pressure, from low lips to high. */
export function stretchesUnder(blown: Blown, mouthPressure: number): readonly Stretch[] {
  const stretches: { n: number; beginnings: Beginning[] }[] = [];
  let before: number | null = null;
  for (const lipHz of lipHzs) {
    const beginning = whatBegins(blown, lipHz, mouthPressure);
    const { n } = beginning;
    if (n !== null) {
      if (n !== before) stretches.push({ n, beginnings: [] });
      stretches[stretches.length - 1].beginnings.push(beginning);
    }
    before = n;
  }
  return stretches;
}
