/** One drawn setup put to the model as `annulus modes` would: what became of it, and how much work it was. */

import { readSetup } from "../../src/setup/file/readSetup.ts";
import { SetupError } from "../../src/setup/problem.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";

export interface Trial {
  /** First words of the refusal; null for one that was accepted. */
  readonly refused: string | null;
  /** Cones and steps passed to make its air column. */
  readonly work: number;
  readonly modes: number;
  /** Least Re Z/|Z| over the range of its resonances. */
  readonly leastReal: number;
  /** Anything that is not a finite number. */
  readonly notFinite: number;
}

const POINTS = 400;

/** A refusal in words: of the file, or of the model where it reaches its own limits. */
const isInWords = (error: unknown): error is Error =>
  error instanceof SetupError || (error instanceof RangeError && /give /.test(error.message));

/** @throws whatever is no refusal in words: a bug */
export function trial(file: unknown): Trial {
  try {
    return asked(new Instrument(readSetup(file)));
  } catch (error) {
    if (!isInWords(error)) throw error;
    return { refused: error.message, work: 0, modes: 0, leastReal: 0, notFinite: 0 };
  }
}

function asked(instrument: Instrument): Trial {
  const { column, gapMm } = instrument;
  const modes = instrument.modes(gapMm);
  const step = (column.highest - column.lowest) / (POINTS - 1);
  const grid = column.grid(Float64Array.from({ length: POINTS }, (_, i) => column.lowest + i * step));
  const { re, im } = column.curve(grid, instrument.gap(gapMm));
  const real = Array.from(re, (x, i) => x / Math.hypot(x, im[i]));
  const numbers = [
    ...real,
    ...modes.flatMap(({ frequencyHz, Q, peakHz, peakImpedance }) => [
      frequencyHz,
      Q,
      peakHz ?? 0,
      peakImpedance ?? 0,
    ]),
  ];
  return {
    refused: null,
    work: column.line.passed,
    modes: modes.length,
    leastReal: Math.min(...real),
    notFinite: numbers.filter((x) => !Number.isFinite(x)).length,
  };
}
