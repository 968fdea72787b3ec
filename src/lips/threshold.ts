/**
 * Threshold mouth pressure: where an eigenvalue crosses the imaginary axis. How it is found at one lip frequency is each lip
 * model's own (`oneMassNeutral.ts`, `neutral.ts`); here are the bands of notes it is looked for in, and a note's easiest start
 * over the lip frequencies.
 */
import type { Band, LipModel, Threshold } from "./lipModel.ts";
import {
  admittanceOf,
  checkModes,
  type Modes,
  resonanceCount,
  resonanceHz,
  staticResistance,
} from "./modes.ts";
import { lowestOf } from "./note.ts";
import { lipModelOf, type Valve } from "./valve.ts";

export type { Threshold } from "./lipModel.ts";

/** Points a note's band is searched at: a resonance's width is some ten of them. */
const PER_NOTE = 96;
/** Lip frequencies first looked at, cents apart. */
const STEP_CENTS = 20;
const WIDE_STEP_CENTS = 60;

/** A note's easiest start. */
export interface Onset extends Threshold {
  readonly lipHz: number;
}

/** They are the column's alone: every set of lips is tried on the same. */
const bandsOf = new WeakMap<Modes, readonly Band[]>();

/** The search for the mouth pressures at which lips of a given frequency begin to swing on these modes. */
export class Thresholds {
  readonly #lips: LipModel;
  readonly #bands: readonly Band[];
  readonly #resistance: number;
  readonly #lowest = new Map<number, Onset | null>();

  /** @throws OutOfRange in words for modes no passive column has */
  constructor(
    readonly valve: Valve,
    readonly modes: Modes,
  ) {
    checkModes(modes);
    this.#lips = lipModelOf(valve);
    this.#resistance = Math.max(0, staticResistance(modes));
    this.#bands = bandsOf.get(modes) ?? bands(modes);
    bandsOf.set(modes, this.#bands);
  }

  /** Notes there are, 1 to this. */
  get notes(): number {
    return this.#bands.length;
  }

  /** The lowest mouth pressure that starts note n at a lip frequency, Hz; null where none below `MOST_PRESSURE` does. */
  at(n: number, lipHz: number): Threshold | null {
    return this.#lips.neutral({ modes: this.modes, resistance: this.#resistance }, this.#bands[n - 1], lipHz);
  }

  /** Note n at the lip frequency where it starts most easily; null where it cannot be played at all. */
  lowest(n: number): Onset | null {
    const known = this.#lowest.get(n);
    if (known !== undefined) return known;
    const found = this.#searchLowest(n);
    this.#lowest.set(n, found);
    return found;
  }

  #searchLowest(n: number): Onset | null {
    if (this.#lips.followed) return this.#followedLowest(n, this.#lips.followed.bind(this.#lips));
    const top = lowestOf(this.modes, n + 1);
    const bottom = lowestOf(this.modes, n) / 2;
    const best = this.#best(n, top, bottom, STEP_CENTS);
    if (!best) return null;
    const pressure = (lipHz: number) => this.at(n, lipHz)?.mouthPressure ?? Infinity;
    const step = 2 ** (STEP_CENTS / 1200);
    const lipHz = goldenMinimum(pressure, best.lipHz / step, best.lipHz * step, 1e-7);
    const threshold = this.at(n, lipHz);
    return threshold && { ...threshold, lipHz };
  }

  /**
   * For lips whose whole search is slow: wider steps, first about where the note below was found, counted from its resonance;
   * between steps the neutral state is followed.
   */
  #followedLowest(n: number, followed: NonNullable<LipModel["followed"]>): Onset | null {
    const below = this.#lowest.get(n - 1);
    const wide = 2 ** (WIDE_STEP_CENTS / 1200);
    let best: Onset | null = null;
    if (below) {
      const expected = (below.lipHz * resonanceHz(this.modes, n)) / resonanceHz(this.modes, n - 1);
      const [top, bottom] = [expected * wide ** 2.01, expected / wide ** 2.01];
      best = this.#best(n, top, bottom, WIDE_STEP_CENTS);
      // at the edge it may go on falling
      if (best && (best.lipHz > top / wide || best.lipHz < bottom * wide)) best = null;
    }
    const [low, high] = [lowestOf(this.modes, n), lowestOf(this.modes, n + 1)];
    best ??= this.#best(n, high * 1.3, low / 2, WIDE_STEP_CENTS);
    if (!best) return null;
    const column = { modes: this.modes, resistance: this.#resistance };
    let last: Threshold = best;
    const pressure = (lipHz: number) => {
      const found = followed(column, this.#bands[n - 1], lipHz, last);
      if (found) last = found;
      return found?.mouthPressure ?? Infinity;
    };
    const lipHz = goldenMinimum(pressure, best.lipHz / wide, best.lipHz * wide, 1e-5);
    const threshold = this.at(n, lipHz);
    return threshold && { ...threshold, lipHz };
  }

  /** The lip frequency, of those a step apart, at which the note starts most easily. */
  #best(n: number, top: number, bottom: number, stepCents: number): Onset | null {
    let best: Onset | null = null;
    for (let lipHz = top; lipHz > bottom; lipHz /= 2 ** (stepCents / 1200)) {
      const found = this.at(n, lipHz);
      if (found && found.mouthPressure < (best?.mouthPressure ?? Infinity)) best = { ...found, lipHz };
    }
    return best;
  }
}

/** Y where every note is searched. */
const bands = (modes: Modes): readonly Band[] =>
  Array.from({ length: resonanceCount(modes) - 1 }, (_, i) => {
    const low = 2 * Math.PI * lowestOf(modes, i + 1);
    const high = 2 * Math.PI * lowestOf(modes, i + 2);
    const omega = Float64Array.from({ length: PER_NOTE + 1 }, (_, k) => low + ((high - low) * k) / PER_NOTE);
    const admittance = Array.from(omega, (w) => admittanceOf(modes, w));
    return {
      omega,
      re: Float64Array.from(admittance, ([re]) => re),
      im: Float64Array.from(admittance, ([, im]) => im),
    };
  });

/** Where f is least between two points, f having one minimum there; by the golden section. */
function goldenMinimum(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let a = high - ratio * (high - low);
  let b = low + ratio * (high - low);
  let fa = f(a);
  let fb = f(b);
  while (high - low > tolerance * high) {
    if (fa <= fb) {
      [high, b, fb] = [b, a, fa];
      a = high - ratio * (high - low);
      fa = f(a);
    } else {
      [low, a, fa] = [a, b, fb];
      b = low + ratio * (high - low);
      fb = f(b);
    }
  }
  return (low + high) / 2;
}
