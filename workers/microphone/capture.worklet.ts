/** Entry of the audio worklet that hands a microphone's sound on, block by block, to the worker that listens. It is silent itself. */
import { BLOCK, CAPTURE, type CaptureMessage } from "./captureProtocol.ts";

// the worklet's globals, which TypeScript's libraries do not know
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

registerProcessor(
  CAPTURE,
  class extends AudioWorkletProcessor {
    #to: MessagePort | null = null;
    #block = new Float32Array(BLOCK);
    #filled = 0;

    constructor() {
      super();
      this.port.onmessage = ({ data }: MessageEvent<CaptureMessage>) => {
        this.#to = data.port;
      };
    }

    process([channels]: readonly (readonly Float32Array[])[]): boolean {
      const [first] = channels;
      // nothing comes in before the microphone does
      if (!first || !this.#to) return true;
      for (let i = 0; i < first.length; i++) {
        let sum = 0;
        for (const channel of channels) sum += channel[i];
        this.#block[this.#filled++] = sum / channels.length;
        if (this.#filled < BLOCK) continue;
        this.#to.postMessage(this.#block, [this.#block.buffer]);
        this.#block = new Float32Array(BLOCK);
        this.#filled = 0;
      }
      return true;
    }
  },
);
