/**
 * The two fixed things on either side of the gap, at one complex frequency:
 *
 *   rim → [mouthpiece] → gap → [upper: leadpipe and body to the slide] → slide → [lower: body to the bell, radiation]
 *
 * A multimodal bell turns what plane waves send back from the start of its flare, R_plane, into R; the wave that runs into it
 * stays that of plane waves, so that the flow at the mouth is still `radiationState`'s. A bore that differs a little from one
 * that is known takes over what curved fronts did there, at the same wavelength,
 *
 *   R(ω) = R_plane(ω) · R'(ω')/R'_plane(ω'),   ω'/c' = ω/c,
 *
 * and need not have its own bell worked out, which takes a quarter of a second.
 *
 * A gap or a slide length then costs one small two-port between them.
 */

import type { Setup } from "../../setup/setup.ts";
import {
  type BellFlare,
  bellFlare,
  characteristicImpedance,
  flareStart,
  isSameFlare,
} from "../bell/bellFlare.ts";
import { radiationState } from "../bell/radiation.ts";
import { Gap } from "../gap/gap.ts";
import { type Bore, boreLength, boreOf, type Piece } from "./bore.ts";
import type { Breath } from "./breath.ts";
import { Chain, chainOf, cutPiece } from "./chain.ts";
import { coneTwoPort, Medium, Station } from "./cone.ts";
import { type Part, seriesOf } from "./partSeries.ts";
import { applyTo, inverse, STATE, TWO_PORT } from "./twoPort.ts";

/**
 * Doubles of the fixed parts at one frequency: mouthpiece two-port, load (the state at the leadpipe's mouth with the slide
 * where it is), and, for another slide, upper two-port and state at the slide.
 */
export const FIXED = 2 * TWO_PORT + 2 * STATE;
export const LOAD = TWO_PORT;
export const UPPER = LOAD + STATE;
export const LOWER = UPPER + TWO_PORT;

/** Half the difference for derivatives by the gap, as part of the cavity's radius. */
const GAP_STEP = 1e-3;

/** Lines whose sound speed differs by less than this factor ask a flare that they take over for one series. */
const AROUND = 1.05;

/** The chains a bore is made of. */
type PartName = "mouthpiece" | "upper" | "lower" | "flare";
type Parts = Readonly<Record<PartName, Chain>>;
/** The same, however their two-ports are come by; and the flare whose curved fronts are taken over. */
type AnyParts = Readonly<Record<PartName, Part>> & { readonly likeFlare: Part | null };

/** The bore's parts, each chain made by `make`, which is told which it is. */
function partsOf(
  { mouthpiece, upper, lower }: Bore,
  flareAt: number,
  make: (pieces: readonly Piece[], part: PartName) => Chain,
): Parts {
  return {
    mouthpiece: make(mouthpiece, "mouthpiece"),
    upper: make(upper, "upper"),
    lower: make(lower.slice(0, flareAt), "lower"),
    flare: make(lower.slice(flareAt), "flare"),
  };
}

/** The bore with what the stream adds behind the cup: after the piece that first comes down to the narrowest. */
function blown(bore: Bore, breath: Breath | null): Bore {
  if (!breath) return bore;
  const { mouthpiece } = bore;
  const narrowest = Math.min(...mouthpiece.map(({ radiusOut }) => radiusOut));
  const behindCup = 1 + mouthpiece.findIndex(({ radiusOut }) => radiusOut === narrowest);
  const edge: Piece = {
    length: 0,
    radiusIn: narrowest,
    radiusOut: narrowest,
    air: mouthpiece[behindCup - 1].air,
    resistance: breath.throatResistance,
  };
  return { ...bore, mouthpiece: [...mouthpiece.slice(0, behindCup), edge, ...mouthpiece.slice(behindCup)] };
}

/** One setup's way of sound from rim to bell as two-ports, exact at any complex frequency; Z in Pa·s/m³, lengths in m. */
export class Line {
  readonly bore: Bore;
  readonly #parts: Parts;
  /** Index of the flare's first piece among the lower ones; their number for a bell of plane waves. */
  readonly flareAt: number;
  readonly #flare: BellFlare | null;
  /** Whose bell's curved fronts are taken over. */
  readonly #like: Line | null;
  readonly #reflection = new Float64Array(2);
  readonly #likeState = new Float64Array(STATE);
  readonly #slideMedium: Medium | null;
  readonly #slideStation = new Station();
  readonly #slidePort = new Float64Array(TWO_PORT);
  readonly #state = new Float64Array(STATE);

