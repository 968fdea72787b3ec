/**
 * Lips that move two ways, after Adachi & Sato 1996 (J. Acoust. Soc. Am. 99, 1200); the equations from memory, its table as
 * others print it. Both lips alike, each a plate held at (0, ±ℓ), whose edge stands at (x, ±y): x into the cup, y from the
 * middle of the opening. With m the mass and k the stiffness of both together, Δ = p_m − p, S = 2by:
 *
 *   m ẍ + (m ω_x/Q) ẋ + k_x (x − x₀) = bΔ (ℓ − y)
 *   m ÿ + (m ω_y/Q) ẏ + k_y (y − y₀) = bΔ x + 2bd p_lip
 *   Δ = ½ρφ u_j|u_j|,   φ = 1/S² − 2/(S S_c) + 2/S_c²          contraction, then Borda's and Carnot's widening into the cup
 *   p_lip = p − ρψ u_j|u_j|,   ψ = 1/(S S_c) − 1/S_c²          under the lips' edge, of thickness d
 *   u = u_j + u_s,   u_s = b [(ℓ − y) ẋ + x ẏ]
 *
 * Swinging out, the lips strike outwards; stretching, upwards: a pressure in the cup lifts them. Where they part from the
 * paper as we remember it, or from others' use of it:
 *
 * - the force on a plate's edge is half the pressure's on all of it, the other half hangs on its root; as the air the plate
 *   sweeps is half of what its edge would alone, the two are reciprocal and the pressure's work on the lips is what the stream
 *   loses. With the whole force the lips would get twice the work;
 * - u_s is positive into the cup; it takes room from the air there as the lips swing out;
 * - the force is normal to the plate wherever that stands: it follows, ∂ẍ/∂y = −∂ÿ/∂x, and lips of small damping and equal
 *   stiffness flutter in a stream without a column. Those of `DEFAULT_TWO_WAY_LIPS` do not, up to twice the pressures at which
 *   notes start (tests/lips/twoWay.test.ts);
 * - left out: the inertance of the slit, ρd/S, which has no limit as the lips close and is negligible in players (Boutin,
 *   Fletcher, Smith & Wolfe 2015, J. Acoust. Soc. Am. 137, 1195), and friction in it, which matters below some 0.03 mm;
 * - closed lips keep the cup's pressure under their edge, so that nothing jumps; they press on each other with 3k_y more and
 *   a Q of 0.5, both as in the paper.
 *
 * In small changes about a rest, κ = bΔ/m, χ = ψ/φ, P = s² + (ω/Q)s + ω² (with 4bdΔχ′/m more stiffness in y):
 *
 *   D = P_x P_y + κ²,   a_x = b(ℓ − y)/m,   a_y = [bx − 2bd(1 + 2χ)]/m,   G = u_j/2Δ,   u_y = −½ u_j φ′/φ
 *   N = G D + u_y (κ a_x + P_x a_y) + s b [(ℓ − y)(P_y a_x − κ a_y) + x (κ a_x + P_x a_y)]
 *
 * In time each movement's poles are exact, its forces taken at the middle sample, and its speed is the central difference, which
 * the sample's own pressures help to make: then the work done on the lips is that taken from the stream to the last bit. Second
 * order in the step while they are open; where they touch, their damping jumps, and a note is a few cents off at 48 kHz.
 */
import { crossing } from "./crossing.ts";
import type {
  Band,
  Equilibrium,
  LipModel,
  Motion,
  NeutralColumn,
  OwnMode,
  Response,
  Threshold,
} from "./lipModel.ts";
import { NeutralSearch } from "./neutral.ts";
import { recursion } from "./oneMass.ts";
import { CUP_AREA, LIP_LENGTH, type TwoWayLips } from "./twoWayLips.ts";

export type TwoWayValve = TwoWayLips & { readonly density: number };

/** Of lips that touch: Adachi & Sato 1996. */
const TOUCHING_QUALITY = 0.5;
const TOUCHING_STIFFNESS = 3;

/**
 * The most that φ^−½ and −χ grow by with S, in units of 1 and 1/S_c: with t = S/S_c they are (1 − t)/(1 − 2t + 2t²)^3/2 at
 * t = 0.36 and (2t − 1)/(1 − 2t + 2t²)² at 0.79. Where that is too little to outweigh the stiffness there is one balance only.
 */
