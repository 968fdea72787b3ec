/**
 * The flare of a bore's bell and the field outside its mouth, as [p, U] where the flare starts.
 *
 * A multimodal bell turns what plane waves send back from there, R_plane, into R; the wave that runs into it stays that of
 * plane waves, so that the flow at the mouth is still `radiationState`'s. A bore that differs a little from one that is known
 * takes over what curved fronts did there, at the same wavelength,
 *
 *   R(ω) = R_plane(ω) · R'(ω')/R'_plane(ω'),   ω'/c' = ω/c,
 *
 * and need not have its own bell worked out, which takes a quarter of a second.
 */
import {
  type BellFlare,
  bellFlare,
  characteristicImpedance,
  flareStart,
  isSameFlare,
} from "../bell/bellFlare.ts";
import { radiationState } from "../bell/radiation.ts";
import type { Bore } from "./bore.ts";
import { type Chain, chainOf } from "./chain.ts";
import { type Part, seriesOf } from "./partSeries.ts";
import { STATE } from "./twoPort.ts";

/** Bores whose sound speed differs by less than this factor ask a flare that they take over for one series. */
const AROUND = 1.05;

/** Plane waves through the flare, and through the one whose curved fronts are taken over, however they are come by. */
interface PlaneWaves {
  readonly own: Part;
  readonly like: Part | null;
}

/** What the flare's start sees of it, at any complex frequency. */
export class FlareLoad {
  /** Index of the flare's first piece among the bore's lower ones; their number for a bell of plane waves. */
  readonly start: number;
  /** Plane waves through it. */
  readonly chain: Chain;
  readonly #bore: Bore;
  readonly #fronts: BellFlare | null;
  /** Whose curved fronts are taken over. */
  readonly #like: FlareLoad | null;
  readonly #highestHz: number;
  readonly #reflection = new Float64Array(2);
  readonly #likeState = new Float64Array(STATE);

  /**
   * @param like of a bore that differs a little, whose curved fronts are taken over
   * @param highestHz up to which it will be asked as one smooth function of frequency
   */
  constructor(bore: Bore, like: FlareLoad | null, highestHz: number) {
    this.#bore = bore;
    this.#highestHz = highestHz;
    const known = like && (like.#like ?? like);
    const knownFronts = known && bore.bell === "multimodal" ? known.#fronts : null;
    const isKnown = knownFronts !== null && known!.#bore.lower.length === bore.lower.length;
    this.start = bore.bell === "plane" ? bore.lower.length : isKnown ? known!.start : flareStart(bore.lower);
    const pieces = bore.lower.slice(this.start);
    const isOwn = !isKnown || isSameFlare(knownFronts, pieces, bore);
    this.#like = isOwn ? null : known;
    this.#fronts = pieces.length === 0 ? null : isOwn ? bellFlare(pieces, bore) : knownFronts;
    this.chain = chainOf(pieces, bore.wallLossFactor, bore.junction, like?.chain);
  }

  /** Whether the bell is a multimodal one. */
  get hasCurvedFronts(): boolean {
    return this.#fronts !== null;
  }

  /** [p, U] at the start of the flare, at the mouth of a bell of plane waves; at complex angular frequency ω, rad/s. */
  state(omegaRe: number, omegaIm: number, out: Float64Array): void {
    this.#state({ own: this.chain, like: this.#like?.chain ?? null }, omegaRe, omegaIm, out);
  }

  /** The same at many real angular frequencies, rad/s, between `low` and `high` Hz, plane waves by their own series. */
  sampled(low: number, high: number): (omega: number, out: Float64Array) => void {
    const waves = {
      own: seriesOf(this.chain, low, high, this.soundSpeed),
      like: this.#like ? this.#like.#around(low, high, this.soundSpeed) : null,
    };
    return (omega, out) => this.#state(waves, omega, 0, out);
  }

  /** Sound speed that sets the scale of frequencies, m/s. */
  get soundSpeed(): number {
    return this.#bore.bellAir.soundSpeed;
  }

  #state(waves: PlaneWaves, omegaRe: number, omegaIm: number, state: Float64Array): void {
    this.#planeState(waves.own, omegaRe, omegaIm, state);
    if (!this.#fronts) return;
    const back = this.#reflection;
    this.#reflectionOf(waves.like, state, omegaRe, omegaIm, back);
    const zc = this.#impedance;
    // the wave running in, and what comes back of it
    const re = (state[0] + zc * state[2]) / 2;
    const im = (state[1] + zc * state[3]) / 2;
    const backRe = re * back[0] - im * back[1];
    const backIm = re * back[1] + im * back[0];
    state[0] = re + backRe;
    state[1] = im + backIm;
    state[2] = (re - backRe) / zc;
    state[3] = (im - backIm) / zc;
  }

  /** At the wavelengths that another bore, of sound speed `soundSpeed`, has between `low` and `high` Hz. */
  #around(low: number, high: number, soundSpeed: number): Part {
    const scale = this.soundSpeed / soundSpeed;
    const isAround = scale > 1 / AROUND && scale < AROUND;
    return isAround ? seriesOf(this.chain, low / AROUND, high * AROUND, this.soundSpeed) : this.chain;
  }

  #planeState(flare: Part, omegaRe: number, omegaIm: number, state: Float64Array): void {
    const { bellRadius, bellAir, radiation } = this.#bore;
    radiationState(radiation, bellRadius, bellAir, omegaRe, omegaIm, state);
    flare.propagate(state, omegaRe, omegaIm);
  }

  /** ρc/S where the flare starts. */
  get #impedance(): number {
    return characteristicImpedance(this.#bore.lower[this.start]);
  }

  /** R at the start of the flare where plane waves have the state [p, U]. */
  #reflectionOf(
    likeFlare: Part | null,
    state: Float64Array,
    omegaRe: number,
    omegaIm: number,
    out: Float64Array,
  ): void {
    const like = this.#like;
    if (!like || !likeFlare) {
      this.#fronts!.reflection(omegaRe, omegaIm, out, this.#highestHz);
      return;
    }
    const scale = like.soundSpeed / this.soundSpeed;
    like.#planeState(likeFlare, scale * omegaRe, scale * omegaIm, this.#likeState);
    const before = planeReflection(this.#likeState, like.#impedance);
    like.#fronts!.reflection(scale * omegaRe, scale * omegaIm, out, like.#highestHz);
    const [gRe, gIm] = quotient(out[0], out[1], before[0], before[1]);
    const [re, im] = planeReflection(state, this.#impedance);
    out[0] = gRe * re - gIm * im;
    out[1] = gRe * im + gIm * re;
  }
}

/** (p − z_c U)/(p + z_c U) */
const planeReflection = ([pRe, pIm, uRe, uIm]: Float64Array, zc: number): readonly [re: number, im: number] =>
  quotient(pRe - zc * uRe, pIm - zc * uIm, pRe + zc * uRe, pIm + zc * uIm);

const quotient = (aRe: number, aIm: number, bRe: number, bIm: number): readonly [re: number, im: number] => {
  const square = bRe * bRe + bIm * bIm;
  return [(aRe * bRe + aIm * bIm) / square, (aIm * bRe - aRe * bIm) / square];
};