  /**
   * @param breath the stream through it; still air without
   * @param like one that differs a little, whose curved fronts in the bell are taken over
   * @param highestHz up to which it will be asked as one smooth function of frequency; any where that is not known
   */
  constructor(
    readonly setup: Setup,
    readonly breath: Breath | null = null,
    like: Line | null = null,
    readonly highestHz: number = like?.highestHz ?? 0,
  ) {
    const bore = boreOf(setup);
    this.bore = bore;
    const known = like && (like.#like ?? like);
    const knownFlare = known && bore.bell === "multimodal" ? known.#flare : null;
    const isKnown = knownFlare !== null && known!.bore.lower.length === bore.lower.length;
    this.flareAt =
      bore.bell === "plane" ? bore.lower.length : isKnown ? known!.flareAt : flareStart(bore.lower);
    const pieces = bore.lower.slice(this.flareAt);
    const isOwn = !isKnown || isSameFlare(knownFlare, pieces, bore);
    this.#like = isOwn ? null : known;
    this.#flare = pieces.length === 0 ? null : isOwn ? bellFlare(pieces, bore) : knownFlare;
    this.#parts = partsOf(blown(bore, breath), this.flareAt, (part, name) =>
      chainOf(part, bore.wallLossFactor, bore.junction, like ? like.#parts[name] : undefined),
    );
    this.sections = Object.values(this.#parts).reduce((sum, part) => sum + part.sections, 0);
    this.#slideMedium = bore.slide && new Medium(bore.slide.air, bore.wallLossFactor);
  }

  /** Cones and steps after cutting. */
  readonly sections: number;
  /** Sections passed in all evaluations of its parts so far, by any line that has the same: what it has cost. */
  get passed(): number {
    return Object.values(this.#parts).reduce((sum, part) => sum + part.passed, 0);
  }

  /** Rim to bell without the gap, m. */
  get length(): number {
    return boreLength(this.bore);
  }

  /** Whether the bell is a multimodal one. */
  get hasCurvedFronts(): boolean {
    return this.#flare !== null;
  }

  /** Sound speed that sets the scale of frequencies, m/s. */
  get soundSpeed(): number {
    return this.bore.bellAir.soundSpeed;
  }

  /**
   * The gap of `gap` m: the shank moves, receiver and leadpipe stay.
   * @param like another line's, whose steps serve where they are the same
   */
  gap(gap: number, like: Gap | null = null): Gap {
    const { receiver, shankExit, leadpipeMouth, gapAir, wallLossFactor, junction } = this.bore;
    const radius = (fromMouth: number) => receiver.mouthRadius - receiver.radiusTaper * fromMouth;
    const cavity = {
      shankExit,
      cavityAtShank: radius(receiver.depth - gap),
      cavityAtLeadpipe: radius(receiver.depth),
      leadpipe: leadpipeMouth,
      gap,
    };
    return new Gap(cavity, gapAir, wallLossFactor, junction, this.breath?.atGap(gap) ?? null, like);
  }

  /**
   * Gaps a little narrower and wider than this one, `by` m apart, for derivatives by the gap: one-sided at contact. Its
   * two-port is smooth in the gap and exact to rounding, so the difference is good to about 1e-7 of it.
   */
  neighbours({ cavity }: Gap): { readonly less: Gap; readonly more: Gap; readonly by: number } {
    const step = GAP_STEP * cavity.cavityAtLeadpipe;
    const low = Math.max(0, cavity.gap - step);
    const high = cavity.gap + step;
    return { less: this.gap(low), more: this.gap(high), by: high - low };
  }

  /**
   * The fixed parts at complex angular frequency ω, rad/s.
   * @param out FIXED doubles at `at`
   */
  fixed(omegaRe: number, omegaIm: number, out: Float64Array, at = 0): void {
    this.#fixed(this.#exact, omegaRe, omegaIm, out, at);
  }

  get #exact(): AnyParts {
    return { ...this.#parts, likeFlare: this.#like ? this.#like.#parts.flare : null };
  }

  #fixed(parts: AnyParts, omegaRe: number, omegaIm: number, out: Float64Array, at: number): void {
    const { mouthpiece, upper, lower } = parts;
    mouthpiece.twoPort(omegaRe, omegaIm, out, at);
    upper.twoPort(omegaRe, omegaIm, out, at + UPPER);
    const state = this.#state;
    this.#atFlare(parts, omegaRe, omegaIm, state);
    lower.propagate(state, omegaRe, omegaIm);
    out.set(state, at + LOWER);
    applyTo(state, out, at + UPPER);
    out.set(state, at + LOAD);
  }

  /**
   * The fixed parts at many real frequencies between `low` and `high`, Hz, each part by its own series: within 1e-10 of what
   * `fixed` gives, for half the sections or less.
   */
  sampled(low: number, high: number): (hz: number, out: Float64Array) => void {
    const part = (name: PartName): Part => seriesOf(this.#parts[name], low, high, this.soundSpeed);
    const parts = {
      mouthpiece: part("mouthpiece"),
      upper: part("upper"),
      lower: part("lower"),
      flare: part("flare"),
      likeFlare: this.#like ? this.#like.#flareFor(low, high, this.soundSpeed) : null,
    };
    return (hz, out) => this.#fixed(parts, 2 * Math.PI * hz, 0, out, 0);
  }

  /** [p, U] at the start of the flare, at the mouth of a bell of plane waves; at complex angular frequency ω, rad/s. */
  atFlare(omegaRe: number, omegaIm: number, state: Float64Array): void {
    this.#atFlare(this.#exact, omegaRe, omegaIm, state);
  }

  #atFlare({ flare, likeFlare }: AnyParts, omegaRe: number, omegaIm: number, state: Float64Array): void {
    this.#planeAtFlare(flare, omegaRe, omegaIm, state);
    if (!this.#flare) return;
    const back = this.#reflection;
    this.#reflectionOf(likeFlare, state, omegaRe, omegaIm, back);
    const zc = this.#flareImpedance;
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

  /** Its flare at the wavelengths that another line, of sound speed `soundSpeed`, has between `low` and `high` Hz. */
  #flareFor(low: number, high: number, soundSpeed: number): Part {
    const scale = this.soundSpeed / soundSpeed;
    const isAround = scale > 1 / AROUND && scale < AROUND;
    return isAround
      ? seriesOf(this.#parts.flare, low / AROUND, high * AROUND, this.soundSpeed)
      : this.#parts.flare;
  }

  #planeAtFlare(flare: Part, omegaRe: number, omegaIm: number, state: Float64Array): void {
    const { bellRadius, bellAir, radiation } = this.bore;
    radiationState(radiation, bellRadius, bellAir, omegaRe, omegaIm, state);
    flare.propagate(state, omegaRe, omegaIm);
  }

  /** ρc/S where the flare starts. */
  get #flareImpedance(): number {
    return characteristicImpedance(this.bore.lower[this.flareAt]);
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
      this.#flare!.reflection(omegaRe, omegaIm, out, this.highestHz);
      return;
    }
    const scale = like.soundSpeed / this.soundSpeed;
    like.#planeAtFlare(likeFlare, scale * omegaRe, scale * omegaIm, this.#likeState);
    const before = planeReflection(this.#likeState, like.#flareImpedance);
    like.#flare!.reflection(scale * omegaRe, scale * omegaIm, out, like.highestHz);
    const [gRe, gIm] = quotient(out[0], out[1], before[0], before[1]);
    const [re, im] = planeReflection(state, this.#flareImpedance);
    out[0] = gRe * re - gIm * im;
    out[1] = gRe * im + gIm * re;
  }

  /**
   * The load with the slide drawn by `draw` m (negative: pushed in), of the fixed parts at the same frequency.
   * @param load four doubles: [p, U] at the leadpipe's mouth
   */
  load(fixed: Float64Array, draw: number, omegaRe: number, omegaIm: number, load: Float64Array): void {
    const from = draw === 0 ? LOAD : LOWER;
    for (let i = 0; i < STATE; i++) load[i] = fixed[from + i];
    if (draw === 0) return;
    this.#drawSlide(load, draw, omegaRe, omegaIm);
    applyTo(load, fixed, UPPER);
  }

  /** state ← slide · state */
  #drawSlide(state: Float64Array, draw: number, omegaRe: number, omegaIm: number): void {
    if (draw === 0 || !this.#slideMedium || !this.bore.slide) return;
    this.#slideMedium.setFrequency(omegaRe, omegaIm);
    this.#slideStation.set(this.bore.slide.radius, this.#slideMedium);
    coneTwoPort(this.#slideStation, this.#slideStation, this.#slideStation, draw, this.#slidePort);
    applyTo(state, this.#slidePort);
  }

  /**
   * [p, U] at the rim, up to a common factor, exactly and through every section.
   * @param out four doubles
   */
  rimState(gap: Gap, draw: number, omegaRe: number, omegaIm: number, out: Float64Array): void {
    const fixed = new Float64Array(FIXED);
    const port = new Float64Array(TWO_PORT);
    this.fixed(omegaRe, omegaIm, fixed);
    this.load(fixed, draw, omegaRe, omegaIm, out);
    gap.twoPort(omegaRe, omegaIm, port);
    applyTo(out, port);
    applyTo(out, fixed);
  }

  /**
   * [p, U] along the whole bore at a real angular frequency, from the bell to the rim, up to a common factor. In the flare of
   * a multimodal bell it is the plane wave that goes on from the flare's start: its field has no single pressure there.
   * @param visit distance from the bell, m; radius, m; the state there (reused: copy what is kept)
   * @param finest longest stretch between two visits, m
   */
  trace(
    gap: Gap,
    draw: number,
    omega: number,
    visit: (fromBell: number, radius: number, state: Float64Array) => void,
    finest: number,
  ): void {
    const parts = this.#finely(finest);
    const { bellRadius, slide } = this.bore;
    const state = new Float64Array(STATE);
    const port = new Float64Array(TWO_PORT);
    let passed = 0;
    const along = (part: Chain) => {
      const start = passed;
      part.trace(state, omega, 0, (fromExit, radius) => {
        passed = start + fromExit;
        visit(passed, radius, state);
      });
    };
    this.atFlare(omega, 0, state);
    parts.flare.twoPort(omega, 0, port);
    applyTo(state, inverse(port));
    visit(0, bellRadius, state);
    along(parts.flare);
    along(parts.lower);
    this.#drawSlide(state, draw, omega, 0);
    passed += draw;
    if (draw > 0 && slide) visit(passed, slide.radius, state);
    along(parts.upper);
    gap.twoPort(omega, 0, port);
    applyTo(state, port);
    passed += gap.cavity.gap;
    visit(passed, gap.cavity.shankExit, state);
    along(parts.mouthpiece);
  }

  #fine: { readonly finest: number; readonly parts: Parts } | null = null;

  /** The same parts with no piece longer than `finest` m, kept for the next wave. */
  #finely(finest: number): Parts {
    if (this.#fine?.finest !== finest) {
      const cut = (piece: Piece) => cutPiece(piece, Math.max(1, Math.ceil(piece.length / finest)));
      const parts = partsOf(
        blown(this.bore, this.breath),
        this.flareAt,
        (pieces) => new Chain(pieces.flatMap(cut), this.bore.wallLossFactor, this.bore.junction),
      );
      this.#fine = { finest, parts };
    }
    return this.#fine.parts;
  }
}

/** (p − z_c U)/(p + z_c U) */
const planeReflection = ([pRe, pIm, uRe, uIm]: Float64Array, zc: number): readonly [re: number, im: number] =>
  quotient(pRe - zc * uRe, pIm - zc * uIm, pRe + zc * uRe, pIm + zc * uIm);

const quotient = (aRe: number, aIm: number, bRe: number, bIm: number): readonly [re: number, im: number] => {
  const square = bRe * bRe + bIm * bIm;
  return [(aRe * bRe + aIm * bIm) / square, (aIm * bRe - aRe * bIm) / square];
};
