/** Why there is no microphone, what to do, and what a browser does to its sound. */

/** Why there is none, or no longer. */
export type MicrophoneTrouble = "denied" | "none" | "busy" | "other" | "gone";

/**
 * @param button what is pressed again once it is put right
 * @param otherwise what can be done without a microphone, `go on without`
 */
export function microphoneRefused(why: MicrophoneTrouble, button: string, otherwise: string): string {
  const again = `and press ${button} again, or ${otherwise}.`;
  switch (why) {
    case "denied":
      return `The browser may not use the microphone: allow it for this page in the browser's settings ${again}`;
    case "none":
      return `No microphone was found: connect one ${again}`;
    case "busy":
      return `The microphone is in use by another program: close that ${again}`;
    case "gone":
      return `The microphone has gone away: connect it ${again}`;
    case "other":
      return `The microphone could not be used here: try another browser, or ${otherwise}.`;
  }
}

export const NO_MICROPHONES = "This browser offers no microphone here (pages need https for it).";

const PROCESSING_NAMES = {
  echoCancellation: "echo cancelling",
  noiseSuppression: "noise suppression",
  autoGainControl: "automatic gain",
} as const;

/** What a browser keeps on although it was asked to be off. @param harmed what cannot be trusted for it */
export const keptOnWords = (keptOn: readonly (keyof typeof PROCESSING_NAMES)[], harmed: string): string =>
  `This browser keeps ${keptOn.map((name) => PROCESSING_NAMES[name]).join(" and ")} on, which is made for speech: ${harmed} cannot be trusted. Use another browser, or record elsewhere and open the file.`;
