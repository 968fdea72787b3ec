/**
 * Listening, from the press of a hand to what was found: the microphone, the count-in, the take, its answer. Nothing is opened
 * before it is asked for, and nothing leaves the machine. The sound of a take is held until the next one or until it is dropped.
 */
import type { HeardTake, Listener, LiveNews } from "../../../../workers/microphone/listen.ts";
import type { Refusal } from "../../../../workers/service/served.ts";
import type { EdgesSoFar, PitchPoint } from "../../../listen/liveTake.ts";
import type { Take } from "../../../listen/take.ts";
import type { Follow } from "../../sound/microphoneFeed.ts";
import { decodedFile, isWav } from "../../sound/soundFile.ts";
import { NO_MICROPHONE_YET, TakeSession, type TakeState } from "../../sound/takeSession.ts";
import type { Connection } from "../../work/connection.ts";
import { openListenWorker } from "../../work/openWorkers.ts";
import type { Asked } from "./question.ts";

export interface Found {
  readonly asked: Asked;
  readonly take: Take;
  readonly points: readonly PitchPoint[];
  readonly sound: Blob;
  /** Address of the sound, to play it back. */
  readonly address: string;
  /** Of a file, by its name. */
  readonly file: string | null;
}

export interface ListenState extends TakeState {
  readonly phase: "rest" | "counting" | "taking" | "hearing" | "heard";
  /** Beats to go. */
  readonly count: number;
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
  /** The quiet during the count-in; null before the first. */
  readonly roomDbfs: number | null;
  /** Of the take so far, or of what is heard between takes. */
  readonly seconds: number;
  readonly points: readonly PitchPoint[];
  readonly edges: EdgesSoFar | null;
  readonly found: Found | null;
  /** So much was played without a rest that the next takes would be of tired lips. */
  readonly isTired: boolean;
}

const COUNT = 3;
const BEAT_MS = 1000;
/** A take ends by itself after so long without a note: hands are busy. */
const QUIET_S = 6;
/** Lips want a rest after so much of takes, s, and have had one after so long without (own choice, common practice). */
const TIRING_S = 150;
const REST_MS = 120_000;
/** Points of the strip no closer than this, s. */
const POINT_S = 0.012;

const WORDS = {
  button: "Listen",
  died: "Listening stopped, which is a fault in this program: press Listen again. What you kept is still there.",
};

export class ListenSession extends TakeSession<ListenState, Listener> {
  #asked: Asked | null = null;
  #beat: ReturnType<typeof setTimeout> | undefined;
  #take = 0;
  #room: number[] = [];
  #soundedAt: number | null = null;
  /** Since the last rest. */
  #playedS = 0;
  #playedUntil = 0;

  constructor(connect: () => Connection<Listener> = openListenWorker) {
    const first: ListenState = {
      ...NO_MICROPHONE_YET,
      phase: "rest",
      count: 0,
      levelDbfs: null,
      peakDbfs: null,
      roomDbfs: null,
      seconds: 0,
      points: [],
      edges: null,
      found: null,
      isTired: false,
    };
    super(first, connect, WORDS);
  }

