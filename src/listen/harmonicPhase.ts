/**
 * A pitch made exact from a rough one, by the phase of its harmonics: a partial of frequency f turns by 2πfτ between two
 * windows τ apart, so that what it turns more than k times the rough pitch is k times the rough pitch's error (the phase
 * vocoder: Flanagan & Golden 1966, Bell Syst. Tech. J. 45, 1493). The harmonics of a blown note are exact multiples; their
 * errors are put together with weights k²|z|², the best in white noise (Rife & Boorstyn 1974, IEEE Trans. Inf. Theory 20, 591).
 *
 * The same sums tell octaves apart: a pitch an octave too low has no power at its odd harmonics, one an octave too high has
 * power half-way between its own, and two of its periods are more alike than one.
 */

const MOST_HARMONICS = 24;
/**
 * Share of the power below which a set of harmonics is taken to be noise and leakage. Noise 20 dB down stays below it; an
 * autocorrelation takes half a period for the whole only where less than 5 % stands in the odd harmonics.
 */
const ABSENT = 0.03;
/** The same where the pitch goes on an octave lower from the frame before: what noise 20 dB down puts there is still less. */
const ABSENT_CONTINUED = 0.01;
/** One pitch, from frame to frame: no lips bend faster. */
export const SAME_CENTS = 40;

export interface PitchRange {
  readonly lowestHz: number;
  readonly highestHz: number;
}

export interface ExactPitch {
  readonly hz: number;
  /** Share of the window's power that stands in its harmonics, 0 to 1. */
  readonly harmonicShare: number;
  /** Level of the first harmonic, dB of an arbitrary scale. */
  readonly fundamentalDb: number;
}

/** For frames of one length. */
export class HarmonicPhase {
  readonly #rateHz: number;
  readonly #highestHz: number;
  /** Samples between the two windows. */
  readonly #apart: number;
  readonly #window: Float64Array;
  /** What makes a component's squared magnitude a share of the windowed power. */
  readonly #shareScale: number;
  /** The frame under its first and its second window. */
  readonly #first: Float64Array;
  readonly #second: Float64Array;

  /** @param highestHz no harmonic above it is looked at */
  constructor(rateHz: number, frameLength: number, highestHz: number) {
    this.#rateHz = rateHz;
    this.#highestHz = highestHz;
    this.#apart = Math.round(frameLength / 5);
    const length = frameLength - this.#apart;
    this.#window = Float64Array.from(
      { length },
      (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / length),
    );
    const sum = this.#window.reduce((total, w) => total + w, 0);
    this.#shareScale = (2 * this.#window.reduce((total, w) => total + w * w, 0)) / sum ** 2;
    this.#first = new Float64Array(length);
    this.#second = new Float64Array(length);
  }

  /**
   * @param roughHz within some 2 % of the pitch, or of its octave below or above, in `range`
   * @param standingHz the pitch until now, if it has stood for a while
   */
  refine(
    frame: Float64Array,
    roughHz: number,
    { lowestHz, highestHz }: PitchRange,
    standingHz: number | null,
  ): ExactPitch {
    let power = 0;
    for (let i = 0; i < this.#window.length; i++) {
      const x = this.#window[i] * frame[i];
      this.#first[i] = x;
      this.#second[i] = this.#window[i] * frame[i + this.#apart];
      power += x * x;
    }
    if (power === 0) return { hz: roughHz, harmonicShare: 0, fundamentalDb: 0 };
    const shareOf = ({ re, im }: Component): number => ((re * re + im * im) * this.#shareScale) / power;
    const at = (hz: number) => componentAt(this.#first, hz / this.#rateHz);
    const harmonicsAt = (hz: number) =>
      Array.from({ length: this.#harmonicCount(hz) }, (_, i) => at((i + 1) * hz));
    const total = (components: readonly Component[]) =>
      components.reduce((sum, component) => sum + shareOf(component), 0);

    let hz = roughHz;
    let harmonics = harmonicsAt(hz);
    for (const times of [3, 2]) {
      if (hz * times > highestHz) continue;
      if (total(harmonics.filter((_, i) => (i + 1) % times !== 0)) > ABSENT) continue;
      hz *= times;
      harmonics = harmonicsAt(hz);
    }
    const isContinued = standingHz !== null && Math.abs(1200 * Math.log2(hz / 2 / standingHz)) < SAME_CENTS;
    if (hz / 2 >= lowestHz) {
      const between = total(harmonics.map((_, i) => at((i + 0.5) * hz)));
      const period = this.#rateHz / hz;
      // in what grows, dies or glides power leaks there as well, but two periods are no more alike than one
      if (
        between > (isContinued ? ABSENT_CONTINUED : ABSENT) &&
        likeness(frame, 2 * period) - likeness(frame, period) > between
      ) {
        hz /= 2;
        harmonics = harmonicsAt(hz);
      }
    }

    let error = 0;
    let weights = 0;
    harmonics.forEach((before, i) => {
      const k = i + 1;
      const after = componentAt(this.#second, (k * hz) / this.#rateHz);
      const re = after.re * before.re + after.im * before.im;
      const im = after.im * before.re - after.re * before.im;
      // both windows count time from their own start
      const turned = Math.atan2(im, re) / (2 * Math.PI) - (k * hz * this.#apart) / this.#rateHz;
      const weight = k * k * Math.hypot(re, im);
      error += (weight * (turned - Math.round(turned)) * this.#rateHz) / (this.#apart * k);
      weights += weight;
    });
    return {
      hz: hz + error / weights,
      harmonicShare: Math.min(1, total(harmonics)),
      fundamentalDb: 20 * Math.log10(Math.hypot(harmonics[0].re, harmonics[0].im) + 1e-12),
    };
  }

  #harmonicCount(hz: number): number {
    return Math.max(1, Math.min(MOST_HARMONICS, Math.floor(this.#highestHz / hz)));
  }
}

interface Component {
  readonly re: number;
  readonly im: number;
}

/** Σ x e^{−jωn}, by Goertzel's recurrence (1958, Am. Math. Monthly 65, 34). @param cycles of the component, a sample */
function componentAt(x: Float64Array, cycles: number): Component {
  const turn = 2 * Math.PI * cycles;
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  const twice = 2 * cos;
  let one = 0;
  let two = 0;
  for (let i = 0; i < x.length; i++) {
    const next = x[i] + twice * one - two;
    two = one;
    one = next;
  }
  // the recurrence ends at the last sample's phase: turned back to the first's
  const re = one * cos - two;
  const im = one * sin;
  const back = turn * x.length;
  const backCos = Math.cos(back);
  const backSin = Math.sin(back);
  return { re: re * backCos + im * backSin, im: im * backCos - re * backSin };
}

/**
 * McLeod and Wyvill's normalised square difference at a lag that need not be whole: 1 where the frame repeats itself. Of a
 * note with the share p in its odd harmonics it is 1 − 2p at half the period.
 */
function likeness(frame: Float64Array, lag: number): number {
  const whole = Math.round(lag);
  const at = (samples: number): number => {
    let product = 0;
    let power = 0;
    for (let i = 0; i + samples < frame.length; i++) {
      product += frame[i] * frame[i + samples];
      power += frame[i] ** 2 + frame[i + samples] ** 2;
    }
    return power > 0 ? (2 * product) / power : 0;
  };
  const [before, middle, after] = [at(whole - 1), at(whole), at(whole + 1)];
  const offset = lag - whole;
  return middle + ((after - before) / 2) * offset + ((after + before) / 2 - middle) * offset ** 2;
}
