/**
 * The reflection from a flaring bell by multimodal propagation, from where plane waves stop being enough to the mouth and the field
 * outside: what `model.bell: "multimodal"` puts in place of plane waves as far as the mouth.
 *
 * Plane waves are left where what they neglect has grown to `NEGLECTED`: fronts that follow the walls have more inertia than
 * flat ones, at first order as much as ∫(a'²/4) dx more length. There the other functions go on into an endless cylinder.
 * The reflection is smooth in frequency and is kept as Chebyshev series, in √f, of which wall losses are a power series.
 */
import { OutOfRange } from "../../units/outOfRange.ts";
import { type Bore, isSamePiece, type Piece } from "../duct/bore.ts";
import { Medium } from "../duct/cone.ts";
import { lastMade } from "../duct/lastMade.ts";
import { Interpolant } from "../numerics/chebyshev.ts";
import { solve } from "../numerics/complexMatrix.ts";
import { ModalField, stepsOf } from "./multimodal.ts";
import { radiationMatrix } from "./multimodalRadiation.ts";
import { radialBasis } from "./radialBasis.ts";

/** Length that plane waves may neglect before the flare, m: 0.04 cents of an instrument of 1.4 m. */
const NEGLECTED = 3e-5;
/**
 * Ends of the series' ranges as ka at the mouth: the lowest, about a hertz, below which they are continued, and the upper ones, from
 * the usual to the last that is answered. Being ka, they ask the field outside the mouth for the same of every bell.
 */
const LOWEST_KA = 1e-3;
const HIGHEST_KA = [3, 6, 12];
/** Functions for these: two more change the reflection by less than 1e-4. */
const FUNCTIONS = [5, 7, 10];
/** How many functions a bell's reflection takes at this frequency, Hz, by its last piece. @throws OutOfRange above ka = 12 */
export const functionsUpTo = (hz: number, last: Piece): number => FUNCTIONS[rangeOf(hz, last)];

const highestHzOf = (range: number, { radiusOut, air }: Piece): number =>
  (HIGHEST_KA[range] * air.soundSpeed) / (2 * Math.PI * radiusOut);

function rangeOf(hz: number, last: Piece): number {
  const range = HIGHEST_KA.findIndex((_, i) => hz <= highestHzOf(i, last));
  if (range < 0)
    throw new OutOfRange(
      `${hz.toFixed(0)} Hz is too high for model.bell "multimodal" with this bell: give at most ` +
        `${Math.floor(highestHzOf(HIGHEST_KA.length - 1, last))} Hz, or model.bell "plane"`,
    );
  return range;
}

/** First guess of the samples needed, over √ka of the range. */
const NODES = 20;
/** Where the series may end: below what the functions and the mouth's model leave. */
const RESOLVED = 1e-6;

/**
 * What the series of one flare may cost together, a step of a sample counted as functions³: some seconds. A smooth bell takes
 * a tenth; one with chambers has modes caught in it, whose sharp resonances no series follows, and one that opens at once
 * feels at its mouth where a radial mode begins to propagate, which takes a series thousands of samples.
 */
const MOST_WORK = 1.5e7;
/** The field outside the mouth in a sample, in the same count: as long as 50 steps, or 8, of 5 functions. */
const MOUTH_WORK = { unflanged: 6000, flanged: 1000, open: 0 };

/** Index of the first piece that needs more than plane waves; steps stay before it. */
export function flareStart(pieces: readonly Piece[]): number {
  let neglected = 0;
  let start = 0;
  for (; start < pieces.length; start++) {
    const { length, radiusIn, radiusOut } = pieces[start];
    if (length === 0) continue;
    neglected += (radiusOut - radiusIn) ** 2 / (4 * length);
    if (neglected > NEGLECTED) break;
  }
  return Math.max(start, pieces.findLastIndex(({ length }) => length === 0) + 1);
}

/** What of a bore decides its flare's load. */
export type Mouth = Pick<Bore, "radiation" | "wallLossFactor">;

/** A flare with several radial modes: the reflection of the plane wave at its start, as series in frequency made when first asked for. */
export class BellFlare {
  readonly #series: Interpolant[] = [];
  #work = 0;

  /** @param pieces from the start of the flare to the mouth, without steps, at least one */
  constructor(
    readonly pieces: readonly Piece[],
    readonly mouth: Mouth,
  ) {}

  /**
   * Reflection R of the plane wave's pressure at the start of the flare, at complex angular frequency ω, rad/s.
   * @param out two doubles
   * @param upToHz what is asked with it: up to there one series answers, whose neighbour's functions would not be quite the same
   * @throws OutOfRange above ka = 12, and where the flare is too restless for a series
   */
  reflection(omegaRe: number, omegaIm: number, out: Float64Array, upToHz = 0): void {
    const re = omegaRe / (2 * Math.PI);
    const im = omegaIm / (2 * Math.PI);
    const root = Math.sqrt((Math.hypot(re, im) + re) / 2);
    this.#seriesFor(Math.max(re, upToHz)).evaluate(root, root > 0 ? im / (2 * root) : 0, out);
  }