  /** What is meant by what is heard from now on; a take under way stays what it was. */
  ask(asked: Asked): void {
    if (JSON.stringify(asked) === JSON.stringify(this.#asked)) return;
    this.#asked = asked;
    if (this.value.microphone === "on")
      void this.connected()
        .model.mean(asked.question)
        .catch(() => {});
  }

  /** To be called from a hand's own event. Opens the microphone where it is off, counts in, and begins a take. */
  async listen(): Promise<void> {
    const { phase, microphone } = this.value;
    if (phase === "counting" || phase === "taking" || phase === "hearing" || microphone === "asking") return;
    if (!(await this.open())) return;
    this.#forget();
    this.#room = [];
    this.set({ phase: "counting", count: COUNT, problem: null });
    this.#countDown();
  }

  /** Ends the take and finds what is in it; a count-in is given up. */
  async stop(): Promise<void> {
    if (this.value.phase === "counting") {
      clearTimeout(this.#beat);
      this.set({ phase: "rest", count: 0 });
      return;
    }
    if (this.value.phase !== "taking") return;
    this.#playedS += this.value.seconds;
    this.#playedUntil = performance.now();
    this.set({ phase: "hearing", isTired: this.#playedS > TIRING_S });
    await this.#answer((model) => model.finish(), null, null);
  }

  /** A recording instead of the microphone. */
  async hear(file: File): Promise<void> {
    const { phase } = this.value;
    if (phase === "hearing" || phase === "taking") return;
    if (phase === "counting") await this.stop();
    this.#forget();
    const { question } = this.#asked!;
    this.set({ phase: "hearing", problem: null, points: [], edges: null, seconds: 0 });
    if (await isWav(file)) return this.#answer((model) => model.wav(file, question), file, file.name);
    const decoded = await decodedFile(file);
    if ("refused" in decoded) this.set({ phase: "rest", problem: decoded.refused });
    else await this.#answer((model) => model.decoded(decoded, question), file, file.name);
  }

  /** Gives up what was found, and its sound. */
  drop(): void {
    this.#forget();
    this.set({ phase: "rest", points: [], edges: null, seconds: 0 });
  }

  /** Ends a take with what was heard of it, and the microphone with it. */
  async leave(): Promise<void> {
    const ended = this.stop();
    this.closeMicrophone();
    await ended;
  }

  /** The lamp goes out; what was found stays. */
  closeMicrophone(): void {
    clearTimeout(this.#beat);
    this.feed.close();
    const { phase } = this.value;
    this.set({
      microphone: "off",
      levelDbfs: null,
      peakDbfs: null,
      ...((phase === "counting" || phase === "taking") && {
        phase: "rest" as const,
        points: [],
        edges: null,
      }),
    });
  }

  protected end(): Promise<void> {
    return this.stop();
  }

  protected readonly follow: Follow = async (port, rate) => {
    const { model } = this.connected();
    await model.follow(port, rate, (news) => this.#told(news));
    if (this.#asked) await model.mean(this.#asked.question);
  };

  #countDown(): void {
    this.#beat = setTimeout(() => {
      const count = this.value.count - 1;
      if (count > 0) {
        this.set({ count });
        this.#countDown();
      } else void this.#begin();
    }, BEAT_MS);
  }

  async #begin(): Promise<void> {
    this.#soundedAt = null;
    if (performance.now() - this.#playedUntil > REST_MS) this.#playedS = 0;
    this.set({ isTired: false });
    const take = await this.asked((model) => model.begin());
    if (take === null) return;
    this.#take = take;
    const room = [...this.#room].sort((a, b) => a - b);
    this.set({
      phase: "taking",
      count: 0,
      points: [],
      edges: null,
      seconds: 0,
      roomDbfs: room.length > 0 ? room[Math.floor(room.length / 2)] : null,
    });
  }

  #told({ take, seconds, levelDbfs, peakDbfs, points, edges, isFull }: LiveNews): void {
    const { phase, points: before } = this.value;
    const isTaking = phase === "taking";
    if (phase === "counting" && levelDbfs !== null) this.#room.push(levelDbfs);
    // news of the moments before the take
    if (isTaking && take !== this.#take) return;
    if (phase === "hearing" || phase === "heard") {
      this.set({ levelDbfs, peakDbfs });
      return;
    }
    const kept = isTaking
      ? before
      : before.filter(({ atS }) => atS <= (points[0]?.atS ?? 0) && atS > seconds - 12);
    this.set({ levelDbfs, peakDbfs, seconds, edges, points: [...kept, ...thinned(points, kept)] });
    if (!isTaking) return;
    const last = points.findLast(({ hz }) => hz !== null);
    if (last) this.#soundedAt = last.atS;
    const isQuiet = this.#soundedAt !== null && seconds - this.#soundedAt > QUIET_S;
    if (isFull || isQuiet) void this.stop();
  }

  async #answer(
    ask: (model: Connection<Listener>["model"]) => Promise<HeardTake | Refusal>,
    sound: Blob | null,
    file: string | null,
  ): Promise<void> {
    const asked = this.#asked!;
    const heard = await this.heard(ask, file);
    if (heard === null) return;
    const blob = sound ?? new Blob([heard.sound as Uint8Array<ArrayBuffer>], { type: "audio/wav" });
    const { take, points } = heard;
    const found = { asked, take, points, sound: blob, address: URL.createObjectURL(blob), file };
    this.set({ phase: "heard", found, points: thinned(points, []), seconds: take.levels.seconds });
  }

  #forget(): void {
    const { found } = this.value;
    if (found) URL.revokeObjectURL(found.address);
    this.set({ found: null });
  }
}

/** As many as can be drawn; where a note begins, at once. */
function thinned(points: readonly PitchPoint[], before: readonly PitchPoint[]): PitchPoint[] {
  let last = before[before.length - 1];
  return points.filter((point) => {
    const begins = last?.hz === null && point.hz !== null;
    if (last && point.atS - last.atS < POINT_S && !begins) return false;
    last = point;
    return true;
  });
}
