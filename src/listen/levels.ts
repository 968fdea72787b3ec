/** How loud a take is, how loud the room is without it, and how many samples stand at the end of the scale. */
import { HighPass } from "./highPass.ts";

/** Levels are those of blocks as long as this. */
const BLOCK_S = 0.05;
/** What is within this of the loudest block is playing. */
const PLAYING_DB = 20;
/** The room is what the quietest blocks hold: this share of them, two at least. */
const QUIET_SHARE = 0.02;
/** The last step of 16 bits but one: some converters never reach the last. */
const END_OF_SCALE = 32767 / 32768;

/** A telephone passes nothing above 3.4 kHz: what a quiet room has above the second, within what it has above the first. */
const MIDDLE_HZ = 1500;
const TREBLE_HZ = 4200;
/** Filters of second order in a row: the treble's slope has to be steep. */
const MIDDLE_FILTERS = 2;
const TREBLE_FILTERS = 4;
/** Below this the quiet of a recording is that of its numbers, which tells nothing of a room. */
const HEARD_DBFS = -90;

export interface Levels {
  readonly seconds: number;
  /** Root mean square of the playing, dB re full scale; null of digital silence. */
  readonly levelDbfs: number | null;
  /** Of the quietest moments; null of digital silence. */
  readonly noiseDbfs: number | null;
  readonly clippedSamples: number;
  /** Treble within the quietest moments' upper half, dB; null where they are too quiet to tell. */
  readonly trebleDb: number | null;
}

export class LevelMeter {
  readonly #rateHz: number;
  readonly #length: number;
  readonly #blocks: BlockPower[] = [];
  readonly #middle: HighPass[];
  readonly #treble: HighPass[];
  #sum = 0;
  #middleSum = 0;
  #trebleSum = 0;
  #filled = 0;
  #samples = 0;
  #clipped = 0;

  constructor(sampleRateHz: number) {
    this.#rateHz = sampleRateHz;
    this.#length = Math.round(BLOCK_S * sampleRateHz);
    const filters = (count: number, hz: number) =>
      Array.from({ length: 2 * hz < sampleRateHz ? count : 0 }, () => new HighPass(hz / sampleRateHz));
    this.#middle = filters(MIDDLE_FILTERS, MIDDLE_HZ);
    this.#treble = filters(TREBLE_FILTERS, TREBLE_HZ);
  }

  /** Takes the next samples of all channels, and gives their mean. */
  push(channels: readonly Float32Array[]): Float32Array {
    const mixed = new Float32Array(channels[0].length);
    for (let i = 0; i < mixed.length; i++) {
      let sum = 0;
      let largest = 0;
      for (const channel of channels) {
        sum += channel[i];
        largest = Math.max(largest, Math.abs(channel[i]));
      }
      // files of floating-point numbers may hold some that are none
      const x = Number.isFinite(sum) ? sum / channels.length : 0;
      mixed[i] = x;
      this.#sum += x * x;
      this.#middleSum += through(this.#middle, x) ** 2;
      this.#trebleSum += through(this.#treble, x) ** 2;
      if (largest >= END_OF_SCALE) this.#clipped++;
      if (++this.#filled < this.#length) continue;
      this.#blocks.push({
        whole: this.#sum / this.#length,
        middle: this.#middleSum / this.#length,
        treble: this.#trebleSum / this.#length,
      });
      this.#sum = 0;
      this.#middleSum = 0;
      this.#trebleSum = 0;
      this.#filled = 0;
    }
    this.#samples += mixed.length;
    return mixed;
  }

  read(): Levels {
    const sorted = [...this.#blocks].sort((a, b) => a.whole - b.whole);
    const loudest = sorted[sorted.length - 1]?.whole ?? 0;
    const playing = sorted.filter(({ whole }) => whole >= loudest * 10 ** (-PLAYING_DB / 10));
    const quiet = sorted.slice(0, Math.max(2, Math.round(QUIET_SHARE * sorted.length)));
    const middleDb = decibels(quiet.map(({ middle }) => middle));
    const trebleDb = decibels(quiet.map(({ treble }) => treble));
    return {
      seconds: this.#samples / this.#rateHz,
      levelDbfs: decibels(playing.map(({ whole }) => whole)),
      noiseDbfs: decibels(quiet.map(({ whole }) => whole)),
      clippedSamples: this.#clipped,
      trebleDb:
        this.#treble.length > 0 && middleDb !== null && middleDb > HEARD_DBFS && trebleDb !== null
          ? trebleDb - middleDb
          : null,
    };
  }
}

/** Mean squares of a block: of all, of what lies above the middle, of the treble. */
interface BlockPower {
  readonly whole: number;
  readonly middle: number;
  readonly treble: number;
}

function through(filters: readonly HighPass[], sample: number): number {
  let x = sample;
  for (const filter of filters) x = filter.next(x);
  return x;
}

function decibels(powers: readonly number[]): number | null {
  const mean = powers.reduce((sum, power) => sum + power, 0) / powers.length;
  return mean > 0 ? 10 * Math.log10(mean) : null;
}
