/**
 * Threshold mouth pressure: where an eigenvalue crosses the imaginary axis. On it, s = jω, the loop equation divided by Z L
 * is Y + G + W v D = 0 with Y = 1/Z and D = 1/(μ L). Its imaginary part gives the jet's speed outright,
 *
 *   v = −Im Y/(W Im D) = Im Y · μ |L|² Q_l/(W ω ω_l),   which needs Im Y > 0: outward lips play above the resonance,
 *
 * and v gives the rest's opening, G and p_m. What is left is one real equation in ω,
 *
 *   h(ω) = Re Y + G + W v Re D = 0,
 *
 * whose zeros between two notes' bounds are all thresholds of that note at one lip frequency, found without following any
 * eigenvalue. The lowest is the onset: with less pressure the rest is stable, for G grows without bound as v → 0.
 */
import { crossing } from "./crossing.ts";
import { equilibriumAt } from "./equilibrium.ts";
import { massPerAreaAt, type Valve } from "./lips.ts";
import { checkModes, impedanceOf, type Modes, resonanceCount, staticResistance } from "./modes.ts";
import { lowestOf } from "./note.ts";

/** Points a note's band is searched at: a resonance's width is some ten of them. */
const PER_NOTE = 96;
/** No player has this much, Pa; what would need more does not count as a threshold. */
export const MOST_PRESSURE = 100e3;

export interface Threshold {
  /** p_m, Pa */
  readonly mouthPressure: number;
  /** At which the note starts, Hz. */
  readonly frequencyHz: number;
}

/** A note's easiest start. */
export interface Onset extends Threshold {
  readonly lipHz: number;
}

/** Y at the frequencies one note is searched at. */
interface Band {
  readonly omega: Float64Array;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/** Lips as they are at one lip frequency. */
interface Tuned {
  readonly lipHz: number;
  /** ω_l, rad/s */
  readonly lipOmega: number;
  /** μ, kg/m² */
  readonly massPerArea: number;
}

/** They are the column's alone: every set of lips is tried on the same. */
const bandsOf = new WeakMap<Modes, readonly Band[]>();

/** The search for the mouth pressures at which lips of a given frequency begin to swing on these modes. */
export class Thresholds {
  readonly #bands: readonly Band[];
  readonly #resistance: number;
  readonly #lowest = new Map<number, Onset | null>();

  /** @throws OutOfRange in words for modes no passive column has */
  constructor(
    readonly valve: Valve,
    readonly modes: Modes,
  ) {
    checkModes(modes);
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
    const { omega, re, im } = this.#bands[n - 1];
    const lips = this.#tuned(lipHz);
    let best: Threshold | null = null;
    let before = this.#miss(lips, omega[0], re[0], im[0]);
    for (let k = 1; k < omega.length; k++) {
      const here = this.#miss(lips, omega[k], re[k], im[k]);
      if (before > 0 !== here > 0) {
        const found = this.#neutral(lips, [omega[k - 1], before], [omega[k], here]);
        if (found.mouthPressure < (best?.mouthPressure ?? MOST_PRESSURE)) best = found;
      }
      before = here;
    }
    return best;
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
    const pressure = (lipHz: number) => this.at(n, lipHz)?.mouthPressure ?? Infinity;
    const top = lowestOf(this.modes, n + 1);
    const step = 2 ** (20 / 1200);
    let middle = top;
    let least = Infinity;
    for (let lipHz = top; lipHz > lowestOf(this.modes, n) / 2; lipHz /= step) {
      const p = pressure(lipHz);
      if (p < least) [middle, least] = [lipHz, p];
    }
    if (least === Infinity) return null;
    const lipHz = goldenMinimum(pressure, middle / step, middle * step);
    const threshold = this.at(n, lipHz);
    return threshold && { ...threshold, lipHz };
  }

  #tuned(lipHz: number): Tuned {
    return { lipHz, lipOmega: 2 * Math.PI * lipHz, massPerArea: massPerAreaAt(this.valve, lipHz) };
  }

  /** v for which the imaginary part holds, m/s. */
  #jetSpeed({ lipOmega, massPerArea }: Tuned, omega: number, yIm: number): number {
    const { quality, width } = this.valve;
    return (yIm * massPerArea * lipSize(omega, lipOmega, quality) * quality) / (width * omega * lipOmega);
  }

  /** h(ω); +∞ where outward lips are not driven. */
  #miss(lips: Tuned, omega: number, yRe: number, yIm: number): number {
    if (!(yIm > 0)) return Infinity;
    const { density, quality, width, restOpening } = this.valve;
    const { lipOmega, massPerArea } = lips;
    const v = this.#jetSpeed(lips, omega, yIm);
    const opening = restOpening + (density * v * v) / (2 * massPerArea * lipOmega * lipOmega);
    const dRe = (lipOmega * lipOmega - omega * omega) / (massPerArea * lipSize(omega, lipOmega, quality));
    return yRe + (width * opening) / (density * v) + width * v * dRe;
  }

  /** The zero of h between two frequencies, each with h there. */
  #neutral(lips: Tuned, from: readonly [number, number], to: readonly [number, number]): Threshold {
    const omega = crossing((w) => this.#miss(lips, w, ...admittanceOf(this.modes, w)), from, to, 1e-13);
    const v = this.#jetSpeed(lips, omega, admittanceOf(this.modes, omega)[1]);
    const { mouthPressure } = equilibriumAt(this.valve, this.#resistance, lips.lipHz, v);
    return { mouthPressure, frequencyHz: omega / (2 * Math.PI) };
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

/** Y(jω) */
function admittanceOf(modes: Modes, omega: number): [re: number, im: number] {
  const [re, im] = impedanceOf(modes, omega);
  const size = re * re + im * im;
  return [re / size, -im / size];
}

/** |L(jω)|² */
const lipSize = (omega: number, lipOmega: number, quality: number): number =>
  (lipOmega * lipOmega - omega * omega) ** 2 + ((lipOmega * omega) / quality) ** 2;

/** Where f is least between two points, f having one minimum there; by the golden section. */
function goldenMinimum(f: (x: number) => number, low: number, high: number): number {
  const ratio = (Math.sqrt(5) - 1) / 2;
  let a = high - ratio * (high - low);
  let b = low + ratio * (high - low);
  let fa = f(a);
  let fb = f(b);
  while (high - low > 1e-7 * high) {
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
