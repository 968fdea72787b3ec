import { describe, expect, test } from "vitest";
import { LIP_RANGE_HZ, Oscillator } from "../../../src/lips/oscillator.ts";
import { playingOf } from "../../../src/lips/playing.ts";
import { DEFAULT_LIPS } from "../../../src/study/feel/lipParameters.ts";
import { Voices } from "../../../src/study/feel/voice.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { LIMIT, softlyLimited } from "../../../workers/voice/limiter.ts";
import {
  type LipsOptions,
  type LipsRefusal,
  type LipsReport,
  MOST_MOUTH_PRESSURE,
} from "../../../workers/voice/lipsProtocol.ts";
import { LiveLips } from "../../../workers/voice/liveLips.ts";
import { VoiceMaker } from "../../../workers/voice/voice.ts";
import { demo } from "../../acoustics/setups.ts";

const RATE = 48000;
const BLOCK = 128;
const setup = demo();
const voices = new Voices(new Instrument(setup, { modes: 16 }));
const at = (gapMm: number, lips = DEFAULT_LIPS) => voices.at(gapMm, RATE, lips);
const voice = at(2.5);
/** In the middle of note 4's slot. */
const NOTE = { lipHz: 0.88 * voice.resonancesHz[3], mouthPressure: 6500 };

function live(first: Partial<LipsOptions> = {}) {
  const told: (LipsReport | LipsRefusal)[] = [];
  const { valve, modes } = voice;
  const lips = new LiveLips(RATE, { valve, modes, lipHz: NOTE.lipHz, ...first }, (news) => told.push(news));
  const run = (seconds: number): Float32Array => {
    const blocks = Math.round((seconds * RATE) / BLOCK);
    const out = new Float32Array(blocks * BLOCK);
    for (let k = 0; k < blocks; k++) lips.run(out.subarray(k * BLOCK, (k + 1) * BLOCK));
    return out;
  };
  const reports = () => told.filter((one): one is LipsReport => !("refused" in one));
  const refused = () => told.filter((one): one is LipsRefusal => "refused" in one);
  return { lips, run, told, reports, refused };
}

const blow = (lips: LiveLips, mouthPressure: number, lipHz = NOTE.lipHz) =>
  lips.take({ kind: "blow", mouthPressure, lipHz });
const largest = (samples: Float32Array) => samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
const steepest = (samples: Float32Array) =>
  samples.reduce((most, x, i) => (i === 0 ? most : Math.max(most, Math.abs(x - samples[i - 1]))), 0);

