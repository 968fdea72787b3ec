/**
 * Sweeping, from the press of a hand to what was found: the microphone, the level check, the take, its answer. Nothing sounds before
 * it is asked for, the level is the quietest at every visit and only a hand raises it, and nothing leaves the machine.
 */

import type { HeardSweeps, Played, Sweeper } from "../../../../workers/microphone/sweep.ts";
import type { SweepTake } from "../../../response/sweepTake.ts";
import type { Follow } from "../../sound/microphoneFeed.ts";
import { decodedFile, isWav } from "../../sound/soundFile.ts";
import { NO_MICROPHONE_YET, TakeSession, type TakeState } from "../../sound/takeSession.ts";
import type { Connection } from "../../work/connection.ts";
import { openSweepWorker } from "../../work/openWorkers.ts";

export interface Found {
  readonly take: SweepTake;
  readonly sound: Blob;
  /** Of a file, by its name. */
  readonly file: string | null;
}

export interface SweepState extends TakeState {
  readonly phase: "rest" | "checking" | "sweeping" | "working" | "found";
  /** Share of the sound that has been played. */
  readonly progress: number;
  /** Of what is played, dB below the loudest. */
  readonly outputDb: number;
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
  /** What the last check found, and at which level. */
  readonly check: { readonly take: SweepTake; readonly outputDb: number } | null;
  readonly found: Found | null;
}

/** Sweeps of one take: two tell the clocks apart. */
export const SWEEPS = 2;
export const QUIETEST_DB = -50;
/** Of the sweep that only checks the level, s. */
const CHECK_S = 2;
/** The sound is on its way for so long after the last of it was played, s. */
const TAIL_S = 0.6;
const TELL_MS = 100;

const WORDS = {
  button: "Check the level",
  died: "Sweeping stopped, which is a fault in this program: press Sweep again. What you kept is still there.",
};

export class SweepSession extends TakeSession<SweepState, Sweeper> {
  #source: AudioBufferSourceNode | null = null;
  #gain: GainNode | null = null;
  /** Given up by a hand. */
  #isStopped = false;

  constructor(connect: () => Connection<Sweeper> = openSweepWorker) {
    const first: SweepState = {
      ...NO_MICROPHONE_YET,
      phase: "rest",
      progress: 0,
      outputDb: QUIETEST_DB,
      levelDbfs: null,
      peakDbfs: null,
      check: null,
      found: null,
    };
    super(first, connect, WORDS);
  }

  /** By a hand only. */
  setOutput(outputDb: number): void {
    this.set({ outputDb: Math.min(0, Math.max(QUIETEST_DB, outputDb)) });
    // turning down is heard at once; what plays never gets louder by itself
    if (this.#gain && this.value.outputDb <= this.#playedDb)
      this.#gain.gain.value = gainOf(this.value.outputDb);
  }
  #playedDb = QUIETEST_DB;

  /** A short sweep at the level that is set, and what the microphone hears of it. To be called from a hand's own event. */
  async check(): Promise<void> {
    const { outputDb } = this.value;
    const heard = await this.#sound("checking", CHECK_S, 1);
    if (heard) this.set({ phase: "rest", check: { take: heard.take, outputDb } });
  }

  /** A take. To be called from a hand's own event. */
  async sweep(seconds: number): Promise<void> {
    const heard = await this.#sound("sweeping", seconds, SWEEPS);
    if (!heard) return;
    const sound = new Blob([heard.sound as Uint8Array<ArrayBuffer>], { type: "audio/wav" });
    this.set({ phase: "found", found: { take: heard.take, sound, file: null } });
  }

  /** Silence at once; a take under way is given up. */
  stop(): void {
    if (this.value.phase !== "checking" && this.value.phase !== "sweeping") return;
    this.#isStopped = true;
    this.#source?.stop();
  }

  /** A recording instead of the microphone. */
  async hear(file: File, played: Played): Promise<void> {
    const { phase } = this.value;
    if (phase === "working" || phase === "sweeping" || phase === "checking") return;
    this.set({ phase: "working", problem: null, found: null });
    const isRead = await isWav(file);
    const decoded = isRead ? null : await decodedFile(file);
    if (decoded && "refused" in decoded) {
      this.set({ phase: "rest", problem: decoded.refused });
      return;
    }
    const heard = await this.heard(
      (model) => (decoded ? model.decoded(decoded, played) : model.wav(file, played)),
      file.name,
    );
    if (heard) this.set({ phase: "found", found: { take: heard.take, sound: file, file: file.name } });
  }

  /** The sweeps of a take as a WAV file, to be played by anything. */
  async excitation(seconds: number): Promise<Blob | null> {
    const bytes = await this.asked((model) => model.excitation(seconds, SWEEPS));
    return bytes && new Blob([bytes as Uint8Array<ArrayBuffer>], { type: "audio/wav" });
  }

  drop(): void {
    this.set({ phase: "rest", found: null });
  }

  /** The lamp goes out, and the level back to the quietest; what was found stays. */
  closeMicrophone(): void {
    this.stop();
    this.feed.close();
    this.set({ microphone: "off", levelDbfs: null, peakDbfs: null, outputDb: QUIETEST_DB, check: null });
  }

  protected end(): void {
    this.stop();
  }

  protected readonly follow: Follow = (port, rate) =>
    this.connected().model.follow(port, rate, (news) => this.set(news));

  /** Plays and records; null where it was given up or came to nothing. */
  async #sound(phase: "checking" | "sweeping", seconds: number, times: number): Promise<HeardSweeps | null> {
    const { phase: now, microphone } = this.value;
    if ((now !== "rest" && now !== "found") || microphone === "asking" || !(await this.open())) return null;
    this.set({ phase, progress: 0, problem: null, found: null });
    this.#isStopped = false;
    const context = this.feed.context!;
    const one = await this.asked(async (model) => {
      await model.begin();
      return model.sweep(seconds, context.sampleRate);
    });
    if (one === null) return null;
    if (!this.#isStopped) await this.#play(context, one, times);
    if (this.#isStopped) {
      await this.asked((model) => model.drop());
      if (this.value.phase === phase) this.set({ phase: "rest", progress: 0 });
      return null;
    }
    this.set({ phase: "working" });
    return this.heard((model) => model.finish(seconds), null);
  }

  async #play(context: AudioContext, one: Float32Array, times: number): Promise<void> {
    const buffer = context.createBuffer(1, one.length * times, context.sampleRate);
    for (let k = 0; k < times; k++) buffer.getChannelData(0).set(one, k * one.length);
    const source = new AudioBufferSourceNode(context, { buffer });
    this.#playedDb = this.value.outputDb;
    const gain = new GainNode(context, { gain: gainOf(this.#playedDb) });
    source.connect(gain).connect(context.destination);
    this.#source = source;
    this.#gain = gain;
    const ended = new Promise<void>((resolve) =>
      source.addEventListener("ended", () => resolve(), { once: true }),
    );
    const begun = context.currentTime;
    const telling = setInterval(
      () => this.set({ progress: Math.min(1, (context.currentTime - begun) / buffer.duration) }),
      TELL_MS,
    );
    source.start();
    await ended;
    if (!this.#isStopped) await new Promise((resolve) => setTimeout(resolve, 1000 * TAIL_S));
    clearInterval(telling);
    gain.disconnect();
    this.#source = null;
    this.#gain = null;
  }
}

const gainOf = (db: number): number => 10 ** (db / 20);
