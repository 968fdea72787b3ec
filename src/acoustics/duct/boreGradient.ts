/**
 * How the state at the rim answers to a change of radius anywhere along the bore, all places at once (the adjoint method:
 * Plessix 2006, Geophys. J. Int. 167, 495, from memory). With s(x) = [p, U] from the bell up to x and r(x) the row vector
 * that takes a change of state at x to the rim,
 *
 *   δ(w·[p, U]) = ∫ r(x) [[0, dZ_v/da], [dY_t/da, 0]] s(x) δa(x) dx,   Z_v = ζ/a²,   Y_t = κa²
 *
 * exactly, to first order in δa: the horn equation p' = −Z_v U, U' = −Y_t p has no slope in it. s goes from the bell to the
 * rim and r from the rim to the bell, once each, whatever the number of places. Simpson's rule over the stations of
 * `boreLayout.ts`. To it come the lumps that depend on a radius: steps, the gap's two ends, the bell.
 *
 * The flare of a multimodal bell is no cascade of plane waves: s starts with what it sends back, exactly, and what its
 * radii change of that is `bell/flareGradient.ts`, where it is asked for.
 */

import { characteristicImpedance } from "../bell/bellFlare.ts";
import { FlareGradient } from "../bell/flareGradient.ts";
import { radiationState } from "../bell/radiation.ts";
import { Gap } from "../gap/gap.ts";
import { stepInertance } from "../gap/junction.ts";
import { wallLoss } from "../medium/wallLoss.ts";
import type { Piece } from "./bore.ts";
import { type Layout, type Link, layOut, type Place } from "./boreLayout.ts";
import { coneTwoPort, Station } from "./cone.ts";
import type { Line } from "./line.ts";
import { applyTo, STATE, setIdentity, TWO_PORT } from "./twoPort.ts";

/** Half the difference by which lumps in closed form are differentiated, as part of the radius. */
const STEP = 1e-4;

/** Weights of p and U at the rim, complex: the quantity is Re(w·[p, U]). */
export type RimWeights = readonly [pRe: number, pIm: number, uRe: number, uIm: number];

/** The whole bore's answer to a small change of radius at any place: states from the bell and row vectors from the rim, met at every station. */
export class BoreGradient {
  readonly #layout: Layout;
  readonly #states: Float64Array;
  readonly #ports: Float64Array;
  readonly #flare: FlareGradient | null;
  /** Where each entry of a gradient belongs, rim to bell or flare; a place where two pieces meet has an entry from each. */
  readonly places: readonly Place[];
  /** dZ_v/da and dY_t/da at each station. */
  readonly #slopes: Float64Array;

