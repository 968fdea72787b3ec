/**
 * The two fixed things on either side of the gap, at one complex frequency:
 *
 *   rim → [mouthpiece] → gap → [upper: leadpipe and body to the slide] → slide → [lower: body to the bell, radiation]
 *
 * A gap or a slide length then costs one small two-port between them.
 */

import type { Setup } from "../../setup/setup.ts";
import { Gap } from "../gap/gap.ts";
import { type Bore, boreLength, boreOf, type Piece } from "./bore.ts";
import type { Breath } from "./breath.ts";
import { Chain, chainOf, cutPiece } from "./chain.ts";
import { coneTwoPort, Medium, Station } from "./cone.ts";
import { FlareLoad } from "./flareLoad.ts";
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

/** The chains between rim and flare. */
type PartName = "mouthpiece" | "upper" | "lower";
type Parts = Readonly<Record<PartName, Chain>>;

/** What all fixed parts come from: two-ports, however they are come by, and [p, U] at the start of the flare. */
interface Sources extends Readonly<Record<PartName, Part>> {
  readonly atFlare: (omegaRe: number, omegaIm: number, state: Float64Array) => void;
}

/** All chains, the flare's too, cut finely. */
type FineParts = Parts & { readonly flare: Chain };

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
  readonly #flare: FlareLoad;
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
    this.#flare = new FlareLoad(bore, like ? like.#flare : null, highestHz);
    this.#parts = partsOf(blown(bore, breath), this.flareAt, (part, name) =>
      chainOf(part, bore.wallLossFactor, bore.junction, like ? like.#parts[name] : undefined),
    );
    this.sections = this.#chains.reduce((sum, part) => sum + part.sections, 0);
    this.#slideMedium = bore.slide && new Medium(bore.slide.air, bore.wallLossFactor);
  }

  /** Cones and steps after cutting. */
  readonly sections: number;
  /** Sections passed in all evaluations of its parts so far, by any line that has the same: what it has cost. */
  get passed(): number {
    return this.#chains.reduce((sum, part) => sum + part.passed, 0);
  }

  get #chains(): readonly Chain[] {
    return [...Object.values(this.#parts), this.#flare.chain];
  }

  /** Index of the flare's first piece among the lower ones; their number for a bell of plane waves. */
  get flareAt(): number {
    return this.#flare.start;
  }

  /** Rim to bell without the gap, m. */
  get length(): number {
    return boreLength(this.bore);
  }

  /** Whether the bell is a multimodal one. */
  get hasCurvedFronts(): boolean {
    return this.#flare.hasCurvedFronts;
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
    this.#fixed({ ...this.#parts, atFlare: this.atFlare }, omegaRe, omegaIm, out, at);
  }

  #fixed(
    { mouthpiece, upper, lower, atFlare }: Sources,
    omegaRe: number,
    omegaIm: number,
    out: Float64Array,
    at: number,
  ): void {
    mouthpiece.twoPort(omegaRe, omegaIm, out, at);
    upper.twoPort(omegaRe, omegaIm, out, at + UPPER);
    const state = this.#state;
    atFlare(omegaRe, omegaIm, state);
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
    const atFlare = this.#flare.sampled(low, high);
    const sources = {
      mouthpiece: part("mouthpiece"),
      upper: part("upper"),
      lower: part("lower"),
      atFlare: (omega: number, _: number, state: Float64Array) => atFlare(omega, state),
    };
    return (hz, out) => this.#fixed(sources, 2 * Math.PI * hz, 0, out, 0);
  }

  /** [p, U] at the start of the flare, at the mouth of a bell of plane waves; at complex angular frequency ω, rad/s. */
  readonly atFlare = (omegaRe: number, omegaIm: number, state: Float64Array): void =>
    this.#flare.state(omegaRe, omegaIm, state);

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
    const { flare, ...parts } = this.#finely(finest);
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
    flare.twoPort(omega, 0, port);
    applyTo(state, inverse(port));
    visit(0, bellRadius, state);
    along(flare);
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

  #fine: { readonly finest: number; readonly parts: FineParts } | null = null;

  /** The same parts with no piece longer than `finest` m, kept for the next wave. */
  #finely(finest: number): FineParts {
    if (this.#fine?.finest !== finest) {
      const cut = (piece: Piece) => cutPiece(piece, Math.max(1, Math.ceil(piece.length / finest)));
      const finely = (pieces: readonly Piece[]) =>
        new Chain(pieces.flatMap(cut), this.bore.wallLossFactor, this.bore.junction);
      const parts = {
        ...partsOf(blown(this.bore, this.breath), this.flareAt, finely),
        flare: finely(this.bore.lower.slice(this.flareAt)),
      };
      this.#fine = { finest, parts };
    }
    return this.#fine.parts;
  }
}
