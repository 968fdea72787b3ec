/** What the page and the worklet that takes a microphone's sound say to each other. Lives beside the worklet. */

/** Name the processor is registered by. */
export const CAPTURE = "annulus-capture";

/** Samples of one block on their way to the worker that listens: at 48 kHz some 11 ms. */
export const BLOCK = 512;

/** The way the blocks go from now on. */
export interface CaptureMessage {
  readonly port: MessagePort;
}