  /**
   * @param leadpipeLength m, what of the upper part is leadpipe
   * @param draw m of tuning slide drawn
   * @param flare whether the places in the flare of a multimodal bell are wanted: they cost as much as all else many times over
   */
  constructor(
    readonly line: Line,
    leadpipeLength: number,
    readonly gap: Gap,
    draw = 0,
    flare = true,
  ) {
    const { bore, flareAt } = line;
    const inFlare = bore.lower.slice(flareAt);
    this.#flare = flare && inFlare.length > 0 ? new FlareGradient(inFlare, bore) : null;
    this.#layout = layOut(bore, bore.lower.slice(0, flareAt), leadpipeLength, draw);
    const { places, links } = this.#layout;
    const flareStart = lengthOf(bore.upper) + lengthOf(bore.lower.slice(0, flareAt)) - leadpipeLength;
    this.places = [
      ...places,
      ...Array.from(this.#flare?.places ?? [], (x): Place => ({ part: "body", x: flareStart + x })),
    ];
    this.#states = new Float64Array(STATE * places.length);
    this.#slopes = new Float64Array(4 * places.length);
    this.#ports = new Float64Array(TWO_PORT * links.length);
  }

  /**
   * d Re(w·[p, U])/da at every place, a unit of the quantity a metre of radius, at complex frequency f, Hz. [p, U] is scaled as
   * `Line.rimState` has it. The sum over places times a small change of radius there is the quantity's change.
   */
  gradient(fRe: number, fIm: number, weights: RimWeights): Float64Array {
    const omegaRe = 2 * Math.PI * fRe;
    const omegaIm = 2 * Math.PI * fIm;
    this.#fromBell(omegaRe, omegaIm);
    const out = new Float64Array(this.places.length);
    const row = Float64Array.from(weights);
    const { links } = this.#layout;
    links.forEach((link, i) => {
      if (link.piece === null) this.#addGap(link, row, omegaRe, omegaIm, out);
      else if (link.piece.length === 0) this.#addStep(link, row, omegaRe, omegaIm, out);
      else this.#addStation(link.near, row, out);
      rowTimes(row, this.#ports, TWO_PORT * i);
      // within a piece the station is the next link's entrance
      const next = links[i + 1];
      if (isCone(link) && !(next && isCone(next) && next.near === link.far))
        this.#addStation(link.far, row, out);
    });
    if (this.line.flareAt === this.line.bore.lower.length) this.#addBell(row, omegaRe, omegaIm, out);
    else if (this.#flare) this.#addFlare(this.#flare.gradient(fRe, fIm), row, omegaRe, omegaIm, out);
    return out;
  }

  /** [p, U] at every station, from the bell to the rim, and what stands between. */
  #fromBell(omegaRe: number, omegaIm: number): void {
    const { links, radii, mediums } = this.#layout;
    for (const medium of new Set(mediums)) medium.setFrequency(omegaRe, omegaIm);
    const state = new Float64Array(STATE);
    const [entrance, middle, exit] = [new Station(), new Station(), new Station()];
    this.line.atFlare(omegaRe, omegaIm, state);
    for (let i = links.length - 1; i >= 0; i--) {
      const { near, far, piece, medium } = links[i];
      const at = TWO_PORT * i;
      this.#states.set(state, STATE * far);
      if (piece === null) this.gap.twoPort(omegaRe, omegaIm, this.#ports, at);
      else if (piece.length === 0) {
        const inertance = this.#inertance(piece.radiusIn, piece.radiusOut) * piece.air.density;
        setIdentity(this.#ports, at);
        this.#ports[at + 2] = -omegaIm * inertance;
        this.#ports[at + 3] = omegaRe * inertance;
      } else {
        const { radiusIn, radiusOut, length } = piece;
        entrance.set(radiusIn, medium);
        if (radiusIn === radiusOut) coneTwoPort(entrance, entrance, entrance, length, this.#ports, at);
        else {
          middle.set((radiusIn + radiusOut) / 2, medium);
          exit.set(radiusOut, medium);
          coneTwoPort(entrance, middle, exit, length, this.#ports, at);
        }
      }
      applyTo(state, this.#ports, at);
      this.#states.set(state, STATE * near);
    }
    radii.forEach((radius, i) => {
      entrance.set(radius, mediums[i]);
      radiusSlopes(entrance, this.#slopes, 4 * i);
    });
  }

  #inertance(before: number, after: number): number {
    return this.line.bore.junction === "modal" ? stepInertance(before, after) : 0;
  }

  /** r_p·Z'·U + r_U·Y'·p over the station's part of the bore. */
  #addStation(i: number, row: Float64Array, out: Float64Array): void {
    const [zRe, zIm, yRe, yIm] = this.#slopes.subarray(4 * i, 4 * i + 4);
    const [pRe, pIm, uRe, uIm] = this.#states.subarray(STATE * i, STATE * i + STATE);
    out[i] +=
      this.#layout.weights[i] *
      (realOfProduct(row[0], row[1], zRe * uRe - zIm * uIm, zRe * uIm + zIm * uRe) +
        realOfProduct(row[2], row[3], yRe * pRe - yIm * pIm, yRe * pIm + yIm * pRe));
  }

  /** p_before = p_after + jωρMU: by either radius of the step. */
  #addStep(
    { near, far, piece }: Link,
    row: Float64Array,
    omegaRe: number,
    omegaIm: number,
    out: Float64Array,
  ) {
    const { radiusIn, radiusOut, air } = piece!;
    const [uRe, uIm] = this.#states.subarray(STATE * far + 2, STATE * far + 4);
    const perInertance = realOfProduct(
      row[0],
      row[1],
      air.density * (-omegaIm * uRe - omegaRe * uIm),
      air.density * (omegaRe * uRe - omegaIm * uIm),
    );
    out[near] += perInertance * derivative(radiusIn, (a) => this.#inertance(a, radiusOut));
    out[far] += perInertance * derivative(radiusOut, (a) => this.#inertance(radiusIn, a));
  }

  #gapEnds: readonly [Gap, Gap][] | null = null;

  #addGap({ near, far }: Link, row: Float64Array, omegaRe: number, omegaIm: number, out: Float64Array): void {
    const { cavity } = this.gap;
    const { gapAir, wallLossFactor, junction } = this.line.bore;
    this.#gapEnds ??= (["shankExit", "leadpipe"] as const).map((end) => {
      const at = (factor: number) =>
        new Gap({ ...cavity, [end]: cavity[end] * factor }, gapAir, wallLossFactor, junction);
      return [at(1 - STEP), at(1 + STEP)];
    });
    const beyond = this.#states.subarray(STATE * far, STATE * far + STATE);
    const port = new Float64Array(TWO_PORT);
    const value = (gap: Gap): number => {
      gap.twoPort(omegaRe, omegaIm, port);
      const state = beyond.slice();
      applyTo(state, port);
      return rowTimesState(row, state);
    };
    const [shank, leadpipe] = this.#gapEnds.map(([less, more]) => value(more) - value(less));
    out[near] += shank / (2 * STEP * cavity.shankExit);
    out[far] += leadpipe / (2 * STEP * cavity.leadpipe);
  }

  /** With the wave that runs into the flare held: δp = z U² δZ/(p + zU), δU = −δp/z. */
  #addFlare(
    byRadius: Float64Array,
    row: Float64Array,
    omegaRe: number,
    omegaIm: number,
    out: Float64Array,
  ): void {
    const { bore, flareAt } = this.line;
    const z = characteristicImpedance(bore.lower[flareAt]);
    const state = new Float64Array(STATE);
    this.line.atFlare(omegaRe, omegaIm, state);
    const [pRe, pIm, uRe, uIm] = state;
    const [sRe, sIm] = [pRe + z * uRe, pIm + z * uIm];
    const size = (sRe * sRe + sIm * sIm) / z;
    const [u2Re, u2Im] = [uRe * uRe - uIm * uIm, 2 * uRe * uIm];
    const [cRe, cIm] = [(u2Re * sRe + u2Im * sIm) / size, (u2Im * sRe - u2Re * sIm) / size];
    const [rRe, rIm] = [row[0] - row[2] / z, row[1] - row[3] / z];
    const from = this.#layout.places.length;
    for (let i = 0; i < byRadius.length / 2; i++) {
      const [dRe, dIm] = [byRadius[2 * i], byRadius[2 * i + 1]];
      out[from + i] = realOfProduct(rRe, rIm, cRe * dRe - cIm * dIm, cRe * dIm + cIm * dRe);
    }
  }

  #addBell(row: Float64Array, omegaRe: number, omegaIm: number, out: Float64Array): void {
    const { radiation, bellRadius, bellAir } = this.line.bore;
    const state = new Float64Array(STATE);
    out[out.length - 1] += derivative(bellRadius, (radius) => {
      radiationState(radiation, radius, bellAir, omegaRe, omegaIm, state);
      return rowTimesState(row, state);
    });
  }
}

const lengthOf = (pieces: readonly Piece[]): number => pieces.reduce((sum, { length }) => sum + length, 0);

const isCone = ({ piece }: Link): boolean => piece !== null && piece.length !== 0;

const derivative = (at: number, of: (value: number) => number): number =>
  (of(at * (1 + STEP)) - of(at * (1 - STEP))) / (2 * STEP * at);

const realOfProduct = (aRe: number, aIm: number, bRe: number, bIm: number): number => aRe * bRe - aIm * bIm;

const rowTimesState = (row: Float64Array, [pRe, pIm, uRe, uIm]: Float64Array): number =>
  realOfProduct(row[0], row[1], pRe, pIm) + realOfProduct(row[2], row[3], uRe, uIm);

/** row ← row·X */
function rowTimes(row: Float64Array, x: Float64Array, xo: number): void {
  const [pRe, pIm, uRe, uIm] = row;
  row[0] = pRe * x[xo] - pIm * x[xo + 1] + uRe * x[xo + 4] - uIm * x[xo + 5];
  row[1] = pRe * x[xo + 1] + pIm * x[xo] + uRe * x[xo + 5] + uIm * x[xo + 4];
  row[2] = pRe * x[xo + 2] - pIm * x[xo + 3] + uRe * x[xo + 6] - uIm * x[xo + 7];
  row[3] = pRe * x[xo + 3] + pIm * x[xo + 2] + uRe * x[xo + 7] + uIm * x[xo + 6];
}

const loss = new Float64Array(2);

/**
 * dZ_v/da = −(ζ/a³)(2 + ζ·a d(1/ζ)/da) and dY_t/da = a(2κ + a dκ/da), where a dκ/da = (jωπ/ρc²)(γ−1)·dF_t/d ln a and
 * dF/d ln a = 2(1−F) + z²F²/2, z² = −js·Pr.
 */
function radiusSlopes(station: Station, out: Float64Array, at: number): void {
  const { radius: a, zetaRe, zetaIm, inverseZetaSlopeRe, inverseZetaSlopeIm, kappaRe, kappaIm } = station;
  const { springRe, springIm, viscousRe, viscousIm, prandtl, heat } = station.medium!;
  const bRe = 2 + zetaRe * inverseZetaSlopeRe - zetaIm * inverseZetaSlopeIm;
  const bIm = zetaRe * inverseZetaSlopeIm + zetaIm * inverseZetaSlopeRe;
  const cube = -1 / a ** 3;
  out[at] = cube * (zetaRe * bRe - zetaIm * bIm);
  out[at + 1] = cube * (zetaRe * bIm + zetaIm * bRe);
  const sRe = a * a * viscousRe * prandtl;
  const sIm = a * a * viscousIm * prandtl;
  wallLoss(sRe, sIm, loss);
  const [fRe, fIm] = loss;
  const f2Re = fRe * fRe - fIm * fIm;
  const f2Im = 2 * fRe * fIm;
  const dRe = heat * (2 * (1 - fRe) + 0.5 * (sIm * f2Re + sRe * f2Im));
  const dIm = heat * (-2 * fIm + 0.5 * (sIm * f2Im - sRe * f2Re));
  out[at + 2] = a * (2 * kappaRe + springRe * dRe - springIm * dIm);
  out[at + 3] = a * (2 * kappaIm + springRe * dIm + springIm * dRe);
}
