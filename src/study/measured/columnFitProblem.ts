/**
 * The least-squares problem of `columnFit.ts`: residuals ln(Z_model/Z_measured), of both parts or of the magnitude alone, and
 * their derivatives.
 * Only what an unknown changes of the air column is made again.
 */

import { AirColumn, type Curve } from "../../acoustics/airColumn.ts";
import type { FixedParts } from "../../acoustics/duct/fixedParts.ts";
import { Line } from "../../acoustics/duct/line.ts";
import { SetupError } from "../../setup/problem.ts";
import { gapMm, type Setup } from "../../setup/setup.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { LeastSquares } from "../leastSquares/levenbergMarquardt.ts";
import type { Unknown } from "./columnUnknowns.ts";
import { hasPhase, logRatio, type Measured, modelCurve, unitOfMeasured } from "./measured.ts";

/** Difference for derivatives, in steps of the unknown. */
const DIFFERENCE = 0.05;
/** dB in a neper. */
export const NEPER_DB = 20 / Math.LN10;

/** Unknowns are counted in their steps from the start; one more, the level, where the measurement's unit is unknown. */
export class ColumnFitProblem implements LeastSquares {
  readonly start: number[];
  readonly low: number[];
  readonly high: number[];
  /** Of the impedance: nepers and radians, or nepers alone. */
  readonly parts: number;
  readonly rows: number;
  readonly #unit: number;
  /** Fixed parts by all that they depend on, the last few. */
  readonly #fixed = new Map<string, FixedParts>();
  #last: { readonly key: string; readonly residuals: Float64Array } | null = null;

  constructor(
    readonly setup: Setup,
    readonly measured: Measured,
    readonly unknowns: readonly Unknown[],
  ) {
    const { frequencies, reading } = measured;
    this.parts = hasPhase(measured) ? 2 : 1;
    this.rows = this.parts * frequencies.length;
    this.#unit = unitOfMeasured(setup, measured, modelCurve(setup, frequencies, gapMm(setup)));
    const level = reading.scale === "relative" ? [0] : [];
    this.start = [...unknowns.map(() => 0), ...level];
    this.low = [
      ...unknowns.map(({ low, start, step }) => (low - start) / step),
      ...level.map(() => -Infinity),
    ];
    this.high = [
      ...unknowns.map(({ high, start, step }) => (high - start) / step),
      ...level.map(() => Infinity),
    ];
    if (this.rows <= this.start.length + 1)
      throw new OutOfRange("there are more unknowns than the measurement can tell: name fewer");
  }

  /** Unknown i in its own unit, within its bounds. */
  value(i: number, at: readonly number[]): number {
    const { start, step, low, high } = this.unknowns[i];
    return Math.min(high, Math.max(low, start + step * at[i]));
  }

  /** The setup, or one that differs in what is not fitted, with the unknowns as they are `at`. */
  setupAt(at: readonly number[], of = this.setup): Setup {
    return this.unknowns.reduce((setup, { set }, i) => set(setup, this.value(i, at)), of);
  }

  /** null where the unknowns together make no instrument (a shank wider than its receiver): a step too far. */
  #curve(at: readonly number[], of: Setup): Curve | null {
    let setup: Setup;
    try {
      setup = this.setupAt(at, of);
    } catch (error) {
      if (error instanceof SetupError) return null;
      throw error;
    }
    const { frequencies } = this.measured;
    const line = new Line(setup, null, null, frequencies[frequencies.length - 1]);
    const key = JSON.stringify([
      setup.air,
      setup.mouthpiece.profileMm,
      setup.leadpipe,
      setup.body,
      setup.model,
    ]);
    const column = new AirColumn(
      setup,
      frequencies[0],
      frequencies[frequencies.length - 1],
      line,
      this.#fixed.get(key),
    );
    this.#fixed.set(key, column.fixedParts);
    if (this.#fixed.size > 2 * this.unknowns.length + 4) this.#fixed.delete(this.#fixed.keys().next().value!);
    return column.curve(column.grid(frequencies), line.gap(gapMm(setup) / 1000));
  }

  /** Measured against modelled, nepers and then radians where there is a phase, a value a frequency; infinite where `at` is no instrument. */
  residuals(at: readonly number[]): Float64Array {
    const key = at.join();
    if (this.#last?.key === key) return this.#last.residuals;
    const residuals = this.residualsOf(this.setup, at);
    this.#last = { key, residuals };
    return residuals;
  }

  /** The same of a setup that differs in what is not fitted. */
  residualsOf(setup: Setup, at: readonly number[]): Float64Array {
    const count = this.measured.frequencies.length;
    const level = Math.log(this.#unit) + (at[this.unknowns.length] ?? 0);
    const residuals = new Float64Array(this.rows);
    const model = this.#curve(at, setup);
    if (!model) return residuals.fill(Number.POSITIVE_INFINITY);
    for (let i = 0; i < count; i++) {
      const [nepers, radians] = logRatio(model, this.measured, i);
      residuals[i] = nepers - level;
      if (this.parts > 1) residuals[count + i] = radians;
    }
    return residuals;
  }

  /** Root mean square of what is left over, dB, from a sum of squares. */
  scatterDb(squares: number): number {
    return NEPER_DB * Math.sqrt(squares / (this.rows - this.start.length));
  }

  /** Columns ∂r/∂x of the unknowns: central differences, one-sided at a bound. */
  columns(at: readonly number[]): Float64Array[] {
    return at.map((x, i) => {
      const less = at.with(i, Math.max(this.low[i], x - DIFFERENCE));
      const more = at.with(i, Math.min(this.high[i], x + DIFFERENCE));
      const before = this.residuals(less);
      return this.residuals(more).map((r, k) => (r - before[k]) / (more[i] - less[i]));
    });
  }
}
