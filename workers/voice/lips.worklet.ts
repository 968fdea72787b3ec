/** Entry of the audio worklet: the lips, whose output is the cup's pressure in Pa, and the limiter all sound goes through. */
import { softlyLimited } from "./limiter.ts";
import { LIMITER, LIPS, type LipsMessage, type LipsOptions } from "./lipsProtocol.ts";
import { LiveLips } from "./liveLips.ts";

interface Options {
  readonly processorOptions: LipsOptions;
}

// the worklet's globals, which TypeScript's libraries do not know
declare const sampleRate: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(
  name: string,
  processor: new (options: Options) => AudioWorkletProcessor,
): void;

registerProcessor(
  LIPS,
  class extends AudioWorkletProcessor {
    readonly #lips: LiveLips;

    constructor({ processorOptions }: Options) {
      super();
      this.#lips = new LiveLips(sampleRate, processorOptions, (news) => this.port.postMessage(news));
      this.port.onmessage = ({ data }: MessageEvent<LipsMessage>) => this.#lips.take(data);
    }

    process(_: unknown, [[out]]: readonly [readonly [Float32Array]]): boolean {
      this.#lips.run(out);
      return true;
    }
  },
);

registerProcessor(
  LIMITER,
  class extends AudioWorkletProcessor {
    process(
      [[sound]]: readonly [readonly Float32Array[]],
      [[out]]: readonly [readonly [Float32Array]],
    ): boolean {
      // nothing comes in while nothing is connected
      if (sound) for (let i = 0; i < out.length; i++) out[i] = softlyLimited(sound[i]);
      return true;
    }
  },
);
