/** A recording by the microphone, from a press to a press; what it cannot do is said in words. */
import {
  closeMicrophone,
  hasMicrophones,
  MicrophoneError,
  type NoMicrophone,
  openMicrophone,
} from "../../sound/microphone.ts";

/** Why there is no recording, for people. */
export class RecordingError extends Error {}

export interface Recording {
  /** Ends it; what was heard. */
  readonly stop: () => Promise<Blob>;
}

export const canRecord = (): boolean => typeof MediaRecorder === "function" && hasMicrophones();

/** @throws RecordingError */
export async function startRecording(): Promise<Recording> {
  const stream = await microphone();
  const recorder = new MediaRecorder(stream);
  const heard: Blob[] = [];
  recorder.addEventListener("dataavailable", ({ data }) => heard.push(data));
  recorder.start();
  return {
    stop: () =>
      new Promise((resolve) => {
        const done = () => {
          closeMicrophone(stream);
          resolve(new Blob(heard, { type: recorder.mimeType }));
        };
        // the microphone may have been taken away in the meantime
        if (recorder.state === "inactive") done();
        else {
          recorder.addEventListener("stop", done, { once: true });
          recorder.stop();
        }
      }),
  };
}

async function microphone(): Promise<MediaStream> {
  try {
    return await openMicrophone();
  } catch (error) {
    if (!(error instanceof MicrophoneError)) throw error;
    throw new RecordingError(REFUSAL[error.why]);
  }
}

const REFUSAL: Readonly<Record<NoMicrophone, string>> = {
  denied:
    "The browser may not use the microphone: allow it for this page in the browser's settings, or go on without. The trial needs no recording.",
  none: "No microphone was found: connect one and press Record again, or go on without.",
  busy: "The microphone is in use by another program: close that and press Record again, or go on without.",
  other: "The microphone could not be used; go on without. The trial needs no recording.",
};
