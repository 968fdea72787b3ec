/**
 * A line's fixed parts as series in frequency, made once from a few dozen exact evaluations. What only a drawn slide asks for is
 * transformed when one is first drawn: half of the functions, which most instruments never need.
 */
import { Interpolant } from "../numerics/chebyshev.ts";
import { FIXED, type Line, UPPER } from "./line.ts";

/** Mouthpiece and load, and, for a slide that is drawn, what lies above and below it; as `Line.fixed` has them. */
export class FixedParts {
  /** Mouthpiece two-port and load with the slide at rest. */
  readonly atRest: Interpolant;
  readonly #line: Line;
  readonly #guess: number;
  #aroundSlide: Interpolant | null = null;

  /**
   * @param low Hz; the lower end of their range
   * @param high Hz; its upper end
   */
  constructor(line: Line, low: number, high: number) {
    this.#line = line;
    // Chebyshev coefficients of e^{jkL} fall once their order passes half the range's phase; a bell with curved fronts, whose
    // radial modes begin to run not far above, has more: a guess that falls short costs twice as many
    const phase = (Math.PI * (high - low) * line.length) / line.soundSpeed;
    const beyond = line.hasCurvedFronts ? 16 * Math.cbrt(phase) + 20 : 6 * Math.cbrt(phase) + 22;
    this.#guess = Math.ceil(phase + beyond);
    this.atRest = this.#series(low, high, 0, UPPER);
  }

  /**
   * At complex frequency f, Hz.
   * @param out FIXED doubles; from UPPER on only written where the slide is drawn
   */
  evaluate(fRe: number, fIm: number, out: Float64Array, isDrawn = false): void {
    this.atRest.evaluate(fRe, fIm, out);
    if (!isDrawn) return;
    const { low, high } = this.atRest;
    this.#aroundSlide ??= this.#series(low, high, UPPER, FIXED);
    this.#aroundSlide.evaluate(fRe, fIm, out.subarray(UPPER));
  }

  /** The functions that `Line.fixed` writes into the doubles `from` … `to`. */
  #series(low: number, high: number, from: number, to: number): Interpolant {
    const sample = this.#line.sampled(low, high);
    const fixed = new Float64Array(FIXED);
    return new Interpolant(low, high, (to - from) / 2, this.#guess, (hz, out) => {
      sample(hz, fixed);
      for (let i = from; i < to; i++) out[i - from] = fixed[i];
    });
  }
}
