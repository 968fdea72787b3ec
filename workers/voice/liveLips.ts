/**
 * The oscillator played live: settings come as messages at any time and are approached over several blocks, what sounds is
 * told some twenty times a second. No allocation while it runs, but for the reports.
 */

import { countOf, type Modes } from "../../src/lips/modes.ts";
import { noteAt } from "../../src/lips/note.ts";
import { type Blowing, Oscillator } from "../../src/lips/oscillator.ts";
import { playingOf } from "../../src/lips/playing.ts";
import type { Valve } from "../../src/lips/valve.ts";
import { OutOfRange } from "../../src/units/outOfRange.ts";
import {
  type LipsMessage,
  type LipsOptions,
  type LipsRefusal,
  type LipsReport,
  MOST_MOUTH_PRESSURE,
} from "./lipsProtocol.ts";

/** New settings are reached in this, s. */
const GLIDE = 0.02;
/** Frequencies are counted over the first, and told every second of these, s. */
const LISTEN = 0.1;
const TELL = 0.05;
/** Below this, Pa, an unblown column has rung out. */
const SILENT = 1e-6;

export class LiveLips {
  readonly #sampleRate: number;
  readonly #tell: (news: LipsReport | LipsRefusal) => void;
  #oscillator: Oscillator;
  #valve: Valve;
  #blowing: Glide<Blowing>;
  #column: Glide<Modes>;
  /** Between two columns. */
  #between: Modes;
  /** What was last heard, and how much of it is new. */
  readonly #pressures: Float64Array;
  readonly #openings: Float64Array;
  #heard = 0;

  /** @throws OutOfRange in words for what it cannot run with */
  constructor(sampleRate: number, first: LipsOptions, tell: (news: LipsReport | LipsRefusal) => void) {
    const { valve, modes, lipHz } = first;
    this.#sampleRate = sampleRate;
    this.#tell = tell;
    const unblown = { mouthPressure: 0, lipHz };
    this.#oscillator = new Oscillator(sampleRate, valve, modes, unblown);
    this.#valve = valve;
    this.#blowing = new Glide(unblown);
    this.#column = new Glide(modes);
    this.#between = copyOf(modes);
    this.#pressures = new Float64Array(Math.round(LISTEN * sampleRate));
    this.#openings = new Float64Array(this.#pressures.length);
  }

  /** What it cannot follow is refused in words, and what was before goes on. */
  take(message: LipsMessage): void {
    try {
      if (message.kind === "blow") this.#blow(message);
      else this.#become(message.valve, message.modes);
    } catch (error) {
      if (!(error instanceof OutOfRange)) throw error;
      this.#tell({ refused: error.message });
    }
  }

  /** One block of the cup's pressure, Pa. */
  run(out: Float32Array): void {
    const share = out.length / (GLIDE * this.#sampleRate);
    const oscillator = this.#oscillator;
    if (this.#blowing.isMoving) {
      const { mouthPressure, lipHz } = between(this.#blowing.advance(share));
      oscillator.blow(mouthPressure, lipHz);
    }
    if (this.#column.isMoving) {
      mix(this.#column.advance(share), this.#between);
      oscillator.setModes(this.#between);
    }
    const pressures = this.#pressures;
    const openings = this.#openings;
    const start = pressures.length - out.length;
    pressures.copyWithin(0, out.length);
    openings.copyWithin(0, out.length);
    oscillator.run(pressures.subarray(start), openings.subarray(start));
    for (let i = 0; i < out.length; i++) out[i] = pressures[start + i];
    this.#restWhenDone(start);
    this.#heard += out.length;
    if (this.#heard >= TELL * this.#sampleRate) this.#report();
  }

  #blow({ mouthPressure, lipHz }: Blowing): void {
    const wanted = playable({ mouthPressure, lipHz });
    const here = between(this.#blowing.place);
    // refuses what cannot be; the glide then leads there more slowly
    this.#oscillator.blow(wanted.mouthPressure, wanted.lipHz);
    this.#blowing = new Glide(here, wanted);
  }

  #become(valve: Valve, modes: Modes): void {
    const { to } = this.#blowing.place;
    if (countOf(modes) !== countOf(this.#between) || !sameLips(valve, this.#valve)) {
      // blown from silence: lips exactly at rest in a steady stream would never begin
      const unblown = { ...to, mouthPressure: 0 };
      this.#oscillator = new Oscillator(this.#sampleRate, valve, modes, unblown);
      this.#valve = valve;
      this.#blowing = new Glide(unblown, to);
      this.#column = new Glide(modes);
      this.#between = copyOf(modes);
      return;
    }
    // refuses what cannot be; the glide then leads there more slowly
    this.#oscillator.setModes(modes);
    const here = copyOf(modes);
    mix(this.#column.place, here);
    this.#column = new Glide(here, modes);
  }

  /** A column that has rung out is put to rest: numbers that only get smaller make a processor slow. */
  #restWhenDone(start: number): void {
    if (this.#blowing.isMoving || this.#oscillator.blowing.mouthPressure > 0) return;
    for (let i = start; i < this.#pressures.length; i++) if (Math.abs(this.#pressures[i]) > SILENT) return;
    this.#oscillator.rest();
  }

  #report(): void {
    this.#heard = 0;
    const { mouthPressure, lipHz } = this.#oscillator.blowing;
    const playing = playingOf(this.#pressures, this.#openings, this.#sampleRate, mouthPressure);
    const frequencyHz = mouthPressure > 0 ? playing.frequencyHz : null;
    this.#tell({
      mouthPressure,
      lipHz,
      frequencyHz,
      note: frequencyHz === null ? null : noteAt(this.#column.place.to, frequencyHz),
      peakToPeak: playing.peakToPeak,
    });
  }
}

interface Place<T> {
  readonly from: T;
  readonly to: T;
  /** 0 to 1 */
  readonly part: number;
}

/** A way from one setting to another. */
class Glide<T> {
  #part: number;

  constructor(
    readonly from: T,
    readonly to: T = from,
  ) {
    this.#part = from === to ? 1 : 0;
  }

  get isMoving(): boolean {
    return this.#part < 1;
  }

  get place(): Place<T> {
    return { from: this.from, to: this.to, part: this.#part };
  }

  advance(share: number): Place<T> {
    this.#part = Math.min(1, this.#part + share);
    return this.place;
  }
}

const between = ({ from, to, part }: Place<Blowing>): Blowing => ({
  mouthPressure: from.mouthPressure + part * (to.mouthPressure - from.mouthPressure),
  lipHz: from.lipHz * (to.lipHz / from.lipHz) ** part,
});

/** Between two decaying columns whose frequencies rise lie such columns only. */
function mix({ from, to, part }: Place<Modes>, out: Modes): void {
  for (const name of ["poles", "residues"] as const)
    for (let k = 0; k < out[name].length; k++)
      out[name][k] = from[name][k] + part * (to[name][k] - from[name][k]);
}

const copyOf = (modes: Modes): Modes => ({
  ...modes,
  poles: modes.poles.slice(),
  residues: modes.residues.slice(),
});

const sameLips = (a: Valve, b: Valve): boolean =>
  Object.keys({ ...a, ...b }).every((name) => a[name as keyof Valve] === b[name as keyof Valve]);

function playable(blowing: Blowing): Blowing {
  const { mouthPressure } = blowing;
  if (mouthPressure > MOST_MOUTH_PRESSURE)
    throw new OutOfRange(
      `a mouth pressure of ${mouthPressure / 1000} kPa is more than can be played here: give 0 kPa to ${MOST_MOUTH_PRESSURE / 1000} kPa`,
    );
  return blowing;
}
