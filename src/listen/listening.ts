/** One sound listened to in one range of pitch, block by block as it comes: its levels, its frames, and what may be heard in them. */
import { type Frame, FrameAnalyser } from "./frameAnalyser.ts";
import type { PitchRange } from "./harmonicPhase.ts";
import { LevelMeter, type Levels } from "./levels.ts";
import { type Heard, hear } from "./track.ts";

export class Listening {
  readonly sampleRateHz: number;
  readonly #range: PitchRange;
  readonly #meter: LevelMeter;
  readonly #analyser: FrameAnalyser;
  readonly #frames: Frame[] = [];

  constructor(sampleRateHz: number, range: PitchRange) {
    this.sampleRateHz = sampleRateHz;
    this.#range = range;
    this.#meter = new LevelMeter(sampleRateHz);
    this.#analyser = new FrameAnalyser(sampleRateHz, range);
  }

  /** Takes the next samples, an array a channel. */
  push(channels: readonly Float32Array[]): void {
    this.#analyser.push(this.#meter.push(channels), (frame) => this.#frames.push(frame));
  }

  get frames(): readonly Frame[] {
    return this.#frames;
  }

  levels(): Levels {
    return this.#meter.read();
  }

  heard(): Heard {
    const { frameS, hopS } = this.#analyser;
    return hear({ range: this.#range, frameS, hopS, frames: this.#frames });
  }
}