describe("the lips played live", () => {
  test("are silent until blown, and again after", () => {
    const { lips, run, reports } = live();
    expect(largest(run(0.3))).toBe(0);
    expect(reports().every(({ frequencyHz }) => frequencyHz === null)).toBe(true);
    blow(lips, NOTE.mouthPressure);
    expect(largest(run(1))).toBeGreaterThan(1000);
    blow(lips, 0);
    run(6);
    expect(largest(run(0.1))).toBe(0);
    expect(reports().at(-1)!.frequencyHz).toBeNull();
  });

  test("tell twenty times a second what the oscillator itself plays", () => {
    const { lips, run, reports } = live();
    blow(lips, NOTE.mouthPressure);
    run(2);
    expect(reports().length).toBeGreaterThan(30);
    expect(reports().length).toBeLessThan(41);
    const oscillator = new Oscillator(RATE, voice.valve, voice.modes, { ...NOTE, mouthPressure: 0 });
    oscillator.blow(NOTE.mouthPressure, NOTE.lipHz);
    oscillator.run(new Float64Array(960));
    oscillator.run(new Float64Array(2 * RATE));
    const pressures = new Float64Array(4800);
    const openings = new Float64Array(4800);
    oscillator.run(pressures, openings);
    const expected = playingOf(pressures, openings, RATE, NOTE.mouthPressure).frequencyHz!;
    const heard = reports().at(-1)!;
    expect(Math.abs(1200 * Math.log2(heard.frequencyHz! / expected))).toBeLessThan(0.5);
    expect(heard.note).toBe(4);
    expect(heard).toMatchObject(NOTE);
  });

  test("go over to another gap under the sounding note without a click", () => {
    for (const gapMm of [0, 5, 12]) {
      const { lips, run, reports } = live();
      blow(lips, NOTE.mouthPressure);
      run(2);
      const before = steepest(run(0.2));
      const { valve, modes } = at(gapMm);
      lips.take({ kind: "column", valve, modes });
      const during = steepest(run(0.05));
      run(1);
      const after = steepest(run(0.2));
      expect(during).toBeLessThan(1.15 * Math.max(before, after));
      const [last] = reports().slice(-1);
      expect(last.frequencyHz).not.toBeNull();
    }
  });

  test("take many settings at once, and the last one counts", () => {
    const { lips, run, reports, refused } = live();
    for (let i = 0; i < 40; i++) {
      blow(lips, 100 * i, NOTE.lipHz * (1 + 0.002 * i));
      const { valve, modes } = i % 2 ? at(4) : voice;
      lips.take({ kind: "column", valve, modes });
      run(0.004);
    }
    expect(largest(run(0.2))).toBeLessThan(20 * MOST_MOUTH_PRESSURE);
    expect(reports().at(-1)!.mouthPressure).toBeCloseTo(3900, 6);
    expect(reports().at(-1)!.lipHz).toBeCloseTo(NOTE.lipHz * 1.078, 6);
    expect(refused()).toEqual([]);
  });

  test("refuse in words what cannot be, and go on as before", () => {
    const { lips, run, reports, refused } = live();
    blow(lips, NOTE.mouthPressure);
    run(1.5);
    const { valve, modes } = voice;
    const poles = modes.poles.map((x, i) => (i === 0 ? -x : x));
    for (const message of [
      { kind: "blow", ...NOTE, mouthPressure: 1e6 },
      { kind: "blow", ...NOTE, mouthPressure: Number.NaN },
      { kind: "blow", ...NOTE, mouthPressure: -1 },
      { kind: "blow", ...NOTE, lipHz: 0 },
      { kind: "column", valve, modes: { ...modes, poles } },
      { kind: "column", valve: { ...valve, quality: 0 }, modes },
    ] as const)
      lips.take(message);
    expect(refused().map(({ refused }) => refused)).toEqual([
      expect.stringMatching(/1000 kPa is more than can be played here: give 0 kPa to 16 kPa/),
      expect.stringMatching(/mouth pressure of NaN Pa cannot be blown/),
      expect.stringMatching(/mouth pressure of -1 Pa cannot be blown/),
      expect.stringMatching(/lips at 0 Hz are out of reach/),
      expect.stringMatching(/mode 1 does not decay/),
      expect.stringMatching(/quality factor of 0 cannot be used/),
    ]);
    expect(run(0.2).every(Number.isFinite)).toBe(true);
    expect(reports().at(-1)).toMatchObject({ ...NOTE, note: 4 });
  });

  test("stay bounded at every extreme", () => {
    const slack = { ...DEFAULT_LIPS, quality: 0.5 };
    for (const lipsAre of [DEFAULT_LIPS, slack])
      for (const gapMm of [0, 12])
        for (const lipHz of [LIP_RANGE_HZ[0], NOTE.lipHz, LIP_RANGE_HZ[1]])
          for (const mouthPressure of [0, 1, MOST_MOUTH_PRESSURE]) {
            const { valve, modes } = at(gapMm, lipsAre);
            const { lips, run, refused } = live({ valve, modes, lipHz });
            blow(lips, mouthPressure, lipHz);
            const sound = run(0.6);
            expect(sound.every(Number.isFinite)).toBe(true);
            expect(largest(sound)).toBeLessThan(20 * MOST_MOUTH_PRESSURE);
            expect(refused()).toEqual([]);
          }
  });

  test("other lips begin anew from rest", () => {
    const { lips, run } = live();
    blow(lips, NOTE.mouthPressure);
    run(1.5);
    const { valve, modes } = at(2.5, { ...DEFAULT_LIPS, width: 0.009 });
    lips.take({ kind: "column", valve, modes });
    expect(largest(run(0.02))).toBeLessThan(0.3 * NOTE.mouthPressure);
    expect(largest(run(1.5))).toBeGreaterThan(NOTE.mouthPressure);
  });
});

describe("the limiter", () => {
  test("leaves quiet sound as it is, and lets nothing beyond the limit", () => {
    expect(softlyLimited(0.01)).toBeCloseTo(0.01, 5);
    for (const x of [1, -1, 1e9, Infinity]) expect(Math.abs(softlyLimited(x))).toBeLessThanOrEqual(LIMIT);
    expect(softlyLimited(-3)).toBe(-softlyLimited(3));
    expect(softlyLimited(Number.NaN)).toBe(0);
  });
});

describe("the voice's worker", () => {
  test("answers what the studies answer, or why not", async () => {
    const maker = new VoiceMaker();
    expect(await maker.voice(2.5, RATE, DEFAULT_LIPS)).toEqual({ refused: "no setup is loaded" });
    expect(await maker.load(setup)).toEqual({ ok: true });
    expect(await maker.voice(2.5, RATE, DEFAULT_LIPS)).toEqual(voice);
    expect(await maker.voice(400, RATE, DEFAULT_LIPS)).toEqual({ refused: expect.stringMatching(/gap/) });
    const played = await maker.perform("octave", [4, 2.5], 2.5, DEFAULT_LIPS);
    expect(Array.isArray(played) && played.map(({ gapMm }) => gapMm)).toEqual([4, 2.5]);
  });
});
