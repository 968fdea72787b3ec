/**
 * The way of the sound: lips (the cup's pressure, Pa) → the instrument's radiation as a filter (Pa a metre before the bell)
 * → full scale → limiter → fade → volume. Works in any audio context, one that renders to memory too.
 */

import worklet from "../../../../workers/voice/lips.worklet.ts?worker&url";
import type {
  LipsMessage,
  LipsOptions,
  LipsRefusal,
  LipsReport,
} from "../../../../workers/voice/lipsProtocol.ts";
import { LIMITER, LIPS } from "../../../../workers/voice/lipsProtocol.ts";
import type { Blowing } from "../../../lips/oscillator.ts";
import type { VoiceAtGap } from "../../../study/feel/voice.ts";
import { newest } from "../../work/newest.ts";

/** Of full scale, a pascal a metre before the bell: a loud note then only just reaches the limiter. */
const FULL_SCALE_PER_PASCAL = 0.06;
/** s */
const FADE = 0.03;
const CROSSFADE = 0.02;
/** Between the parts of a performance, s. */
const PAUSE = 0.5;

/** A sound made elsewhere: the cup's pressure, Pa, and the way to the ear. */
export interface Recorded {
  readonly pressures: Float32Array<ArrayBuffer>;
  readonly sampleRate: number;
  readonly radiation: Float32Array<ArrayBuffer>;
}

export class Voice {
  readonly #context: BaseAudioContext;
  readonly #lips: AudioWorkletNode;
  readonly #mix: GainNode;
  readonly #fade: GainNode;
  readonly #volume: GainNode;
  #filter: { readonly node: ConvolverNode; readonly gain: GainNode };
  #performing: AbortController | null = null;

  /** @throws where the browser has no audio worklets or refuses this one */
  static async open(
    context: BaseAudioContext,
    at: VoiceAtGap,
    lipHz: number,
    volume: number,
  ): Promise<Voice> {
    await context.audioWorklet.addModule(worklet);
    return new Voice(context, at, lipHz, volume);
  }

  private constructor(context: BaseAudioContext, at: VoiceAtGap, lipHz: number, volume: number) {
    this.#context = context;
    const options: LipsOptions = { valve: at.valve, modes: at.modes, lipHz };
    this.#lips = new AudioWorkletNode(context, LIPS, {
      numberOfInputs: 0,
      outputChannelCount: [1],
      processorOptions: options,
    });
    this.#mix = new GainNode(context, { gain: FULL_SCALE_PER_PASCAL });
    const limiter = new AudioWorkletNode(context, LIMITER, { channelCount: 1, outputChannelCount: [1] });
    this.#fade = new GainNode(context, { gain: 0 });
    this.#volume = new GainNode(context, { gain: volume });
    this.#filter = this.#addFilter(at.radiation, 1);
    this.#mix.connect(limiter).connect(this.#fade).connect(this.#volume).connect(context.destination);
  }

  /** What the lips tell from now on. */
  listen(told: (news: LipsReport | LipsRefusal) => void): void {
    this.#lips.port.onmessage = ({ data }: MessageEvent<LipsReport | LipsRefusal>) => told(data);
  }

  blow({ mouthPressure, lipHz }: Blowing): void {
    this.#send({ kind: "blow", mouthPressure, lipHz });
  }

  /** Another gap under the sounding note. */
  become({ valve, modes, radiation }: VoiceAtGap): void {
    this.#send({ kind: "column", valve, modes });
    this.#crossfadeTo(radiation);
  }

  /** Lets the sound out or shuts it off. */
  letOut(isOut: boolean): void {
    this.#approach(this.#fade.gain, isOut ? 1 : 0, FADE);
  }

  setVolume(volume: number): void {
    this.#approach(this.#volume.gain, volume, FADE);
  }

  /**
   * One recorded sound after another.
   * @param began told of each by its place
   * @returns whether all were heard to the end
   */
  async perform(sounds: readonly Recorded[], began: (place: number) => void): Promise<boolean> {
    this.stopPerforming();
    const performing = new AbortController();
    this.#performing = performing;
    const { signal } = performing;
    this.letOut(true);
    for (const [place, { pressures, sampleRate, radiation }] of sounds.entries()) {
      if (signal.aborted) return false;
      began(place);
      const buffer = new AudioBuffer({ length: pressures.length, sampleRate });
      buffer.copyToChannel(pressures, 0);
      const source = new AudioBufferSourceNode(this.#context, { buffer });
      const filter = this.#filterOf(radiation);
      source.connect(filter).connect(this.#mix);
      source.start();
      await ended(source, signal);
      // the filter rings on into the pause, and a stopped one fades
      await rest(signal.aborted ? FADE : PAUSE);
      filter.disconnect();
    }
    if (signal.aborted) return false;
    this.letOut(false);
    return true;
  }

  stopPerforming(): void {
    this.#performing?.abort();
    this.#performing = null;
  }

  /** The new filter is let in once it has heard as much as it remembers. */
  readonly #crossfadeTo = newest(async (radiation: Float32Array<ArrayBuffer>): Promise<void> => {
    const old = this.#filter;
    this.#filter = this.#addFilter(radiation, 0);
    const memory = radiation.length / this.#context.sampleRate;
    this.#approach(old.gain.gain, 0, CROSSFADE, memory);
    this.#approach(this.#filter.gain.gain, 1, CROSSFADE, memory);
    await this.#heard(memory + 2 * CROSSFADE);
    this.#lips.disconnect(old.node);
    old.gain.disconnect();
  });

  /** A gain reaches its value, but for a twentieth, in so many seconds. */
  #approach(gain: AudioParam, value: number, seconds: number, wait = 0): void {
    gain.setTargetAtTime(value, this.#context.currentTime + wait, seconds / 3);
  }

  /** So many seconds later by the sound's own clock, which a busy machine holds up and a rendering to memory outruns. */
  #heard(seconds: number): Promise<void> {
    const silence = new ConstantSourceNode(this.#context, { offset: 0 });
    silence.connect(this.#mix);
    silence.start();
    silence.stop(this.#context.currentTime + seconds);
    return new Promise((done) => {
      silence.onended = () => {
        silence.disconnect();
        done();
      };
    });
  }

  #send(message: LipsMessage): void {
    this.#lips.port.postMessage(message);
  }

  #filterOf(radiation: Float32Array<ArrayBuffer>): ConvolverNode {
    const { sampleRate } = this.#context;
    const buffer = new AudioBuffer({ length: radiation.length, sampleRate });
    buffer.copyToChannel(radiation, 0);
    return new ConvolverNode(this.#context, { buffer, disableNormalization: true });
  }

  #addFilter(radiation: Float32Array<ArrayBuffer>, share: number) {
    const node = this.#filterOf(radiation);
    const gain = new GainNode(this.#context, { gain: share });
    this.#lips.connect(node).connect(gain).connect(this.#mix);
    return { node, gain };
  }
}

const ended = (source: AudioBufferSourceNode, signal: AbortSignal): Promise<void> =>
  new Promise((done) => {
    source.onended = () => done();
    signal.addEventListener("abort", () => source.stop(source.context.currentTime + FADE));
  });

const rest = (seconds: number): Promise<void> =>
  new Promise((done) => {
    setTimeout(done, 1000 * seconds);
  });
