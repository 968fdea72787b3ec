/**
 * What every uncertain or assumed dimension of a setup does to its resonances at a gap, by first order (JCGM 100:2008, 5.1.3): the
 * change for one standard uncertainty, cᵢuᵢ, with cᵢ from `acoustics/sensitivity.ts`.
 *
 * A change of insertion is a change of gap; a deeper receiver is too, the mark on the shank being where it was. Every other
 * dimension is moved at the same gap.
 */
import type { AirColumn } from "../../acoustics/airColumn.ts";
import {
  atRim,
  betweenSides,
  byGap,
  bySlide,
  frequencyDerivative,
  type Side,
  type StateDerivative,
  sensitivityAt,
} from "../../acoustics/resonance/sensitivity.ts";
import { type DimensionUnit, dimensionAt } from "../../setup/dimension/dimension.ts";
import { isProvenanceDimension, provenanceOf } from "../../setup/dimension/provenance.ts";
import type { Setup } from "../../setup/setup.ts";
import { Instrument } from "../instrument/instrument.ts";
import { ordinarySpread } from "./ordinarySpread.ts";

export interface UncertainDimension {
  readonly path: string;
  readonly name: string;
  readonly unit: DimensionUnit;
  /** In `unit`. */
  readonly standard: number;
  readonly degreesOfFreedom: number;
  /** Of a stand-in: what differs is the instrument, not the reading of it. */
  readonly isAssumed: boolean;
  /** A setup with this dimension `by` larger, in `unit`. */
  readonly moved: (setup: Setup, by: number) => Setup;
}

/** What a setup states of its dimensions, and how instruments differ that are like it in what it assumes. */
export function uncertainDimensions(setup: Setup): readonly UncertainDimension[] {
  const stated = Object.entries(setup.uncertainties).flatMap(
    ([path, { standard, degreesOfFreedom }]): UncertainDimension[] => {
      const dimension = dimensionAt(setup, path);
      if (!dimension || standard === 0 || SILENT.includes(path)) return [];
      const { name, unit } = dimension;
      const isAssumed = isProvenanceDimension(path) && provenanceOf(setup, path) === "assumed";
      const moved = (one: Setup, by: number) => dimensionAt(one, path)!.moved(by);
      return [{ path, name, unit, standard, degreesOfFreedom, isAssumed, moved }];
    },
  );
  const assumed = ordinarySpread(setup).map((spread) => ({
    ...spread,
    degreesOfFreedom: Infinity,
    isAssumed: true,
  }));
  return [...stated, ...assumed];
}

/** One resonance: entry i is the change for one standard uncertainty of dimension i. */
export interface ModeContributions {
  readonly n: number;
  readonly cents: readonly number[];
  /** Of the peak; null where there is none. */
  readonly decibels: readonly number[] | null;
  /** What the tuning slide does, cents per mm drawn. */
  readonly slideCents: number;
}

const CENTS = 1200 / Math.LN2;
const DECIBELS = 20 / Math.LN10;
/** Steps of the differences: small against the dimension, large against rounding. Half of them each way. */
export const STEP: Readonly<Record<DimensionUnit, number>> = { mm: 0.02, "°C": 0.5, "": 1e-3 };
export const INSERTION = "mouthpiece.insertion";
export const DEPTH = "receiver.depth";

/** Whether its error is another at every gap. */
export const isSetAnew = ({ path, isAssumed }: UncertainDimension): boolean =>
  path === INSERTION && !isAssumed;

/** Dimensions that touch no air: they decide the fit, not the sound. */
const SILENT = ["mouthpiece.shankEndDiameter", "mouthpiece.shankTaper"];

/** A dimension between the two bores that differ by `by` of it. */
interface Pair {
  readonly path: string;
  readonly less: AirColumn;
  readonly more: AirColumn;
  readonly by: number;
}

/** What each uncertain dimension of an instrument does to its resonances, at any gap. */
export class Contributions {
  readonly dimensions: readonly UncertainDimension[];
  readonly #instrument: Instrument;
  readonly #pairs = new Map<string, Pair>();

  constructor(instrument: Instrument) {
    this.#instrument = instrument;
    this.dimensions = uncertainDimensions(instrument.setup);
  }

  /** @param gapMm a gap the receiver can have @throws SetupError on another */
  at(gapMm: number): ModeContributions[] {
    return this.#all(gapMm, false);
  }

  /** Of the shank touching the leadpipe: then neither depth nor insertion is a gap. */
  inContact(): ModeContributions[] {
    return this.#all(0, true);
  }

  #all(gapMm: number, isContact: boolean): ModeContributions[] {
    const { column } = this.#instrument;
    const here: Side = { column, gap: this.#instrument.gap(gapMm), draw: 0 };
    const derivatives = this.dimensions.map((dimension) => this.#derivative(dimension, here, isContact));
    const slide = bySlide(column, here.gap);
    return this.#instrument.resonances(gapMm).map((resonance, i) => {
      const rim = atRim(here, resonance);
      const each = derivatives.map((derivative, k) => {
        if (derivative === null) return { frequency: 0, height: 0 };
        const { standard } = this.dimensions[k];
        const { frequency, height } = sensitivityAt(rim, derivative);
        return { frequency: frequency * standard, height: (height ?? 0) * standard };
      });
      return {
        n: i + 1,
        cents: each.map(({ frequency }) => CENTS * frequency),
        decibels: resonance.peak && each.map(({ height }) => DECIBELS * height),
        slideCents: (CENTS * frequencyDerivative(rim, slide)[0]) / resonance.frequency / 1000,
      };
    });
  }

  /** By the dimension, a unit of it; null where it does nothing. */
  #derivative(dimension: UncertainDimension, here: Side, isContact: boolean): StateDerivative | null {
    const { path } = dimension;
    const gapM = here.gap.cavity.gap;
    if (path === INSERTION) {
      if (isContact) return null;
      const perMetre = byGap(here.column, here.gap);
      return (fRe, fIm, out) => {
        perMetre(fRe, fIm, out);
        for (let i = 0; i < out.length; i++) out[i] *= -1e-3;
      };
    }
    const { less, more, by } = this.#pair(dimension);
    const movesGap = path === DEPTH && !isContact;
    const step = movesGap ? by / 2000 : 0;
    const side = (column: AirColumn, gap: number): Side => ({
      column,
      gap: column.line.gap(gap, here.gap),
      draw: 0,
    });
    // at the leadpipe only the deeper receiver leaves a gap
    return gapM < step
      ? betweenSides(here, side(more, gapM + step), by / 2)
      : betweenSides(side(less, gapM - step), side(more, gapM + step), by);
  }

  /** Two air columns that differ by this dimension; made once. */
  #pair({ path, unit, moved }: UncertainDimension): Pair {
    const known = this.#pairs.get(path);
    if (known) return known;
    const like = this.#instrument;
    const by = STEP[unit];
    const column = (step: number) => new Instrument(moved(like.setup, step), { like }).column;
    const pair = { path, less: column(-by / 2), more: column(by / 2), by };
    this.#pairs.set(path, pair);
    return pair;
  }
}
