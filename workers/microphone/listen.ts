/**
 * Listening as a worker serves it: a microphone's sound as it comes, take by take, or a recording. What is heard is told
 * block by block; of the sound itself only the take under way is held, and no longer than `LONGEST_TAKE_S`.
 */
import { type EdgesSoFar, LiveTake, type PitchPoint } from "../../src/listen/liveTake.ts";
import type { Take } from "../../src/listen/take.ts";
import type { TakeQuestion } from "../../src/listen/takeQuestion.ts";
import { type SoundBlock, wavBlocks } from "../../src/listen/wav.ts";
import { wavBytes } from "../../src/response/wavBytes.ts";
import { InputError } from "../../src/units/inputError.ts";
import { refusing } from "../service/refusing.ts";
import { type Refusal, Served } from "../service/served.ts";
import { BlockLevel, joined } from "./blocks.ts";

/** Longer than lips last without a rest. */
export const LONGEST_TAKE_S = 180;
/** No longer than a block: what is heard is to be seen within 80 ms. */
const TELL_S = 0.01;
const EDGES_S = 0.4;
/** A follower that nobody begins a take with starts anew after so long, and lets go of what it heard. */
const FOLLOWED_S = 20;
/** Piece of a file, bytes or samples. */
const PIECE = 1 << 18;

/** What is heard right now. */
export interface LiveNews {
  /** Which take, counted from 1; 0 between takes. */
  readonly take: number;
  /** Of the take, or of what is followed between takes, s. */
  readonly seconds: number;
  /** Root mean square and largest sample since the last news, dB of full scale; null of digital silence. */
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
  readonly points: readonly PitchPoint[];
  /** As last looked for; null while there are none. */
  readonly edges: EdgesSoFar | null;
  /** The take has become as long as one may be. */
  readonly isFull: boolean;
}

export interface HeardTake {
  readonly take: Take;
  /** As a WAV file; null where it came from one. */
  readonly sound: Uint8Array | null;
  /** The pitch of the whole take. */
  readonly points: readonly PitchPoint[];
}

/** Sound that the page has decoded. */
export interface Decoded {
  readonly sampleRateHz: number;
  readonly channels: readonly Float32Array[];
}

export class Listener extends Served<object> {
  #sampleRateHz = 0;
  #question: TakeQuestion | null = null;
  #tell: (news: LiveNews) => void = () => {};
  #port: MessagePort | null = null;
  #live: LiveTake | null = null;
  /** Of the take under way; null between takes. */
  #sound: Float32Array[] | null = null;
  #takes = 0;
  #samples = 0;
  #told = 0;
  readonly #level = new BlockLevel();
  #edges: EdgesSoFar | null = null;
  #edgesAt = 0;

  constructor() {
    super({});
  }

  protected subjectOf(): object {
    return {};
  }

  /** Hears what comes through this port from now on. */
  async follow(port: MessagePort, sampleRateHz: number, tell: (news: LiveNews) => void): Promise<void> {
    this.#port?.close();
    this.#sampleRateHz = sampleRateHz;
    this.#tell = tell;
    this.#sound = null;
    this.#live = null;
    this.#port = port;
    port.onmessage = ({ data }: MessageEvent<Float32Array>) => this.#hear(data);
  }

  /** What is meant by what is heard. */
  async mean(question: TakeQuestion): Promise<Refusal | { readonly ok: true }> {
    return refusing(() => {
      this.#question = question;
      if (!this.#sound) this.#restart();
      return { ok: true };
    });
  }

  /** A take begins now. */
  async begin(): Promise<number> {
    this.#restart();
    this.#sound = [];
    return ++this.#takes;
  }

  /** The take under way is over: what is found in it. */
  async finish(): Promise<Refusal | HeardTake> {
    const live = this.#live;
    const blocks = this.#sound ?? [];
    this.#sound = null;
    const rate = this.#sampleRateHz;
    const answer = refusing(() => {
      if (!live) throw new InputError("nothing was heard yet; press Listen first");
      const take = live.finish();
      return { take, sound: wavBytes({ samples: joined(blocks), rate }), points: live.points() };
    });
    this.#restart();
    return answer;
  }

  /** The take under way is given up. */
  async drop(): Promise<void> {
    this.#sound = null;
    this.#restart();
  }

  /** A WAV file. */
  async wav(file: Blob, question: TakeQuestion): Promise<Refusal | HeardTake> {
    const bytes = new Uint8Array(await file.arrayBuffer());
    return refusing(() => heardIn(wavBlocks(pieces(bytes)), question));
  }

  /** Any other recording, decoded. */
  async decoded(sound: Decoded, question: TakeQuestion): Promise<Refusal | HeardTake> {
    return refusing(() => heardIn(blocksOf(sound), question));
  }

  #hear(block: Float32Array): void {
    const live = this.#live;
    const rate = this.#sampleRateHz;
    // a take that is full waits for its end
    if (!live || (this.#sound && this.#samples >= LONGEST_TAKE_S * rate)) return;
    live.push([block]);
    this.#sound?.push(block);
    this.#samples += block.length;
    this.#level.push(block);
    if (this.#level.samples < TELL_S * rate) return;
    const seconds = this.#samples / rate;
    if (this.#sound && seconds - this.#edgesAt >= EDGES_S) {
      this.#edges = live.edges();
      this.#edgesAt = seconds;
    }
    const isFull = this.#sound !== null && seconds >= LONGEST_TAKE_S;
    const points = live.points(this.#told);
    this.#told += points.length;
    this.#tell({
      take: this.#sound ? this.#takes : 0,
      seconds,
      ...this.#level.read(),
      points,
      edges: this.#edges,
      isFull,
    });
    if (!this.#sound && seconds >= FOLLOWED_S) this.#restart();
  }

  #restart(): void {
    this.#live = this.#question && new LiveTake(this.#sampleRateHz, this.#question);
    this.#samples = 0;
    this.#told = 0;
    this.#edges = null;
    this.#edgesAt = 0;
  }
}

function heardIn(blocks: Iterable<SoundBlock>, question: TakeQuestion): HeardTake {
  let live: LiveTake | null = null;
  for (const { sampleRateHz, channels } of blocks) {
    live ??= new LiveTake(sampleRateHz, question);
    live.push(channels);
  }
  if (!live) throw new InputError("there is no sound in it");
  return { take: live.finish(), sound: null, points: live.points() };
}

function* pieces(bytes: Uint8Array): Generator<Uint8Array> {
  for (let from = 0; from < bytes.length; from += PIECE) yield bytes.subarray(from, from + PIECE);
}

function* blocksOf({ sampleRateHz, channels }: Decoded): Generator<SoundBlock> {
  for (let from = 0; from < channels[0].length; from += PIECE)
    yield { sampleRateHz, channels: channels.map((channel) => channel.subarray(from, from + PIECE)) };
}
