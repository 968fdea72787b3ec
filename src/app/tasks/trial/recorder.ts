/** The microphone, from a press to a press; what it cannot do is said in words. */

/** Why there is no recording, for people. */
export class RecordingError extends Error {}

export interface Recording {
  /** Ends it; what was heard. */
  readonly stop: () => Promise<Blob>;
}

export const canRecord = (): boolean =>
  typeof MediaRecorder === "function" && navigator.mediaDevices?.getUserMedia !== undefined;

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
          // the lamp beside the camera goes out
          for (const track of stream.getTracks()) track.stop();
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
    // as it sounds: what is made for speech would even out what is to be heard
    return await navigator.mediaDevices.getUserMedia({
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
    });
  } catch (error) {
    throw new RecordingError(refusal(error instanceof DOMException ? error.name : ""));
  }
}

function refusal(name: string): string {
  switch (name) {
    case "NotAllowedError":
    case "SecurityError":
      return "The browser may not use the microphone: allow it for this page in the browser's settings, or go on without. The trial needs no recording.";
    case "NotFoundError":
      return "No microphone was found: connect one and press Record again, or go on without.";
    case "NotReadableError":
      return "The microphone is in use by another program: close that and press Record again, or go on without.";
    default:
      return "The microphone could not be used; go on without. The trial needs no recording.";
  }
}
