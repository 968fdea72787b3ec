/**
 * Cones and steps in a row, exact at any complex frequency.
 *
 * A cone is cut until doubling its steps changes its normalised two-port by less than `TOLERANCE` at both ends of the
 * working range, in whichever of two forms needs fewer steps, `cone.ts` or `shortCone.ts`; a step in the bore has the inertance of `junction.ts` when the junction is modal, none when it is plane.
 */

import { stepInertance } from "../gap/junction.ts";
import { isSamePiece, type Piece } from "./bore.ts";
import { coneTwoPort, Medium, Station } from "./cone.ts";
import { lastMade } from "./lastMade.ts";
import { shortConeTwoPort } from "./shortCone.ts";
import { applyTo, cascadeOnto, setIdentity, TWO_PORT } from "./twoPort.ts";

/** Largest change of a cone's normalised two-port when its steps are doubled. */
const TOLERANCE = 1e-7;
const CHECKED_HZ = [40, 2000];
const MOST_STEPS = 1024;
/**
 * Cones this gentle (ln of the radii's ratio) and short (m) need no trial: Simpson's error of what varies along them,
 * F·(kh)²·ln⁴/2880, is below 1e-8 even at F = 1 and 2 kHz.
 */
const GENTLE = 0.05;
const SHORT = 0.025;

/** Doubles of a piece. */
const PIECE = 6;

/** How a piece is cut. */
interface Cut {
  readonly steps: number;
  /** In pressure and flow, as `shortCone.ts` has it. */
  readonly isShort: boolean;
}
const WHOLE: Cut = { steps: 1, isShort: false };

/** Pieces of bore in a row, from the player outwards: their two-port at any complex frequency, cut finely enough. */
export class Chain {
  /** Of every piece its length, radii, resistance, inertance in kg/m⁴, 0 for cones, and 1 if it is short: PIECE doubles. */
  readonly #pieces: Float64Array;
  readonly #mediums: readonly Medium[];
  readonly #differentMediums: readonly Medium[];
  readonly #cuts: readonly Cut[];
  readonly #stations = [new Station(), new Station()];
  readonly #middle = new Station();
  readonly #port = new Float64Array(TWO_PORT);
  /** Sections passed in all evaluations so far. */
  passed = 0;