const STEEPEST_FLOW = 1.62;
const STEEPEST_SUCTION = 1.31;
/** Openings looked at for a balance below one that was found. */
const LOOKED_AT = 40;

/** The lips as they are at one lip frequency. */
interface Tuned {
  readonly mass: number;
  readonly omegaX: number;
  readonly omegaY: number;
}

/** The slit at half opening y: φ and χ, and how they change with y. */
interface Slit {
  readonly loss: number;
  readonly lossSlope: number;
  readonly suction: number;
  readonly suctionSlope: number;
}

export class TwoWay implements LipModel {
  readonly density: number;
  readonly #search = new NeutralSearch(this);

  constructor(readonly valve: TwoWayValve) {
    this.density = valve.density;
  }

  tuned(lipHz: number): Tuned {
    const omegaX = 2 * Math.PI * lipHz;
    return {
      mass: this.valve.massFactor / (4 * Math.PI * Math.PI * lipHz),
      omegaX,
      omegaY: omegaX * Math.sqrt(this.valve.stiffnessRatio),
    };
  }

  slit(y: number): Slit {
    const { width } = this.valve;
    const q = 1 / (2 * width * y);
    const qSlope = -2 * width * q * q;
    const c = 1 / CUP_AREA;
    const loss = q * q - 2 * q * c + 2 * c * c;
    const lossSlope = (2 * q - 2 * c) * qSlope;
    const jet = q * c - c * c;
    return {
      loss,
      lossSlope,
      suction: jet / loss,
      suctionSlope: (qSlope * c * loss - jet * lossSlope) / (loss * loss),
    };
  }

  ownModes(lipHz: number): readonly OwnMode[] {
    const { omegaX, omegaY } = this.tuned(lipHz);
    const { quality } = this.valve;
    return [
      { omega: omegaX, quality },
      { omega: omegaY, quality },
    ];
  }

  restWith(resistance: number, lipHz: number, jetSpeed: number): Equilibrium {
    const { density, protrusion, restOpening, width, thickness } = this.valve;
    const { mass, omegaX, omegaY } = this.tuned(lipHz);
    const drop = 0.5 * density * jetSpeed * jetSpeed;
    const follows = (width * drop) / mass;
    const swingAt = (y: number) => protrusion + (follows * (LIP_LENGTH - y)) / (omegaX * omegaX);
    const flowAt = (loss: number) => jetSpeed / Math.sqrt(loss);
    const edge = (2 * width * thickness) / mass;
    // the balance in y, below 0 where the lips are pushed further open: bracketed, then Newton within
    const excess = (y: number): readonly [value: number, slope: number] => {
      const { loss, lossSlope, suction, suctionSlope } = this.slit(y);
      const flow = flowAt(loss);
      const under = resistance * flow - 2 * drop * suction;
      const underSlope = (-0.5 * resistance * flow * lossSlope) / loss - 2 * drop * suctionSlope;
      return [
        omegaY * omegaY * (y - restOpening / 2) - follows * swingAt(y) - edge * under,
        omegaY * omegaY + (follows / omegaX) ** 2 - edge * underSlope,
      ];
    };
    let high = Math.max(LIP_LENGTH, restOpening);
    while (!(excess(high)[0] > 0)) high *= 2;
    let y = balance(excess, 0, high, restOpening / 2);
    // soft, thick lips may balance in several ways: the least open is where a breath that grows from nothing brings them
    const flowGrows = STEEPEST_FLOW * resistance * jetSpeed;
    const suctionFalls = (2 * STEEPEST_SUCTION * drop) / CUP_AREA;
    const steepest = edge * 2 * width * (flowGrows + suctionFalls);
    if (steepest > omegaY * omegaY + (follows / omegaX) ** 2) {
      const step = y / LOOKED_AT;
      for (let at = step; at < y; at += step)
        if (excess(at)[0] > 0) {
          y = balance(excess, at - step, at, at);
          break;
        }
    }
    const flow = flowAt(this.slit(y).loss);
    const cupPressure = resistance * flow;
    return {
      jetSpeed,
      opening: 2 * y,
      swing: swingAt(y),
      flow,
      cupPressure,
      mouthPressure: drop + cupPressure,
    };
  }

