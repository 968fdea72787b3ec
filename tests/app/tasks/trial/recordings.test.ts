/** Recordings in a browser's database that is none (fake-indexeddb), and a microphone that is none. */
import "fake-indexeddb/auto";
import { afterEach, expect, test, vi } from "vitest";
import { Recordings } from "../../../../src/app/sound/recordings.ts";
import {
  canRecord,
  RecordingError,
  startRecording,
} from "../../../../src/app/tasks/trial/session/recorder.ts";

afterEach(() => vi.unstubAllGlobals());

test("a recording is kept by trial and turn, replaced, and deleted, one or all", async () => {
  const recordings = new Recordings();
  const sound = (text: string) => new Blob([text], { type: "audio/webm" });
  await recordings.keep("one", "K4T", sound("first"));
  await recordings.keep("one", "K4T", sound("second"));
  await recordings.keep("one", "M2X", sound("another"));
  await recordings.keep("two", "K4T", sound("of another trial"));
  expect([...(await recordings.of("one")).keys()].sort()).toEqual(["K4T", "M2X"]);
  await recordings.remove("one", "M2X");
  expect([...(await recordings.of("one")).keys()]).toEqual(["K4T"]);
  await recordings.removeAll("one");
  expect((await recordings.of("one")).size).toBe(0);
  expect((await recordings.of("two")).size).toBe(1);
  recordings.close();
});

function microphone(answer: () => Promise<unknown>): void {
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia: answer } });
}

test.each([
  ["NotAllowedError", /allow it for this page/],
  ["NotFoundError", /No microphone was found/],
  ["NotReadableError", /in use by another program/],
  ["AbortError", /could not be used/],
])("%s is said in words, and that the trial goes on", async (name, words) => {
  microphone(() => Promise.reject(new DOMException("no", name)));
  const refused = await startRecording().catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(RecordingError);
  expect((refused as Error).message).toMatch(words);
  expect((refused as Error).message).toMatch(/go on without/);
});

test("what is heard comes as one sound, and the microphone is let go; also when it was taken away before", async () => {
  const stop = vi.fn();
  microphone(async () => ({ getTracks: () => [{ stop }] }));
  class Recorder extends EventTarget {
    state = "inactive";
    mimeType = "audio/webm";
    start() {
      this.state = "recording";
      this.dispatchEvent(Object.assign(new Event("dataavailable"), { data: new Blob(["ab"]) }));
    }
    stop() {
      this.state = "inactive";
      this.dispatchEvent(Object.assign(new Event("dataavailable"), { data: new Blob(["cd"]) }));
      this.dispatchEvent(new Event("stop"));
    }
  }
  const made: Recorder[] = [];
  vi.stubGlobal(
    "MediaRecorder",
    class extends Recorder {
      constructor() {
        super();
        made.push(this);
      }
    },
  );
  expect(canRecord()).toBe(true);
  const sound = await (await startRecording()).stop();
  expect(await sound.text()).toBe("abcd");
  expect(sound.type).toBe("audio/webm");
  const cut = await startRecording();
  made[1].state = "inactive";
  expect(await (await cut.stop()).text()).toBe("ab");
  expect(stop).toHaveBeenCalledTimes(2);
});
