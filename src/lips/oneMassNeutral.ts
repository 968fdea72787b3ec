/**
 * Neutral stability of one-mass lips. On the imaginary axis, s = jω, the loop equation divided by Z L is Y + G + W v D = 0 with
 * Y = 1/Z and D = 1/(μ L). Its imaginary part gives the jet's speed outright,
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
import { type Band, MOST_PRESSURE, type NeutralColumn, type Threshold } from "./lipModel.ts";
import { massPerAreaAt, type OneMassLips } from "./lips.ts";
import { admittanceOf, type Modes } from "./modes.ts";

/** Lips as they are at one lip frequency. */
interface Tuned {
  readonly lipHz: number;
  /** ω_l, rad/s */
  readonly lipOmega: number;
  /** μ, kg/m² */
  readonly massPerArea: number;
}

/** ω and h there. */
type Miss = readonly [omega: number, miss: number];

/** Points between a zero of Im Y and the band's own beside it, each half as far from the zero as the one before. */
const CROWDED = 8;

const crowdedOf = new WeakMap<Band, Band>();

/** The search of one mass for the threshold within a note's band. */
export class OneMassNeutral {
  constructor(readonly valve: OneMassLips & { readonly density: number }) {}

  /** The one of least mouth pressure; null where there is none below `MOST_PRESSURE`. */
  lowest(column: NeutralColumn, band: Band, lipHz: number): Threshold | null {
    const { omega, re, im } = crowded(column.modes, band);
    const lips = this.#tuned(lipHz);
    let best: Threshold | null = null;
    const lookBetween = (from: Miss, to: Miss) => {
      if (from[1] > 0 === to[1] > 0) return;
      const found = this.#neutral(column, lips, from, to);
      if (found.mouthPressure < (best?.mouthPressure ?? MOST_PRESSURE)) best = found;
    };
    let [earlier, before] = [Infinity, this.#miss(lips, omega[0], re[0], im[0])];
    for (let k = 1; k < omega.length; k++) {
      const here = this.#miss(lips, omega[k], re[k], im[k]);
      if (before > 0 !== here > 0) lookBetween([omega[k - 1], before], [omega[k], here]);
      else if (before > 0 && earlier > before && here >= before && earlier + here < Infinity) {
        // two zeros may lie between three points that are all above the axis
        const left: Miss = [omega[k - 2], earlier];
        const right: Miss = [omega[k], here];
        const [w, lowest] = vertex(left, [omega[k - 1], before], right);
        if (lowest < before / 2) {
          const least: Miss = [w, this.#miss(lips, w, ...admittanceOf(column.modes, w))];
          lookBetween(left, least);
          lookBetween(least, right);
        }
      }
      [earlier, before] = [before, here];
    }
    return best;
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
  #neutral({ modes, resistance }: NeutralColumn, lips: Tuned, from: Miss, to: Miss): Threshold {
    const omega = crossing((w) => this.#miss(lips, w, ...admittanceOf(modes, w)), from, to, 1e-13);
    const v = this.#jetSpeed(lips, omega, admittanceOf(modes, omega)[1]);
    const { mouthPressure } = equilibriumAt(this.valve, resistance, lips.lipHz, v);
    return { mouthPressure, frequencyHz: omega / (2 * Math.PI) };
  }
}

/** Where the parabola through three points is lowest, the middle one being the lowest of them, and how low. */
function vertex([x0, y0]: Miss, [x1, y1]: Miss, [x2, y2]: Miss): Miss {
  const slope = (y1 - y0) / (x1 - x0);
  const bend = ((y2 - y1) / (x2 - x1) - slope) / (x2 - x0);
  const x = (x0 + x1 - slope / bend) / 2;
  return [x, y0 + (x - x0) * (slope + bend * (x - x1))];
}

/**
 * The band with more points where Im Y begins or ceases to be above 0. Towards such a place v → 0 and h → ∞: lips that start
 * with a few pascals have both zeros of h between it and the next point of the band.
 */
function crowded(modes: Modes, band: Band): Band {
  const known = crowdedOf.get(band);
  if (known) return known;
  const points: [omega: number, re: number, im: number][] = [];
  const add = (w: number) => points.push([w, ...admittanceOf(modes, w)]);
  const { omega, re, im } = band;
  omega.forEach((to, k) => {
    const from = omega[k - 1];
    if (k > 0 && im[k - 1] > 0 !== im[k] > 0) {
      const zero = crossing((w) => admittanceOf(modes, w)[1], [from, im[k - 1]], [to, im[k]], 1e-13);
      const side = im[k] > 0 ? to : from;
      const steps = Array.from({ length: CROWDED }, (_, i) => zero + (side - zero) * 2 ** -(i + 1));
      for (const w of side === to ? steps.reverse() : steps) add(w);
    }
    points.push([to, re[k], im[k]]);
  });
  const [w, yRe, yIm] = [0, 1, 2].map((i) => Float64Array.from(points, (point) => point[i]));
  const made = { omega: w, re: yRe, im: yIm };
  crowdedOf.set(band, made);
  return made;
}

/** |L(jω)|² */
const lipSize = (omega: number, lipOmega: number, quality: number): number =>
  (lipOmega * lipOmega - omega * omega) ** 2 + ((lipOmega * omega) / quality) ** 2;
