/**
 * Sweeps as a worker serves them: the sound to be played, the microphone's sound while it is recorded, and what is in it or in a file.
 * Of the sound only the take under way is held, and no longer than `LONGEST_S`.
 */
import { wavBlocks } from "../../src/listen/wav.ts";
import { responseOf } from "../../src/response/response.ts";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { type SweepTake, sweepTakeOf } from "../../src/response/sweepTake.ts";
import { wavBytes } from "../../src/response/wavBytes.ts";
import { InputError } from "../../src/units/inputError.ts";
import { refusing } from "../service/refusing.ts";
import { type Refusal, Served } from "../service/served.ts";
import { BlockLevel, joined } from "./blocks.ts";
import type { Decoded } from "./listen.ts";

/** Longer than any take. */
const LONGEST_S = 90;
const TELL_S = 0.05;

/** How loud the microphone hears it, dB of full scale; null of digital silence. */
export interface LevelNews {
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
}

export interface HeardSweeps {
  readonly take: SweepTake;
  /** As a WAV file; null where it came from one. */
  readonly sound: Uint8Array | null;
}

/** What was played: the page's own sweep by how long it lasts, or a file of one's own. */
export type Played = { readonly seconds: number } | { readonly file: Blob };

export class Sweeper extends Served<object> {
  #rate = 0;
  #port: MessagePort | null = null;
  #tell: (news: LevelNews) => void = () => {};
  readonly #level = new BlockLevel();
  /** Of the take under way; null between takes. */
  #sound: Float32Array[] | null = null;
  #samples = 0;

  constructor() {
    super({});
  }

  protected subjectOf(): object {
    return {};
  }

  /** One sweep with the silence before and after it; played again and again it is a take. */
  async sweep(seconds: number, rate: number): Promise<Float32Array> {
    return oneSweep(seconds, rate).samples;
  }

  /** The same, so many times, as a WAV file. */
  async excitation(seconds: number, times: number): Promise<Uint8Array> {
    const { samples, rate } = oneSweep(seconds, USUAL_SWEEP.rate);
    return wavBytes({ samples: joined(new Array<Float32Array>(times).fill(samples)), rate });
  }

  /** Hears what comes through this port from now on. */
  async follow(port: MessagePort, rate: number, tell: (news: LevelNews) => void): Promise<void> {
    this.#port?.close();
    this.#rate = rate;
    this.#tell = tell;
    this.#sound = null;
    this.#port = port;
    port.onmessage = ({ data }: MessageEvent<Float32Array>) => this.#hear(data);
  }

  /** A take begins now. */
  async begin(): Promise<void> {
    this.#sound = [];
    this.#samples = 0;
  }

  /** The take under way is given up. */
  async drop(): Promise<void> {
    this.#sound = null;
  }

  /** The take under way is over: what is found in it. */
  async finish(seconds: number): Promise<Refusal | HeardSweeps> {
    const recording = { samples: joined(this.#sound ?? []), rate: this.#rate };
    this.#sound = null;
    return refusing(() => ({ take: takeOf(recording, { seconds }), sound: wavBytes(recording) }));
  }

  /** A WAV file. @param played what it is a recording of */
  async wav(file: Blob, played: Played): Promise<Refusal | HeardSweeps> {
    const [recording, own] = await Promise.all([
      bytesOf(file),
      "file" in played ? bytesOf(played.file) : null,
    ]);
    return refusing(() => ({
      take: own
        ? responseTo(soundIn(own), soundIn(recording))
        : takeOf(soundIn(recording), played as { seconds: number }),
      sound: null,
    }));
  }

  /** Any other recording, decoded. */
  async decoded({ sampleRateHz, channels }: Decoded, played: Played): Promise<Refusal | HeardSweeps> {
    const own = "file" in played ? await bytesOf(played.file) : null;
    const recording = { samples: channels[0], rate: sampleRateHz };
    return refusing(() => ({
      take: own ? responseTo(soundIn(own), recording) : takeOf(recording, played as { seconds: number }),
      sound: null,
    }));
  }

  #hear(block: Float32Array): void {
    if (this.#sound && this.#samples < LONGEST_S * this.#rate) {
      this.#sound.push(block);
      this.#samples += block.length;
    }
    this.#level.push(block);
    if (this.#level.samples >= TELL_S * this.#rate) this.#tell(this.#level.read());
  }
}

const oneSweep = (seconds: number, rate: number): Sound => ({
  samples: exponentialSweep({ ...USUAL_SWEEP, seconds, rate }),
  rate,
});

/** The page's own sweep is made anew at whatever rate the recording has. */
const takeOf = (recording: Sound, { seconds }: { readonly seconds: number }): SweepTake =>
  sweepTakeOf(oneSweep(seconds, recording.rate), recording);

const responseTo = (excitation: Sound, recording: Sound): SweepTake => ({
  ...responseOf(excitation, recording),
  sweeps: 1,
  clock: null,
});

async function bytesOf(file: Blob): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}

/** Its first channel. */
function soundIn(bytes: Uint8Array): Sound {
  const blocks = [...wavBlocks([bytes])];
  if (blocks.length === 0) throw new InputError("there is no sound in it");
  return { samples: joined(blocks.map(({ channels }) => channels[0])), rate: blocks[0].sampleRateHz };
}
