/**
 * A leadpipe's design as least squares: variables x (control diameters in tenths of a mm that are not held, then the gap in mm
 * where it may change), residuals (weighted distances from the targets, then what breaks the mandrel's limits), and the exact
 * Jacobian, the gradient along the bore chained with the spline.
 */

import { modeGradients } from "../../acoustics/resonance/modeGradient.ts";
import { byGap, sensitivity } from "../../acoustics/resonance/sensitivity.ts";
import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import { exitBoreMm, profileLengthMm } from "../../setup/geometry.ts";
import type { Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { CENTS, DECIBELS } from "../compare/boreSensitivity.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";
import { commonFundamental } from "../instrument/modeTable.ts";
import { cents, decibels } from "../instrument/pitch.ts";
import { type DesignGoal, resonancesNeeded, type Target } from "./designGoal.ts";
import { brokenLimits, checkLimits, type DesignLimits } from "./designLimits.ts";
import { dot, type Spline, splineOf } from "./designSpline.ts";

/** A tenth of a mm of diameter is one unit of a variable: residuals then change by about one a unit. */
export const UNIT_MM = 0.1;
/** A leadpipe that leaves no instrument to speak of. */
const FAR = 1e4;
/** Between the points of the profile a spline is turned into, mm. */
export const POINTS_MM = 5;

/** A leadpipe to be found as a least-squares problem: variables, their bounds, residuals and exact Jacobian. */
export class DesignProblem {
  readonly spline: Spline;
  /** Numbers of the control diameters that may change. */
  readonly free: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
  /** The present leadpipe, and gap. */
  readonly start: readonly number[];
  readonly #held: readonly number[];
  readonly #startGapMm: number;
  readonly #like: Instrument;
  readonly #pointsMm: readonly number[];
  readonly #bases: readonly (readonly number[])[];
  readonly #curvatures: readonly (readonly number[])[];

  /** @throws OutOfRange in words on limits that leave nothing to design */
  constructor(
    readonly setup: Setup,
    readonly goal: DesignGoal,
    readonly limits: DesignLimits,
  ) {
    this.#like = new Instrument(setup, { modes: resonancesNeeded(goal) });
    this.#startGapMm = this.#like.gapMm;
    const { profileMm } = setup.leadpipe;
    this.spline = splineOf(profileLengthMm(profileMm), limits.knots);
    const { controlsMm, breaksMm, lengthMm } = this.spline;
    const last = controlsMm.length - 1;
    this.#held = controlsMm.map((x, k) =>
      k === last ? exitBoreMm(profileMm) : boreDiameterMm(profileMm, profileMm[0][0] + x, "before"),
    );
    this.free = controlsMm.flatMap((_, k) =>
      (k === 0 && limits.holdsEntry) || (k === last && limits.holdsEnd) ? [] : [k],
    );
    checkLimits(limits, this.#held);
    const { smallestMm, largestMm, gapMm } = limits;
    const within = (d: number) => Math.min(largestMm, Math.max(smallestMm, d));
    if (gapMm && gapMm[0] > gapMm[1])
      throw new OutOfRange(
        `the gap cannot go from ${gapMm[0]} to ${gapMm[1]} mm: give the smaller one first`,
      );
    if (gapMm) for (const gap of gapMm) withGap(setup, gap);
    this.low = [...this.free.map(() => smallestMm / UNIT_MM), ...(gapMm ? [gapMm[0]] : [])];
    this.high = [...this.free.map(() => largestMm / UNIT_MM), ...(gapMm ? [gapMm[1]] : [])];
    this.start = [
      ...this.free.map((k) => within(this.#held[k]) / UNIT_MM),
      ...(gapMm ? [Math.min(gapMm[1], Math.max(gapMm[0], this.#startGapMm))] : []),
    ];
    const count = Math.max(2 * (breaksMm.length - 1), Math.ceil(lengthMm / POINTS_MM));
    this.#pointsMm = Array.from({ length: count + 1 }, (_, i) => (lengthMm * i) / count);
    this.#bases = this.#pointsMm.map((x) => this.spline.basis(x));
    this.#curvatures = breaksMm.map((x) => this.spline.basis(x, 2));
  }

  /** Control diameters for the variables `x`, mm. */
  controlsOf(x: readonly number[]): number[] {
    const controls = [...this.#held];
    this.free.forEach((k, i) => {
      controls[k] = UNIT_MM * x[i];
    });
    return controls;
  }

  /** The gap for the variables `x`, mm. */
  gapOf(x: readonly number[]): number {
    return this.limits.gapMm ? x[x.length - 1] : this.#startGapMm;
  }

  /** The setup for the variables `x`. */
  setupOf(x: readonly number[]): Setup {
    const controls = this.controlsOf(x);
    const profileMm = this.#pointsMm.map((at, i) => [at, dot(this.#bases[i], controls)] as const);
    return withGap({ ...this.setup, leadpipe: { profileMm } }, this.gapOf(x));
  }

  #last: { readonly x: readonly number[]; readonly instrument: Instrument } | null = null;

  /** The last one is kept: its Jacobian is asked for after its residuals. */
  instrumentOf(x: readonly number[]): Instrument {
    if (!this.#last?.x.every((value, i) => value === x[i]))
      this.#last = { x: [...x], instrument: new Instrument(this.setupOf(x), { like: this.#like }) };
    return this.#last!.instrument;
  }

  /** What the targets' quantities are, in their own units; null where the bore lacks one. */
  valuesOf(modes: readonly Mode[]): (number | null)[] {
    const fundamental = this.goal.fundamentalHz ?? commonFundamental(modes);
    return this.goal.targets.map(({ quantity, n }) => {
      const mode = modes[n - 1];
      const next = modes[n];
      if (!mode) return null;
      if (quantity === "f") return mode.frequencyHz;
      if (quantity === "cents") return cents(mode.frequencyHz / n, fundamental);
      if (quantity === "spacing") return next ? cents(next.frequencyHz, mode.frequencyHz) : null;
      return mode.peakImpedance === null ? null : decibels(mode.peakImpedance, 1e6);
    });
  }

  /** The quantities of the leadpipe and the gap there are, not of the spline that stands for them in the search. */
  present(): (number | null)[] {
    return this.valuesOf(this.#like.modes(this.#startGapMm));
  }

  /** How far the spline that the search begins from is off the leadpipe there is, mm of diameter at most. */
  splineOffByMm(): number {
    const controls = this.controlsOf(this.start);
    const { profileMm } = this.setup.leadpipe;
    const off = this.#pointsMm.map((at, i) =>
      Math.abs(dot(this.#bases[i], controls) - boreDiameterMm(profileMm, profileMm[0][0] + at, "before")),
    );
    return Math.max(...off);
  }

  /** Distances from the targets, times √w: their squares are the weighted ones. */
  missesOf(values: readonly (number | null)[]): number[] {
    return this.goal.targets.map((target, i) => {
      const value = values[i];
      return value === null ? FAR : Math.sqrt(target.weight) * missOf(target, value);
    });
  }

  /** Weighted misses, then broken limits. */
  residuals(x: readonly number[]): number[] {
    const misses = this.missesOf(this.valuesOf(this.instrumentOf(x).modes(this.gapOf(x))));
    return [...misses, ...this.#broken(x).map(({ by }) => by)];
  }

  /** Rows as `residuals`, columns as x. */
  jacobian(x: readonly number[]): number[][] {
    const instrument = this.instrumentOf(x);
    const gapMm = this.gapOf(x);
    const byMode = this.#modeDerivatives(instrument, gapMm, x.length);
    const played = byMode.slice(1, 10);
    const mean = Array.from({ length: x.length }, (_, j) =>
      this.goal.fundamentalHz === null
        ? played.reduce((sum, { shift }) => sum + shift[j], 0) / played.length
        : 0,
    );
    const nothing = mean.map(() => 0);
    const rows = this.goal.targets.map(({ quantity, n, weight }) => {
      const mode = byMode[n - 1];
      const next = byMode[n];
      if (!mode || (quantity === "spacing" && !next)) return nothing;
      const row = {
        f: () => mode.shift,
        cents: () => mode.shift.map((value, j) => value - mean[j]),
        spacing: () => mode.shift.map((value, j) => next.shift[j] - value),
        height: () => mode.rise ?? nothing,
      }[quantity]();
      return row.map((value) => Math.sqrt(weight) * value);
    });
    const limits = this.#broken(x).map(({ row }) => [
      ...this.free.map((k) => UNIT_MM * row[k]),
      ...(this.limits.gapMm ? [0] : []),
    ]);
    return [...rows, ...limits];
  }

  #broken(x: readonly number[]) {
    return brokenLimits(this.limits, this.controlsOf(x), this.#curvatures);
  }

  /** Cents and dB a unit of each variable. */
  #modeDerivatives(instrument: Instrument, gapMm: number, variables: number) {
    const { column } = instrument;
    const gap = instrument.gap(gapMm);
    const needsHeights = this.goal.targets.some(({ quantity }) => quantity === "height");
    const resonances = instrument
      .resonances(gapMm)
      .map((mode) => (needsHeights ? mode : { ...mode, peak: null }));
    const { places, modes } = modeGradients(column, gap, resonances, 0, false);
    // what a unit of each control does to the radius at every place of the leadpipe, m: the profile is straight between points
    const step = this.#pointsMm[1];
    const moves = places.map(({ part, x }) => {
      if (part !== "leadpipe") return null;
      const i = Math.min(this.#pointsMm.length - 2, Math.floor((1000 * x) / step));
      const t = (1000 * x) / step - i;
      return this.free.map(
        (k) => (UNIT_MM / 2000) * ((1 - t) * this.#bases[i][k] + t * this.#bases[i + 1][k]),
      );
    });
    const along = (gradient: Float64Array, unit: number): number[] => {
      const sum = new Array<number>(variables).fill(0);
      moves.forEach((move, i) => {
        move?.forEach((by, j) => {
          sum[j] += unit * gradient[i] * by;
        });
      });
      return sum;
    };
    const perMetre = this.limits.gapMm && byGap(column, gap);
    return modes.map(({ frequency, height }, i) => {
      const shift = along(frequency, CENTS);
      const rise = height && along(height, DECIBELS);
      if (perMetre) {
        const moved = sensitivity({ column, gap, draw: 0 }, resonances[i], perMetre);
        shift[variables - 1] = (CENTS * moved.frequency) / 1000;
        if (rise) rise[variables - 1] = (DECIBELS * (moved.height ?? 0)) / 1000;
      }
      return { shift, rise };
    });
  }
}

/** From the target, in cents or dB. */
export const missOf = ({ quantity, target }: Target, value: number): number =>
  quantity === "f" ? cents(value, target) : value - target;
