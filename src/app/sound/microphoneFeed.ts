/** The microphone's sound on its way past the page's own thread, to a worker that hears it block by block. */
import { transfer } from "comlink";
import capture from "../../../workers/microphone/capture.worklet.ts?worker&url";
import { CAPTURE, type CaptureMessage } from "../../../workers/microphone/captureProtocol.ts";
import { closeMicrophone, openMicrophone, type Processing, processingOf } from "./microphone.ts";

/** Takes the port that the blocks come by. */
export type Follow = (port: MessagePort, sampleRateHz: number) => Promise<unknown>;

export class MicrophoneFeed {
  readonly #gone: () => void;
  #stream: MediaStream | null = null;
  #context: AudioContext | null = null;

  /** @param gone told when the microphone is taken away */
  constructor(gone: () => void) {
    this.#gone = gone;
  }

  /** What is heard by is played by as well, on one clock as far as the browser knows; null while it is closed. */
  get context(): AudioContext | null {
    return this.#context;
  }

  /**
   * To be called from a hand's own event.
   * @returns what the browser does to the sound although it was asked not to
   * @throws MicrophoneError
   */
  async open(follow: Follow): Promise<readonly Processing[]> {
    const stream = await openMicrophone();
    this.#stream = stream;
    stream.getAudioTracks()[0]?.addEventListener("ended", () => {
      if (this.#stream === stream) this.#gone();
    });
    const context = new AudioContext({ latencyHint: "interactive" });
    this.#context = context;
    void context.resume();
    await context.audioWorklet.addModule(capture);
    const node = new AudioWorkletNode(context, CAPTURE, { numberOfInputs: 1, outputChannelCount: [1] });
    const { port1, port2 } = new MessageChannel();
    await follow(transfer(port2, [port2]), context.sampleRate);
    node.port.postMessage({ port: port1 } satisfies CaptureMessage, [port1]);
    // it is silent; but what leads nowhere is not run everywhere
    new MediaStreamAudioSourceNode(context, { mediaStream: stream })
      .connect(node)
      .connect(context.destination);
    return processingOf(stream);
  }

  /** The lamp goes out. */
  close(): void {
    if (this.#stream) closeMicrophone(this.#stream);
    this.#stream = null;
    void this.#context?.close();
    this.#context = null;
  }
}