  restUnder(resistance: number, lipHz: number, mouthPressure: number): Equilibrium {
    // p_m rises with the drop, which is all of it where the air column does not resist. Where lips far beyond their ranges
    // (soft, thick, nearly touching) fly open at once under a little more, the rest is the one just before or after
    const under = (drop: number) => this.restWith(resistance, lipHz, Math.sqrt((2 * drop) / this.density));
    const most = under(mouthPressure);
    if (!(most.mouthPressure > mouthPressure)) return most;
    const over = (drop: number) => under(drop).mouthPressure - mouthPressure;
    return under(
      crossing(over, [0, -mouthPressure], [mouthPressure, most.mouthPressure - mouthPressure], 1e-15),
    );
  }

  response(lipHz: number, { jetSpeed, opening, swing, flow }: Equilibrium): Response {
    const { density, quality, width, thickness } = this.valve;
    const { mass, omegaX, omegaY } = this.tuned(lipHz);
    const drop = 0.5 * density * jetSpeed * jetSpeed;
    const { loss, lossSlope, suction, suctionSlope } = this.slit(opening / 2);
    const lever = LIP_LENGTH - opening / 2;
    const follows = (width * drop) / mass;
    const [dx, dy] = [omegaX / quality, omegaY / quality];
    const kx = omegaX * omegaX;
    const ky = omegaY * omegaY + (4 * width * thickness * drop * suctionSlope) / mass;
    const ax = (width * lever) / mass;
    const ay = (width * swing - 2 * width * thickness * (1 + 2 * suction)) / mass;
    const conductance = flow / (2 * drop);
    const byOpening = (-0.5 * flow * lossSlope) / loss;
    const denominator = Float64Array.of(
      kx * ky + follows * follows,
      dx * ky + dy * kx,
      kx + ky + dx * dy,
      dx + dy,
      1,
    );
    // κ a_x + P_x a_y and P_y a_x − κ a_y, by powers of s
    const opens = [follows * ax + kx * ay, dx * ay, ay];
    const swings = [ky * ax - follows * ay, dy * ax, ax];
    const numerator = denominator.map((x) => conductance * x);
    for (let i = 0; i < 3; i++) {
      numerator[i] += byOpening * opens[i];
      numerator[i + 1] += width * (lever * swings[i] + swing * opens[i]);
    }
    return { numerator, denominator };
  }

  neutral(column: NeutralColumn, band: Band, lipHz: number): Threshold | null {
    return this.#search.lowest(column, band, lipHz);
  }

  followed(column: NeutralColumn, band: Band, lipHz: number, near: Threshold): Threshold | null {
    return this.#search.near(column, band, lipHz, near);
  }

  motion(sampleRate: number): Motion {
    return new TwoWayMotion(this, 1 / sampleRate);
  }
}

/** Where a balance is 0 between a place where it is below and one where it is above, with its slope: Newton's steps within. */
function balance(
  of: (y: number) => readonly [value: number, slope: number],
  low: number,
  high: number,
  start: number,
): number {
  let y = start;
  for (let i = 0; i < 100; i++) {
    const [value, slope] = of(y);
    if (value > 0) high = y;
    else low = y;
    const aimed = y - value / slope;
    const next = aimed > low && aimed < high ? aimed : (low + high) / 2;
    const isSettled = Math.abs(next - y) <= 1e-15 * y;
    y = next;
    if (isSettled) break;
  }
  return y;
}

/** Places in the state: displacements from x₀ and y₀ now and before, m, and the last sample's forces, N. */
const [X, X_BEFORE, Y, Y_BEFORE, FORCE_X, FORCE_Y] = [0, 1, 2, 3, 4, 5];
/** Places of the coefficients: either movement's recursion over its mass, and what touching lips press with. */
const [SWINGS, STRETCHES, TOUCH_X, TOUCH_Y, TOUCH_STIFFNESS] = [0, 3, 6, 7, 8];

class TwoWayMotion implements Motion {
  readonly coefficientCount = 9;
  readonly state = new Float64Array(6);
  opening: number;
  loss = 0;
  swept = 0;
  sweptByDrop = 0;
  sweptByCup = 0;
  #suction = 0;
  readonly #swingRest: number;
  readonly #halfRest: number;

  constructor(
    readonly model: TwoWay,
    readonly step: number,
  ) {
    const { protrusion, restOpening } = model.valve;
    this.#swingRest = protrusion;
    this.#halfRest = restOpening / 2;
    this.opening = restOpening;
    this.#open();
  }

