/** The worker of sweeps, with sound through a port as the worklet sends it, and with files. */
import { afterEach, expect, it } from "vitest";
import type { Sound } from "../../../src/response/sound.ts";
import { wavBytes } from "../../../src/response/wavBytes.ts";
import { type HeardSweeps, type LevelNews, Sweeper } from "../../../workers/microphone/sweep.ts";
import { type Rig, recorded, TEN } from "../../response/syntheticRig.ts";

const rate = 16_000;
const rig: Rig = { ...TEN, delay: 0.1, noiseDb: 40, seed: 5 };
const file = (sound: Sound) => new Blob([wavBytes(sound) as Uint8Array<ArrayBuffer>]);

const ports: MessagePort[] = [];
afterEach(() => {
  for (const port of ports.splice(0)) port.close();
});

async function answer(): Promise<{ readonly one: Float32Array; readonly heard: Float32Array }> {
  const one = await new Sweeper().sweep(1.5, rate);
  const samples = new Float32Array(2 * one.length + rate / 2);
  samples.set(one);
  samples.set(one, one.length);
  return { one, heard: recorded({ samples, rate }, rig).samples };
}

it("records what comes between begin and finish, tells how loud it is, and finds what its file holds", async () => {
  const { heard } = await answer();
  const { port1, port2 } = new MessageChannel();
  ports.push(port1, port2);
  const sweeper = new Sweeper();
  const news: LevelNews[] = [];
  await sweeper.follow(port2, rate, (one) => news.push(one));
  const send = async (sound: Float32Array) => {
    const before = news.length;
    for (let from = 0; from < sound.length; from += 1024) port1.postMessage(sound.slice(from, from + 1024));
    await expect.poll(() => news.length - before, { timeout: 20_000 }).toBe(Math.floor(sound.length / 1024));
  };
  // before the take, and of a take that is given up: neither is in it
  await send(heard.slice(0, 20 * 1024));
  await sweeper.begin();
  await send(heard.slice(0, 20 * 1024));
  await sweeper.drop();
  await sweeper.begin();
  await send(heard.slice(0, 1024 * Math.floor(heard.length / 1024)));
  const { take, sound } = (await sweeper.finish(1.5)) as HeardSweeps;
  expect(take.resonances).toHaveLength(10);
  expect(take.sweeps).toBe(2);
  const again = (await new Sweeper().wav(new Blob([sound! as Uint8Array<ArrayBuffer>]), {
    seconds: 1.5,
  })) as HeardSweeps;
  expect(again.take.resonances[4].hz).toBeCloseTo(take.resonances[4].hz, 2);
  expect(Math.max(...news.map(({ peakDbfs }) => peakDbfs ?? -200))).toBeCloseTo(20 * Math.log10(0.4), 0);
});

it("holds a recording against a sound of one's own, whose clock nobody knows", async () => {
  const { one } = await answer();
  const own = { samples: one, rate };
  const recording = recorded(own, rig);
  const found = (await new Sweeper().wav(file(recording), { file: file(own) })) as HeardSweeps;
  expect(found.take).toMatchObject({ sweeps: 1, clock: null });
  expect(found.take.resonances).toHaveLength(10);
  const decoded = { sampleRateHz: rate, channels: [recording.samples] };
  const same = (await new Sweeper().decoded(decoded, { file: file(own) })) as HeardSweeps;
  expect(same.take.resonances[4].hz).toBeCloseTo(found.take.resonances[4].hz, 2);
});

it("says in words what it cannot take", async () => {
  const sweeper = new Sweeper();
  const { one } = await answer();
  expect(await sweeper.wav(new Blob(["no sound"]), { seconds: 4 })).toMatchObject({
    refused: expect.stringMatching(/no WAV/),
  });
  expect(await sweeper.wav(file({ samples: one.subarray(0, rate), rate }), { seconds: 16 })).toMatchObject({
    refused: expect.stringMatching(/shorter than a sweep/),
  });
  const other = file({ samples: one, rate: 22_050 });
  expect(await sweeper.wav(file({ samples: one, rate }), { file: other })).toMatchObject({
    refused: expect.stringMatching(/record at the excitation.s rate/),
  });
});
