/** Why there is nothing to listen to, and what to do. */
import type { NoMicrophone } from "../../sound/microphone.ts";

const OR_A_FILE = "or open a recording made with anything else.";

export const MICROPHONE_REFUSED: Readonly<Record<NoMicrophone | "gone", string>> = {
  denied: `The browser may not use the microphone: allow it for this page in the browser's settings and press Listen again, ${OR_A_FILE}`,
  none: `No microphone was found: connect one and press Listen again, ${OR_A_FILE}`,
  busy: `The microphone is in use by another program: close that and press Listen again, ${OR_A_FILE}`,
  other: `The microphone could not be used here: try another browser, ${OR_A_FILE}`,
  gone: `The microphone has gone away: connect it and press Listen again, ${OR_A_FILE}`,
};

export const WORKER_DIED =
  "Listening stopped, which is a fault in this program: press Listen again. What you kept is still there.";

/** What browsers keep on although it was asked to be off. */
export const PROCESSING_NAMES = {
  echoCancellation: "echo cancelling",
  noiseSuppression: "noise suppression",
  autoGainControl: "automatic gain",
} as const;
