/** A recording by the microphone, from a press to a press; what it cannot do is said in words. */
import { microphoneRefused } from "../../../../words/sound/microphoneWords.ts";
import {
  closeMicrophone,
  hasMicrophones,
  MicrophoneError,
  openMicrophone,
} from "../../../sound/microphone.ts";

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
    throw new RecordingError(
      microphoneRefused(error.why, "Record", "go on without: the trial needs no recording"),
    );
  }
}
