/** The microphone as it sounds: what browsers do to speech is asked to be off, and whatever is kept on all the same is told. */

import type { MicrophoneTrouble } from "../../words/sound/microphoneWords.ts";

/** Why there is no microphone. */
type NoMicrophone = Exclude<MicrophoneTrouble, "gone">;

export class MicrophoneError extends Error {
  readonly why: NoMicrophone;

  constructor(why: NoMicrophone) {
    super(`no microphone: ${why}`);
    this.why = why;
  }
}

/** What is made for speech, and would even out what is to be heard. */
export const PROCESSING = ["echoCancellation", "noiseSuppression", "autoGainControl"] as const;
export type Processing = (typeof PROCESSING)[number];

export const hasMicrophones = (): boolean => navigator.mediaDevices?.getUserMedia !== undefined;

/** Asks for leave where that is not given yet. @throws MicrophoneError */
export async function openMicrophone(): Promise<MediaStream> {
  try {
    return await navigator.mediaDevices.getUserMedia({
      audio: Object.fromEntries(PROCESSING.map((name) => [name, false])),
    });
  } catch (error) {
    throw new MicrophoneError(reasonOf(error instanceof DOMException ? error.name : ""));
  }
}

/** What the browser has kept on. */
export function processingOf(stream: MediaStream): Processing[] {
  const settings = stream.getAudioTracks()[0]?.getSettings() ?? {};
  // browsers may name a way of cancelling echoes instead of saying yes
  return PROCESSING.filter((name) => Boolean(settings[name]));
}

/** The lamp beside the camera goes out. */
export function closeMicrophone(stream: MediaStream): void {
  for (const track of stream.getTracks()) track.stop();
}

function reasonOf(name: string): NoMicrophone {
  switch (name) {
    case "NotAllowedError":
    case "SecurityError":
      return "denied";
    case "NotFoundError":
      return "none";
    case "NotReadableError":
      return "busy";
    default:
      return "other";
  }
}
