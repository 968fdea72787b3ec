/**
 * What is heard at a distance r in front of the bell, of a pressure in the cup: with the bell a small source of flow U_b,
 *
 *   H(ω) = p(r)/p_rim = jωρ/(4πr) · U_b/p_rim
 *
 * the way from the bell to the ear left out, as impulse response h(t). The line stands for H at every complex frequency, so
 * that it is taken where everything has died away by the end of the response, e^{−σt} h(t), which no period of a discrete
 * transform folds over; e^{σt} brings h back. The bell is one of plane waves here whatever the setup says: a multimodal one has
 * no flow at its mouth to radiate, takes seconds as far up as this goes and ends below it in a wide bell. Above the first cross
 * mode of the bell (ka = 3.8) this is for the ear, not for measuring.
 */

import { radiationState } from "../../acoustics/bell/radiation.ts";
import { FIXED, Line, LOAD } from "../../acoustics/duct/line.ts";
import { applyTo, STATE, TWO_PORT } from "../../acoustics/duct/twoPort.ts";
import type { Setup } from "../../setup/setup.ts";
import { withBell } from "../../setup/withBell.ts";

/** r, m */
export const DISTANCE = 1;
/** Length of the response, s: lower resonances ring a little longer, which the ear does not miss. */
const LENGTH = 0.09;
/** Full up to the first, nothing from the second on, Hz. */
const BAND_HZ = [6000, 8000] as const;
/** What is left of e^{−σt} at the end. */
const LEFT = 1e-3;
/** Part of the response that is faded at its end. */
const FADED = 0.4;

/** H of one instrument at any gap; all but the gap is computed once. */
export class RadiatedSound {
  readonly #line: Line;
  /** The fixed parts at every frequency, and U at the bell, pairs. */
  readonly #fixed: Float64Array;
  readonly #bellFlow: Float64Array;
  readonly #count: number;

  constructor(setup: Setup) {
    const line = new Line(withBell(setup, "plane"));
    this.#line = line;
    this.#count = Math.ceil(BAND_HZ[1] * LENGTH) + 1;
    this.#fixed = new Float64Array(FIXED * this.#count);
    this.#bellFlow = new Float64Array(2 * this.#count);
    const { radiation, bellRadius, bellAir } = line.bore;
    const bell = new Float64Array(STATE);
    for (let k = 0; k < this.#count; k++) {
      line.fixed(omegaAt(k), -SIGMA, this.#fixed, FIXED * k);
      radiationState(radiation, bellRadius, bellAir, omegaAt(k), -SIGMA, bell);
      this.#bellFlow.set(bell.subarray(2), 2 * k);
    }
  }

  /** h at a gap in mm, 1/s times the sampling step: a filter from the cup's pressure to the sound, both in Pa. */
  response(gapMm: number, sampleRate: number): Float32Array<ArrayBuffer> {
    const gap = this.#line.gap(gapMm / 1000);
    const samples = Math.round(LENGTH * sampleRate);
    const sum = new Float64Array(samples);
    const port = new Float64Array(TWO_PORT);
    const state = new Float64Array(STATE);
    for (let k = 0; k < this.#count; k++) {
      const at = FIXED * k;
      gap.twoPort(omegaAt(k), -SIGMA, port);
      for (let i = 0; i < STATE; i++) state[i] = this.#fixed[at + LOAD + i];
      applyTo(state, port);
      applyTo(state, this.#fixed, at);
      const [re, im] = this.#transfer(k, state[0], state[1]);
      // Re H e^{jωt} of a frequency and its mirror image, the phasor turned from sample to sample
      const weight = (k === 0 ? 1 : 2) * banded(k / LENGTH);
      const [cos, sin] = [Math.cos(omegaAt(k) / sampleRate), Math.sin(omegaAt(k) / sampleRate)];
      let a = weight * re;
      let b = weight * im;
      for (let i = 0; i < samples; i++) {
        sum[i] += a;
        [a, b] = [a * cos - b * sin, a * sin + b * cos];
      }
    }
    const step = 1 / (LENGTH * sampleRate);
    return Float32Array.from(
      sum,
      (value, i) => step * value * Math.exp((SIGMA * i) / sampleRate) * ending(i / samples),
    );
  }

  /** jωρ/(4πr) · U_b/p at the rim. */
  #transfer(k: number, pRe: number, pIm: number): readonly [re: number, im: number] {
    const source = this.#line.bore.bellAir.density / (4 * Math.PI * DISTANCE);
    const [uRe, uIm] = [this.#bellFlow[2 * k], this.#bellFlow[2 * k + 1]];
    const size = pRe * pRe + pIm * pIm;
    const re = (uRe * pRe + uIm * pIm) / size;
    const im = (uIm * pRe - uRe * pIm) / size;
    // jω = σ + jω at the frequency it is taken at
    return [source * (SIGMA * re - omegaAt(k) * im), source * (SIGMA * im + omegaAt(k) * re)];
  }
}

/** σ, 1/s */
const SIGMA = -Math.log(LEFT) / LENGTH;

const omegaAt = (k: number): number => (2 * Math.PI * k) / LENGTH;

const banded = (hz: number): number => falling((hz - BAND_HZ[0]) / (BAND_HZ[1] - BAND_HZ[0]));

const ending = (part: number): number => falling((part - 1 + FADED) / FADED);

/** From 1 at 0 to 0 at 1 without a corner. */
const falling = (x: number): number => (x <= 0 ? 1 : x >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * x));
