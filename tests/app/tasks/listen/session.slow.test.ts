/** An hour of listening on the page: how much of what the worker tells is held. */
import { afterEach, expect, it, vi } from "vitest";
import { ListenSession } from "../../../../src/app/tasks/listen/session.ts";
import type { HeardTake, Listener, LiveNews } from "../../../../workers/microphone/listen.ts";
import { heldBytes } from "../../../heldBytes.ts";

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

const HOP_S = 0.005;
/** News of so many seconds at once, which is slower than the worker's: an hour is long. */
const NEWS_S = 0.1;

/** A microphone that may be opened, and is silent: the news are the test's. */
function stubMicrophone(): void {
  const track = { addEventListener() {}, getSettings: () => ({}), stop() {} };
  const stream = { getAudioTracks: () => [track], getTracks: () => [track] };
  vi.stubGlobal("navigator", { mediaDevices: { getUserMedia: async () => stream } });
  const node = { port: { postMessage() {} }, connect: (to: object) => to };
  class Context {
    readonly sampleRate = 48_000;
    readonly audioWorklet = { addModule: async () => {} };
    async resume() {}
    async close() {}
  }
  vi.stubGlobal("AudioContext", Context);
  const nodeClass = class {
    readonly port = node.port;
    readonly connect = node.connect;
  };
  vi.stubGlobal("AudioWorkletNode", nodeClass);
  vi.stubGlobal("MediaStreamAudioSourceNode", nodeClass);
}

it("holds one take at most, and twelve seconds between takes, after an hour as after a minute", async () => {
  vi.useFakeTimers();
  stubMicrophone();
  const made = vi.spyOn(URL, "createObjectURL");
  const given = vi.spyOn(URL, "revokeObjectURL");

  let tell: (news: LiveNews) => void = () => {};
  let takes = 0;
  let heard: HeardTake["points"] = [];
  const levels = { seconds: 30, levelDbfs: -20, noiseDbfs: -60, clippedSamples: 0, trebleDb: null };
  const model: Pick<Listener, "follow" | "mean" | "begin" | "finish" | "drop"> = {
    async follow(_port, _rate, told) {
      tell = told;
    },
    mean: async () => ({ ok: true }),
    begin: async () => ++takes,
    finish: async () => ({
      take: { test: "slot", slot: null, sampleRateHz: 48_000, levels, warnings: [] },
      sound: new Uint8Array(1000),
      points: heard,
    }),
    drop: async () => {},
  };
  const session = new ListenSession(() => ({
    model: model as Listener,
    died: new Promise<never>(() => {}),
    terminate() {},
  }));
  session.ask({
    question: { test: "slot", nearHz: 466, notesHz: [] },
    partial: 4,
    toPartial: null,
    hz: 466,
    partials: [2, 3, 4, 5, 6],
  });

  let mostPoints = 0;
  /** The worker's news of so long, of a take or of what is followed between takes, which starts anew every 20 s. */
  const news = (take: number, seconds: number) => {
    for (let i = 1; i * NEWS_S <= seconds; i++) {
      const at = take > 0 ? i * NEWS_S : (i * NEWS_S) % 20;
      const points = Array.from({ length: NEWS_S / HOP_S }, (_, k) => ({
        atS: at - NEWS_S + k * HOP_S,
        hz: 466,
      }));
      if (take > 0) heard = [...heard, ...points];
      tell({
        take,
        seconds: at,
        levelDbfs: -20,
        peakDbfs: -10,
        points,
        edges: null,
        isFull: false,
      });
      mostPoints = Math.max(mostPoints, session.value.points.length);
    }
  };
  const minute = async () => {
    news(0, 27);
    // what is followed between takes is shown for twelve seconds
    expect(session.value.points.length).toBeLessThan(12 / 0.012 + 2);
    const opened = session.listen();
    await vi.advanceTimersByTimeAsync(1);
    await opened;
    news(0, 3);
    await vi.advanceTimersByTimeAsync(3000);
    expect(session.value.phase).toBe("taking");
    heard = [];
    news(takes, 30);
    await session.stop();
    expect(session.value.phase).toBe("heard");
    session.drop();
    heard = [];
    expect(session.value.points).toEqual([]);
  };

  // it is followed once the microphone is open
  const opened = session.listen();
  await vi.advanceTimersByTimeAsync(1);
  await opened;
  await session.stop();
  await minute();
  const before = heldBytes();
  const mostBefore = mostPoints;
  for (let i = 0; i < 59; i++) await minute();
  expect(takes).toBe(60);
  // an hour's points would be some ten megabytes at least
  expect(heldBytes() - before).toBeLessThan(1e6);
  expect(mostPoints).toBe(mostBefore);
  expect(mostPoints).toBeLessThan(30 / 0.012);
  expect([made.mock.calls.length, given.mock.calls.length]).toEqual([60, 60]);
});
