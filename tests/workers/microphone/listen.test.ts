/** The listening worker's class, with sound through a port as the worklet sends it. */
import { readFileSync } from "node:fs";
import { afterEach, describe, expect, it } from "vitest";
import { listenTo } from "../../../src/listen/take.ts";
import { wavBlocks } from "../../../src/listen/wav.ts";
import { type HeardTake, Listener, type LiveNews } from "../../../workers/microphone/listen.ts";

const bytes = new Uint8Array(
  readFileSync(new URL("../../reference/listen/slot-trumpet.wav", import.meta.url)),
);
const [{ channels, sampleRateHz }] = [...wavBlocks([bytes])];
const question = { test: "slot", nearHz: 466, notesHz: [] } as const;

const ports: MessagePort[] = [];
afterEach(() => {
  for (const port of ports.splice(0)) port.close();
});

async function following() {
  const { port1, port2 } = new MessageChannel();
  ports.push(port1, port2);
  const listener = new Listener();
  const news: LiveNews[] = [];
  await listener.follow(port2, sampleRateHz, (one) => news.push(one));
  await listener.mean(question);
  return { listener, news, port: port1 };
}

/** Sends sound in the worklet's blocks, until it has been heard. */
async function send(port: MessagePort, news: readonly LiveNews[], sound: Float32Array): Promise<void> {
  const before = news.length;
  for (let from = 0; from + 1024 <= sound.length; from += 1024)
    port.postMessage(sound.slice(from, from + 1024));
  const least = Math.floor(sound.length / sampleRateHz / 0.13);
  await expect.poll(() => news.length - before, { timeout: 20_000 }).toBeGreaterThan(least);
}

describe("a worker that listens", () => {
  it("tells pitch and edges while a take is played, and comes to what its file comes to", async () => {
    const { listener, news, port } = await following();
    expect(await listener.begin()).toBe(1);
    const whole = channels[0].subarray(0, 1024 * Math.floor(channels[0].length / 1024));
    await send(port, news, whole);
    const { take, sound, points } = (await listener.finish()) as HeardTake;
    expect(news.every((one) => one.take === 1 && !one.isFull)).toBe(true);
    expect(news.at(-1)!.edges!.lowHz).not.toBeNull();
    const told = news.flatMap((one) => one.points);
    expect(told).toEqual(points.slice(0, told.length));
    const again = listenTo(() => wavBlocks([sound!]), question);
    expect(
      take.test === "slot" && again.test === "slot" && take.slot!.widthCents! - again.slot!.widthCents!,
    ).toBeCloseTo(0, 1);
  });

  it("holds no more than some seconds of what nobody takes, however long it listens", async () => {
    const { news, port } = await following();
    for (let minute = 0; minute < 2; minute++) await send(port, news, new Float32Array(60 * sampleRateHz));
    expect(Math.max(...news.map(({ seconds }) => seconds))).toBeLessThan(21);
    expect(news.every(({ take, levelDbfs }) => take === 0 && levelDbfs === null)).toBe(true);
  });

  it("says in words what it cannot take", async () => {
    const listener = new Listener();
    expect(await listener.finish()).toMatchObject({ refused: expect.stringContaining("press Listen first") });
    expect(await listener.wav(new Blob(["no sound"]), question)).toMatchObject({
      refused: expect.stringContaining("no WAV file"),
    });
    const silent = { sampleRateHz, channels: [new Float32Array(100)] };
    expect(await listener.decoded(silent, question)).toMatchObject({
      refused: expect.stringContaining("too short"),
    });
  });
});
