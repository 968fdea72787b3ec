/**
 * Level and pitch of a sound, frame by frame, from blocks of samples as they come: for a whole file, or live. The rough pitch
 * is McLeod and Wyvill's (2005, Proc. Int. Computer Music Conf., 138; the package pitchy); `harmonicPhase.ts` makes it exact.
 * A frame is long enough for two and a half periods of the lowest pitch looked for, and no longer than that takes, so that
 * short notes are seen. Memory does not grow with the sound.
 */
import { PitchDetector } from "pitchy";
import { AnalysisBand } from "./analysisBand.ts";
import { HarmonicPhase, type PitchRange, SAME_CENTS } from "./harmonicPhase.ts";

const SHORTEST_FRAME_S = 0.02;
const PERIODS = 2.5;
const SHORTEST_HOP_S = 0.005;
/** Harmonics that a pitch is heard by, at least of low notes; a small microphone takes the first few of a tuba's away. */
const HARMONICS = 6;
const LEAST_BAND_HZ = 1000;
const MOST_BAND_HZ = 2000;
/** Below these a frame has no pitch: noise 10 dB down leaves both above 0.85. */
const LEAST_CLARITY = 0.8;
const LEAST_HARMONIC_SHARE = 0.7;
/** A pitch that has stood for as long within `SAME_CENTS` from frame to frame keeps its octave more firmly. */
const STANDING_S = 0.05;

export interface Frame extends FramePitch {
  /** Its middle, s after the first sample. */
  readonly atS: number;
  /** Root mean square of the analysis band, dB re full scale. */
  readonly levelDb: number;
}

interface FramePitch {
  /** Null where there is none. */
  readonly hz: number | null;
  /** Share of the power that stands in the pitch's harmonics, and the level of the first of them; 0 without pitch. */
  readonly harmonicShare: number;
  readonly fundamentalDb: number;
}

const NO_PITCH: FramePitch = { hz: null, harmonicShare: 0, fundamentalDb: 0 };

export class FrameAnalyser {
  readonly frameS: number;
  readonly hopS: number;
  readonly #band: AnalysisBand;
  readonly #range: PitchRange;
  readonly #detector: PitchDetector<Float64Array>;
  readonly #phase: HarmonicPhase;
  readonly #frame: Float64Array;
  readonly #hop: number;
  #filled = 0;
  /** Samples of the band before the frame being filled. */
  #before = 0;
  #lastHz: number | null = null;
  /** Frames for which the pitch has stood where it is. */
  #standing = 0;

  constructor(sampleRateHz: number, range: PitchRange) {
    const passHz = Math.min(MOST_BAND_HZ, Math.max(LEAST_BAND_HZ, HARMONICS * range.highestHz));
    this.#band = new AnalysisBand(sampleRateHz, 0.7 * range.lowestHz, passHz);
    const { rateHz } = this.#band;
    this.#range = range;
    const length = Math.round(rateHz * Math.max(SHORTEST_FRAME_S, PERIODS / range.lowestHz));
    this.frameS = length / rateHz;
    this.#hop = Math.round(Math.max(SHORTEST_HOP_S * rateHz, length / 6));
    this.hopS = this.#hop / rateHz;
    this.#frame = new Float64Array(length);
    this.#detector = PitchDetector.forFloat64Array(length);
    this.#phase = new HarmonicPhase(rateHz, length, this.#band.highestHz);
  }

  /** Takes the next samples, −1 to 1, and tells each frame that they complete. */
  push(block: ArrayLike<number>, tell: (frame: Frame) => void): void {
    const frame = this.#frame;
    this.#band.push(block, (sample) => {
      frame[this.#filled++] = sample;
      if (this.#filled < frame.length) return;
      tell(this.#analyse());
      frame.copyWithin(0, this.#hop);
      this.#filled -= this.#hop;
      this.#before += this.#hop;
    });
  }

  #analyse(): Frame {
    const frame = this.#frame;
    const { rateHz, delayS } = this.#band;
    let sum = 0;
    for (let i = 0; i < frame.length; i++) sum += frame[i] * frame[i];
    const pitch = this.#pitch();
    const { hz } = pitch;
    this.#standing =
      hz !== null && this.#lastHz !== null && Math.abs(1200 * Math.log2(hz / this.#lastHz)) < SAME_CENTS
        ? this.#standing + 1
        : 0;
    this.#lastHz = hz;
    return {
      atS: (this.#before + frame.length / 2) / rateHz - delayS,
      levelDb: 10 * Math.log10(sum / frame.length + 1e-12),
      ...pitch,
    };
  }

  #pitch(): FramePitch {
    const { lowestHz, highestHz } = this.#range;
    const [roughHz, clarity] = this.#detector.findPitch(this.#frame, this.#band.rateHz);
    if (clarity < LEAST_CLARITY || roughHz < lowestHz || roughHz > highestHz) return NO_PITCH;
    const standingHz = this.#standing * this.hopS >= STANDING_S ? this.#lastHz : null;
    const pitch = this.#phase.refine(this.#frame, roughHz, this.#range, standingHz);
    const isPitch =
      pitch.harmonicShare >= LEAST_HARMONIC_SHARE && pitch.hz >= lowestHz && pitch.hz <= highestHz;
    return isPitch ? pitch : NO_PITCH;
  }
}
