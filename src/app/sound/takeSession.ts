/**
 * What every take has in common, from the press of a hand to what was found: a microphone that is opened when asked for, a worker
 * that hears, and the words for what cannot be. Nothing leaves the machine.
 */
import { isRefusal, type Refusal } from "../../../workers/service/served.ts";
import { type MicrophoneTrouble, microphoneRefused } from "../../words/sound/microphoneWords.ts";
import { Observable } from "../state/observable.ts";
import type { Connection } from "../work/connection.ts";
import { unlessEnded } from "../work/unlessEnded.ts";
import { MicrophoneError, type Processing } from "./microphone.ts";
import { type Follow, MicrophoneFeed } from "./microphoneFeed.ts";

export interface TakeState {
  readonly microphone: "off" | "asking" | "on";
  /** Why something could not be, in words. */
  readonly problem: string | null;
  /** What the browser does to the sound although it was asked not to. */
  readonly keptOn: readonly Processing[];
  /** `rest` between takes; the others are each kind of take's own. */
  readonly phase: string;
}

export const NO_MICROPHONE_YET = {
  microphone: "off",
  problem: null,
  keptOn: [],
} as const satisfies Partial<TakeState>;

interface Words {
  /** What is pressed again once the microphone is put right. */
  readonly button: string;
  /** What is said when the worker has died. */
  readonly died: string;
}

export abstract class TakeSession<State extends TakeState, Model extends object> extends Observable<State> {
  readonly #connect: () => Connection<Model>;
  readonly #words: Words;
  #worker: Connection<Model> | null = null;
  protected readonly feed = new MicrophoneFeed(() => void this.#gone());

  constructor(first: State, connect: () => Connection<Model>, words: Words) {
    super(first);
    this.#connect = connect;
    this.#words = words;
  }

  /** The lamp goes out; what was found stays. */
  abstract closeMicrophone(): void;
  /** What was found is given up. */
  abstract drop(): void;
  /** A take under way ends, as this kind of take does when its microphone goes. */
  protected abstract end(): unknown;
  /** The worker takes the port that the microphone's blocks come by. */
  protected abstract readonly follow: Follow;

  close(): void {
    this.closeMicrophone();
    this.drop();
    this.#leaveWorker();
  }

  /** Whether the microphone is on; it is asked for where it is off. */
  protected async open(): Promise<boolean> {
    if (this.value.microphone === "on") return true;
    this.set({ microphone: "asking", problem: null });
    try {
      this.set({ keptOn: await this.feed.open(this.follow), microphone: "on" });
      return true;
    } catch (error) {
      this.closeMicrophone();
      const why = error instanceof MicrophoneError ? error.why : "other";
      this.set({ phase: "rest", problem: this.#refused(why) });
      return false;
    }
  }

  /** What the worker says; null where it died over it, which is said, and the next press starts another. */
  protected async asked<T>(ask: (model: Connection<Model>["model"]) => Promise<T>): Promise<T | null> {
    try {
      const worker = this.connected();
      return await unlessEnded(ask(worker.model), [worker.died]);
    } catch {
      this.closeMicrophone();
      this.#leaveWorker();
      this.set({ phase: "rest", problem: this.#words.died });
      return null;
    }
  }

  /** The same where it can refuse; a refusal is said. @param file the name of what it refuses, where that is a file */
  protected async heard<T extends object>(
    ask: (model: Connection<Model>["model"]) => Promise<T | Refusal>,
    file: string | null,
  ): Promise<T | null> {
    const answer = await this.asked(ask);
    if (answer === null || !isRefusal(answer)) return answer;
    const { refused } = answer;
    const problem = `${file === null ? "" : `${file}: `}${refused.charAt(0).toUpperCase()}${refused.slice(1)}.`;
    this.set({ phase: "rest", problem });
    return null;
  }

  protected connected(): Connection<Model> {
    this.#worker ??= this.#connect();
    return this.#worker;
  }

  protected set(part: Partial<State> | Partial<TakeState>): void {
    this.change({ ...this.value, ...part } as State);
  }

  /** What was heard until then stays. */
  async #gone(): Promise<void> {
    const ended = this.end();
    this.closeMicrophone();
    await ended;
    this.set({ problem: this.#refused("gone") });
  }

  #refused(why: MicrophoneTrouble): string {
    return microphoneRefused(why, this.#words.button, "open a recording made with anything else");
  }

  #leaveWorker(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