  constructor(
    readonly uncut: readonly Piece[],
    readonly wallLossFactor: number,
    readonly junction: "modal" | "plane",
    like?: Chain,
  ) {
    const mediums = new Map(uncut.map(({ air }) => [air, new Medium(air, wallLossFactor)]));
    this.#cuts = uncut.map((piece, i) => {
      const other = like?.uncut[i];
      return other && isHardlyHarder(piece, other) ? like.#cuts[i] : cutOf(piece, mediums.get(piece.air)!);
    });
    const pieces = uncut.flatMap((piece, i) => {
      const { steps, isShort } = this.#cuts[i];
      return cutPiece(piece, steps).map((step) => ({ ...step, isShort }));
    });
    this.#mediums = pieces.map(({ air }) => mediums.get(air)!);
    this.#differentMediums = [...mediums.values()];
    this.#pieces = new Float64Array(PIECE * pieces.length);
    pieces.forEach(({ length, radiusIn, radiusOut, resistance = 0, air, isShort }, i) => {
      const isStep = length === 0 && junction === "modal";
      const inertance = isStep ? air.density * stepInertance(radiusIn, radiusOut) : 0;
      this.#pieces.set([length, radiusIn, radiusOut, resistance, inertance, Number(isShort)], PIECE * i);
    });
  }

  /** Cones and steps after cutting. */
  get sections(): number {
    return this.#pieces.length / PIECE;
  }

  /** m */
  get length(): number {
    let length = 0;
    for (let at = 0; at < this.#pieces.length; at += PIECE) length += this.#pieces[at];
    return length;
  }

  /** state ← chain · state, at complex angular frequency ω, rad/s. */
  propagate(state: Float64Array, omegaRe: number, omegaIm: number): void {
    this.#walk(omegaRe, omegaIm, () => applyTo(state, this.#port));
  }

  /**
   * As `propagate`, telling every station passed on the way.
   * @param visit distance from the chain's exit, m, and radius, m; `state` then holds [p, U] there
   */
  trace(
    state: Float64Array,
    omegaRe: number,
    omegaIm: number,
    visit: (fromExit: number, radius: number) => void,
  ): void {
    let fromExit = 0;
    let at = this.#pieces.length;
    this.#walk(omegaRe, omegaIm, () => {
      applyTo(state, this.#port);
      at -= PIECE;
      fromExit += this.#pieces[at];
      visit(fromExit, this.#pieces[at + 1]);
    });
  }

  /**
   * The chain's two-port at complex angular frequency ω, rad/s.
   * @param out eight doubles at `at`
   */
  twoPort(omegaRe: number, omegaIm: number, out: Float64Array, at = 0): void {
    setIdentity(out, at);
    this.#walk(omegaRe, omegaIm, () => cascadeOnto(out, this.#port, at));
  }

  /** Every piece's two-port into #port, from the last to the first: one's entrance is the next one's exit. */
  #walk(omegaRe: number, omegaIm: number, visit: () => void): void {
    this.passed += this.sections;
    for (const medium of this.#differentMediums) medium.setFrequency(omegaRe, omegaIm);
    let [exit, entrance] = this.#stations;
    exit.radius = 0;
    for (let i = this.sections - 1; i >= 0; i--) {
      const at = PIECE * i;
      const length = this.#pieces[at];
      const radiusIn = this.#pieces[at + 1];
      const radiusOut = this.#pieces[at + 2];
      if (length === 0) {
        const inertance = this.#pieces[at + 4];
        setIdentity(this.#port);
        this.#port[2] = this.#pieces[at + 3] - omegaIm * inertance;
        this.#port[3] = omegaRe * inertance;
      } else {
        const medium = this.#mediums[i];
        if (exit.radius !== radiusOut || exit.medium !== medium) exit.set(radiusOut, medium);
        if (radiusIn === radiusOut) coneTwoPort(exit, exit, exit, length, this.#port);
        else {
          this.#middle.set((radiusIn + radiusOut) / 2, medium);
          entrance.set(radiusIn, medium);
          const twoPort = this.#pieces[at + 5] === 1 ? shortConeTwoPort : coneTwoPort;
          twoPort(entrance, this.#middle, exit, length, this.#port);
          [exit, entrance] = [entrance, exit];
        }
      }
      visit();
    }
  }
}

/** Chains made last. */
const made: Chain[] = [];
const KEPT = 16;

/**
 * The chain of these pieces, one that was made before where all that decides it is the same.
 * @param like one that differs a little: its cones' numbers of steps serve where a cone is hardly harder
 */
export function chainOf(
  pieces: readonly Piece[],
  wallLossFactor: number,
  junction: "modal" | "plane",
  like?: Chain,
): Chain {
  const isIt = (one: Chain) =>
    one.wallLossFactor === wallLossFactor &&
    one.junction === junction &&
    one.uncut.length === pieces.length &&
    one.uncut.every((piece, i) => isSamePiece(piece, pieces[i]));
  // of one that took anything over, what it is depends on that other: it is not for everybody
  if (like) return isIt(like) ? like : new Chain(pieces, wallLossFactor, junction, like);
  return lastMade(made, KEPT, isIt, () => new Chain(pieces, wallLossFactor, junction));
}

/** How much longer, steeper or narrower a cone may be than one whose number of steps it takes over: its error is then 1.5 times that one's. */
const MUCH = 0.1;

const steepness = ({ radiusIn, radiusOut }: Piece): number => Math.abs(Math.log(radiusOut / radiusIn));

const isHardlyHarder = (a: Piece, b: Piece): boolean =>
  a.length > 0 &&
  a.length <= (1 + MUCH) * b.length &&
  steepness(a) <= (1 + MUCH) * steepness(b) &&
  a.radiusIn * (1 + MUCH) >= b.radiusIn;

/** A piece in `n` equal steps; one without length, which may have a resistance, is never cut. */
export function cutPiece(piece: Piece, n: number): Piece[] {
  if (n === 1) return [piece];
  const { radiusIn, radiusOut } = piece;
  const radius = (k: number) => (k === n ? radiusOut : radiusIn + ((radiusOut - radiusIn) * k) / n);
  return Array.from({ length: n }, (_, k) => ({
    length: piece.length / n,
    radiusIn: radius(k),
    radiusOut: radius(k + 1),
    air: piece.air,
  }));
}

/** Of a cone, into as many equal steps as the tolerance asks for. */
function cutOf(piece: Piece, medium: Medium): Cut {
  if (piece.length === 0 || piece.radiusIn === piece.radiusOut) return WHOLE;
  if (Math.abs(Math.log(piece.radiusOut / piece.radiusIn)) < GENTLE && piece.length < SHORT) return WHOLE;
  const forms = piece.length < SHORT ? [false, true] : [false];
  const portsOf = ({ steps, isShort }: Cut) =>
    CHECKED_HZ.map((hz) => stepsTwoPort(cutPiece(piece, steps), isShort, medium, hz));
  const coarse = forms.map((isShort) => portsOf({ steps: 1, isShort }));
  for (let steps = 1; steps < MOST_STEPS; steps *= 2)
    for (const [form, isShort] of forms.entries()) {
      const fine = portsOf({ steps: 2 * steps, isShort });
      if (fine.every((port, i) => distance(port, coarse[form][i], piece) < TOLERANCE))
        return { steps, isShort };
      coarse[form] = fine;
    }
  return { steps: MOST_STEPS, isShort: false };
}

const near = new Station();
const middle = new Station();
const far = new Station();
const port = new Float64Array(TWO_PORT);

function stepsTwoPort(steps: readonly Piece[], isShort: boolean, medium: Medium, hz: number): Float64Array {
  medium.setFrequency(2 * Math.PI * hz, 0);
  const out = new Float64Array(TWO_PORT);
  setIdentity(out);
  for (const { radiusIn, radiusOut, length } of [...steps].reverse()) {
    near.set(radiusIn, medium);
    middle.set((radiusIn + radiusOut) / 2, medium);
    far.set(radiusOut, medium);
    (isShort ? shortConeTwoPort : coneTwoPort)(near, middle, far, length, port);
    cascadeOnto(out, port);
  }
  return out;
}

/** Largest difference of two two-ports, B and C taken relative to the cone's own characteristic impedance. */
function distance(x: Float64Array, y: Float64Array, { radiusIn, radiusOut, air }: Piece): number {
  const zc = (air.density * air.soundSpeed) / (Math.PI * radiusIn * radiusOut);
  const weight = [1, 1, 1 / zc, 1 / zc, zc, zc, 1, 1];
  let largest = 0;
  for (let i = 0; i < TWO_PORT; i++) largest = Math.max(largest, Math.abs(x[i] - y[i]) * weight[i]);
  return largest;
}
