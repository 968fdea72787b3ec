/** Listening for long: what the worker holds is that of the take under way, or of some seconds between takes, and no more. */
import { expect, it } from "vitest";
import { type HeardTake, Listener } from "../../../workers/microphone/listen.ts";
import { heldBytes } from "../../heldBytes.ts";

/** No more than a tuba's low notes ask for: an hour is to be worth it. */
const rate = 4000;
const HZ = 58.27;
const BLOCK = 512;

/** A port that hands blocks over at once. */
const portOf = () => ({ onmessage: null as ((event: { data: Float32Array }) => void) | null, close() {} });

async function following(test: "slot" | "steady") {
  const port = portOf();
  const listener = new Listener();
  const heard = { news: 0, mostPoints: 0, longestS: 0, isFull: false };
  await listener.follow(port as unknown as MessagePort, rate, ({ points, seconds, isFull }) => {
    heard.news++;
    heard.mostPoints = Math.max(heard.mostPoints, points.length);
    heard.longestS = Math.max(heard.longestS, seconds);
    heard.isFull ||= isFull;
  });
  await listener.mean({ test, nearHz: HZ, notesHz: [] });
  let n = 0;
  /** Notes of three seconds, a second apart. */
  const hear = (seconds: number) => {
    for (let block = 0; block < (seconds * rate) / BLOCK; block++) {
      const data = Float32Array.from({ length: BLOCK }, () => {
        const t = n++ / rate;
        const isPlayed = t % 4 < 3;
        return isPlayed ? 0.2 * Math.sin(2 * Math.PI * HZ * t) + 0.1 * Math.sin(4 * Math.PI * HZ * t) : 0;
      });
      port.onmessage!({ data });
    }
  };
  return { listener, heard, hear };
}

const MEGABYTE = 1e6;

it("between takes, and over takes that are finished or dropped, memory does not grow", async () => {
  const { listener, heard, hear } = await following("slot");
  const round = async () => {
    hear(30);
    await listener.begin();
    hear(20);
    const { take } = (await listener.finish()) as HeardTake;
    expect(take.levels.seconds).toBeCloseTo(20, 0);
    await listener.begin();
    hear(10);
    await listener.drop();
  };
  await round();
  const before = heldBytes();
  // five minutes more; all they leave behind would be some five megabytes of sound and two of frames
  for (let minute = 0; minute < 5; minute++) await round();
  expect(heldBytes() - before).toBeLessThan(0.6 * MEGABYTE);
  expect(heard.news).toBeGreaterThan(2500);
  expect(heard.mostPoints).toBeLessThan(20);
  expect(heard.longestS).toBeLessThan(21);
});

it("a take that nobody ends is full after three minutes, and holds no more", async () => {
  const { listener, heard, hear } = await following("steady");
  await listener.begin();
  hear(185);
  expect(heard.isFull).toBe(true);
  const full = heldBytes();
  // these would be some three megabytes
  hear(180);
  expect(heldBytes() - full).toBeLessThan(0.3 * MEGABYTE);
  const { take, sound } = (await listener.finish()) as HeardTake;
  expect(take.levels.seconds).toBeCloseTo(180, 0);
  expect(sound!.length / 2 / rate).toBeCloseTo(180, 0);
});