  coefficientsAt(lipHz: number, out: Float64Array): void {
    const { quality } = this.model.valve;
    const { mass, omegaX, omegaY } = this.model.tuned(lipHz);
    recursion(omegaX, quality, this.step, out, SWINGS);
    recursion(omegaY, quality, this.step, out, STRETCHES);
    out[SWINGS + 2] /= mass;
    out[STRETCHES + 2] /= mass;
    const more = Math.max(0, 1 / TOUCHING_QUALITY - 1 / quality);
    out[TOUCH_X] = mass * omegaX * more;
    out[TOUCH_Y] = mass * omegaY * more;
    out[TOUCH_STIFFNESS] = TOUCHING_STIFFNESS * mass * omegaY * omegaY;
  }

  advance(coefficients: Float64Array): void {
    const { state, step } = this;
    const { width, thickness } = this.model.valve;
    const x = this.#next(coefficients, SWINGS, X) + coefficients[SWINGS + 2] * state[FORCE_X];
    const y = this.#next(coefficients, STRETCHES, Y) + coefficients[STRETCHES + 2] * state[FORCE_Y];
    state[X_BEFORE] = state[X];
    state[Y_BEFORE] = state[Y];
    state[X] = x;
    state[Y] = y;
    this.#open();
    // where the movements go without this sample's pressures
    const half = this.opening / 2;
    let [touchX, touchY] = [0, 0];
    if (half < 0) {
      touchX = (-coefficients[TOUCH_X] * (x - state[X_BEFORE])) / step;
      touchY = -coefficients[TOUCH_STIFFNESS] * half - (coefficients[TOUCH_Y] * (y - state[Y_BEFORE])) / step;
    }
    state[FORCE_X] = touchX;
    state[FORCE_Y] = touchY;
    const onward = this.#next(coefficients, SWINGS, X) + coefficients[SWINGS + 2] * touchX - state[X_BEFORE];
    const upward =
      this.#next(coefficients, STRETCHES, Y) + coefficients[STRETCHES + 2] * touchY - state[Y_BEFORE];
    const lever = LIP_LENGTH - half;
    const swing = this.#swingRest + x;
    const perStep = width / (2 * step);
    this.swept = perStep * (lever * onward + swing * upward);
    this.sweptByDrop =
      perStep *
      (lever * coefficients[SWINGS + 2] * width * lever +
        swing * coefficients[STRETCHES + 2] * width * (swing - 4 * thickness * this.#suction));
    this.sweptByCup = perStep * swing * coefficients[STRETCHES + 2] * 2 * width * thickness;
  }

  press(drop: number, cupPressure: number): void {
    const { state } = this;
    const { width, thickness } = this.model.valve;
    state[FORCE_X] += width * drop * (LIP_LENGTH - this.opening / 2);
    state[FORCE_Y] +=
      width * drop * (this.#swingRest + state[X]) +
      2 * width * thickness * (cupPressure - 2 * drop * this.#suction);
  }

  copy({ state }: this): void {
    this.state.set(state);
    this.#open();
  }

  rest(resistance: number, lipHz: number, mouthPressure: number, kick: number): Equilibrium | null {
    const rest = mouthPressure > 0 ? this.model.restUnder(resistance, lipHz, mouthPressure) : null;
    const { state } = this;
    state[X] = state[X_BEFORE] = (rest?.swing ?? this.#swingRest) - this.#swingRest;
    state[Y] = state[Y_BEFORE] = ((1 + kick) * (rest?.opening ?? 2 * this.#halfRest)) / 2 - this.#halfRest;
    state[FORCE_X] = state[FORCE_Y] = 0;
    this.#open();
    const cupPressure = rest?.cupPressure ?? 0;
    this.press(mouthPressure - cupPressure, cupPressure);
    return rest;
  }

  /** A displacement's next without any force. */
  #next(coefficients: Float64Array, at: number, place: number): number {
    return coefficients[at] * this.state[place] - coefficients[at + 1] * this.state[place + 1];
  }

  #open(): void {
    const half = this.#halfRest + this.state[Y];
    this.opening = 2 * half;
    if (half > 0) {
      const { loss, suction } = this.model.slit(half);
      this.loss = loss;
      this.#suction = suction;
    } else {
      this.loss = Infinity;
      this.#suction = 0;
    }
  }
}