  #seriesFor(hz: number): Interpolant {
    const last = this.pieces[this.pieces.length - 1];
    const range = rangeOf(hz, last);
    this.#series[range] ??= this.#seriesOf(range, highestHzOf(range, last));
    return this.#series[range];
  }

  #seriesOf(range: number, highestHz: number): Interpolant {
    const steps = this.pieces.reduce((sum, piece) => sum + stepsOf(piece), 0);
    const sampleWork = steps * FUNCTIONS[range] ** 3 + MOUTH_WORK[this.mouth.radiation];
    const first = Math.ceil(NODES * Math.sqrt(HIGHEST_KA[range]));
    const most = (MOST_WORK - this.#work) / sampleWork;
    const series =
      first > most
        ? null
        : new Interpolant(
            Math.sqrt((LOWEST_KA / HIGHEST_KA[range]) * highestHz),
            Math.sqrt(highestHz),
            1,
            first,
            (root, out) => flareReflection(this.pieces, this.mouth, root * root, FUNCTIONS[range], out),
            RESOLVED,
            most,
          );
    this.#work += sampleWork * (series?.nodes ?? 0);
    if (!series?.isResolved)
      throw new OutOfRange(
        'model.bell "multimodal" cannot be worked out for this bell: its flare is too long or its profile too restless; give a smoother profile of the bell, or model.bell "plane"',
      );
    return series;
  }
}

/** Whether a flare is the one of these pieces. */
export const isSameFlare = (
  { pieces: own, mouth }: BellFlare,
  pieces: readonly Piece[],
  { radiation, wallLossFactor }: Mouth,
): boolean =>
  mouth.radiation === radiation &&
  mouth.wallLossFactor === wallLossFactor &&
  own.length === pieces.length &&
  own.every((piece, i) => isSamePiece(piece, pieces[i]));

/** Flares made last: drawn and fitted instruments mostly share theirs. */
const made: BellFlare[] = [];
const KEPT = 12;

/** The flare of these pieces, made once. */
export function bellFlare(pieces: readonly Piece[], { radiation, wallLossFactor }: Mouth): BellFlare {
  const mouth = { radiation, wallLossFactor };
  const isIt = (flare: BellFlare) => isSameFlare(flare, pieces, mouth);
  return lastMade(made, KEPT, isIt, () => new BellFlare(pieces, mouth));
}

/**
 * R at the start of the flare, computed at a real frequency.
 * @param count of radial functions
 * @param out two doubles
 */
export function flareReflection(
  pieces: readonly Piece[],
  { radiation, wallLossFactor }: Mouth,
  hz: number,
  count: number,
  out: Float64Array,
): void {
  const { radiusOut, air } = pieces[pieces.length - 1];
  const omega = 2 * Math.PI * hz;
  const ka = (omega * radiusOut) / air.soundSpeed;
  const field = new ModalField(radialBasis(count), radiationMatrix(radiation, count, ka, radiusOut, air));
  const mediums = new Map(pieces.map((piece) => [piece.air, new Medium(piece.air, wallLossFactor)]));
  for (const medium of mediums.values()) medium.setFrequency(omega, 0);
  for (let i = pieces.length - 1; i >= 0; i--) field.passCone(pieces[i], mediums.get(pieces[i].air)!);
  const { re, im } = planeImpedance(field, pieces[0], omega);
  const zc = characteristicImpedance(pieces[0]);
  const size = (re + zc) ** 2 + im ** 2;
  out[0] = (re * re + im * im - zc * zc) / size;
  out[1] = (2 * zc * im) / size;
}

/** ρc/S at the start of the flare: the lossless one, to which R refers. */
export const characteristicImpedance = ({ radiusIn, air }: Piece): number =>
  (air.density * air.soundSpeed) / (Math.PI * radiusIn * radiusIn);

/**
 * Z of the plane wave, the other functions facing a straight duct: Z₀₀ − Z₀ₑ (Zₑₑ + Z_c)⁻¹ Zₑ₀; and the flows of all functions
 * that a unit of its flow brings with it, 1 and −(Zₑₑ + Z_c)⁻¹ Zₑ₀, re and im in turn.
 */
export function planeImpedance(
  { basis, impedance }: ModalField,
  { radiusIn: a, air }: Piece,
  omega: number,
): { readonly re: number; readonly im: number; readonly flows: Float64Array } {
  const { count, w, V } = basis;
  const rest = count - 1;
  const matrix = new Float64Array(2 * rest * rest);
  const column = new Float64Array(2 * rest);
  const k2 = (omega / air.soundSpeed) ** 2;
  for (let i = 0; i < rest; i++) {
    for (let k = 0; k < rest; k++) {
      const from = 2 * ((i + 1) * count + k + 1);
      const to = 2 * (i * rest + k);
      matrix[to] = impedance[from];
      matrix[to + 1] = impedance[from + 1];
      // Z_c = ωρ/(πa²κ), κ = −j√(w/a² − k²) of a mode that does not propagate
      for (let mode = 0; mode < rest; mode++) {
        const part = (V[i * rest + mode] * V[k * rest + mode] * omega * air.density) / (Math.PI * a * a);
        const square = w[mode] / (a * a) - k2;
        if (square > 0) matrix[to + 1] += part / Math.sqrt(square);
        else matrix[to] += part / Math.sqrt(-square);
      }
    }
    column[2 * i] = impedance[2 * (i + 1) * count];
    column[2 * i + 1] = impedance[2 * (i + 1) * count + 1];
  }
  solve(matrix, column, rest, 1);
  let [re, im] = impedance;
  for (let k = 0; k < rest; k++) {
    const at = 2 * (k + 1);
    re -= impedance[at] * column[2 * k] - impedance[at + 1] * column[2 * k + 1];
    im -= impedance[at] * column[2 * k + 1] + impedance[at + 1] * column[2 * k];
  }
  return { re, im, flows: Float64Array.of(1, 0, ...column.map((part) => -part)) };
}
