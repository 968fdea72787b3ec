/** Takes that are not as they should be: nothing false is found, and the warning says why. */
import { describe, expect, it } from "vitest";
import { listenTo } from "../../src/listen/take.ts";
import type { TakeQuestion } from "../../src/listen/takeQuestion.ts";
import { cents } from "../../src/listen/track.ts";
import { wavBlocks } from "../../src/listen/wav.ts";
import { InputError } from "../../src/units/inputError.ts";
import { blocksOf, randomNumbers, sound, type Tone, wavBytes } from "./sounds.ts";

const RATE = 16000;
const asked = (test: TakeQuestion["test"], nearHz: number | null, notesHz: number[] = []) => ({
  test,
  nearHz,
  notesHz,
});
const heard = (samples: Float32Array, question: TakeQuestion, rateHz = RATE) =>
  listenTo(blocksOf(rateHz, samples), question);
const kinds = (take: ReturnType<typeof heard>) => take.warnings.map(({ kind }) => kind);
const steady = (samples: Float32Array, nearHz: number) => {
  const take = heard(samples, asked("steady", nearHz));
  if (take.test !== "steady") throw new Error("asked for held notes");
  return { notes: take.notes, kinds: kinds(take) };
};
const slot = (samples: Float32Array, nearHz: number | null) => {
  const take = heard(samples, asked("slot", nearHz));
  if (take.test !== "slot") throw new Error("asked for a slot");
  return { slot: take.slot, kinds: kinds(take) };
};
/** 0.8 s held, then bent evenly to an edge. */
const bend = (hz: number, edgeCents: number, fromS: number, centsPerS = 40): Tone => ({
  hz: (t) =>
    hz * 2 ** ((edgeCents * Math.min(1, Math.max(0, ((t - 0.8) * centsPerS) / Math.abs(edgeCents)))) / 1200),
  fromS,
  toS: fromS + 0.8 + Math.abs(edgeCents) / centsPerS,
});

describe("no false notes", () => {
  it("in silence, noise, hum, and a voice that glides", () => {
    expect(steady(new Float32Array(2 * RATE), 233)).toEqual({
      notes: [],
      kinds: expect.arrayContaining(["too-quiet", "nothing-heard"]),
    });
    for (const near of [58, 117, 466, 1000]) {
      const noise = steady(sound(RATE, 3, [], 0.02, near), near);
      expect(noise.notes).toEqual([]);
      expect(noise.kinds).toContain("nothing-heard");
    }
    const hum = steady(
      sound(RATE, 3, [{ hz: 50, fromS: -1, toS: 4, harmonics: [1, 0.5, 0.5, 0, 0.2] }], 0.003),
      58,
    );
    expect(hum.notes).toEqual([]);
    expect(hum.kinds).toEqual(["hum", "nothing-heard"]);
    // syllables of a quarter second, each falling by two semitones
    const talk = Array.from({ length: 9 }, (_, i) => ({
      hz: (t: number) => (180 + 15 * (i % 3)) * 2 ** (-0.7 * t),
      fromS: 0.3 + 0.35 * i,
      toS: 0.55 + 0.35 * i,
    }));
    const voice = steady(sound(RATE, 4, talk), 175);
    expect(voice.notes).toEqual([]);
    expect(voice.kinds).toContain("nothing-heard");
  });

  it("two players, apart or in unison, are said to be more than one", () => {
    const apart = steady(
      sound(RATE, 3, [
        { hz: 466, fromS: 0.3, toS: 2.5 },
        { hz: 349.6, fromS: 0.3, toS: 2.5 },
      ]),
      466,
    );
    expect(apart.notes).toEqual([]);
    expect(apart.kinds).toEqual(["nothing-heard", "unclear"]);
    const unison = steady(
      sound(RATE, 3, [
        { hz: 466, fromS: 0.3, toS: 2.5 },
        { hz: 470, fromS: 0.3, toS: 2.5 },
      ]),
      466,
    );
    expect(unison.kinds).toContain("beating");
  });

  it("a ring tone or talk beside a note is said", () => {
    const rings = [853, 960].flatMap((hz) =>
      [1, 1.5, 2].map((fromS) => ({ hz, fromS, toS: fromS + 0.3, harmonics: [1], level: 0.05 })),
    );
    const ring = steady(sound(RATE, 3.4, [{ hz: 466, fromS: 0.3, toS: 3 }, ...rings]), 466);
    expect(ring.kinds).toContain("mixed");
    expect(Math.abs(cents(ring.notes[0].hz, 466))).toBeLessThan(4);
    const talk = [
      { hz: 150, fromS: 3, toS: 3.5, level: 0.015 },
      { hz: 170, fromS: 3.6, toS: 4.2, level: 0.015 },
    ];
    const beside = steady(sound(RATE, 4.6, [{ hz: 466, fromS: 0.3, toS: 2 }, ...talk]), 466);
    expect(beside.kinds).toEqual(["other-sounds"]);
    expect(beside.notes.length).toBe(1);
  });

  it("a telephone call is said, by its rate or by the treble it lacks", () => {
    const tones = [{ hz: 466, fromS: 0.3, toS: 1.6 }];
    const slow = listenTo(blocksOf(8000, sound(8000, 2, tones)), asked("steady", 466));
    expect(kinds(slow)).toEqual(["telephone"]);
    // noise below 3.4 kHz alone: a sum of sines there
    const random = randomNumbers(3);
    const hiss = Array.from({ length: 60 }, (_, i) => [350 + 50 * i + 20 * random(), Math.PI * random()]);
    const cut = sound(RATE, 2, tones, 0).map(
      (x, i) =>
        x +
        0.0002 * hiss.reduce((sum, [hz, phase]) => sum + Math.sin((2 * Math.PI * hz * i) / RATE + phase), 0),
    );
    expect(steady(cut, 466).kinds).toEqual(["telephone"]);
  });

  it("clipping, and playing that is too soft for its room, are said", () => {
    const tones = [{ hz: 233, fromS: 0.3, toS: 1.6, level: 0.6 }];
    const clipped = steady(
      sound(RATE, 2, tones).map((x) => Math.max(-1, Math.min(1, x))),
      233,
    );
    expect(clipped.kinds).toEqual(["clipped"]);
    expect(Math.abs(cents(clipped.notes[0].hz, 233))).toBeLessThan(1.5);
    expect(steady(sound(RATE, 2, [{ hz: 233, fromS: 0.3, toS: 1.6 }], 0.02), 233).kinds).toContain("noisy");
  });
});

describe("the wrong thing played", () => {
  it("another note than the one meant", () => {
    expect(steady(sound(RATE, 2, [{ hz: 350, fromS: 0.3, toS: 1.6 }]), 466).kinds).toEqual(["wrong-note"]);
    const take = slot(sound(RATE, 3, [{ hz: 350, fromS: 0.3, toS: 2.6 }]), 466);
    expect(take.slot).toBeNull();
    expect(take.kinds).toEqual(["nothing-heard", "wrong-note"]);
  });

  it("a slot of whole bends, one that stops and one that breaks, and without the note named", () => {
    const down = bend(466, -60, 0.3);
    const up = bend(466, 44, 3.6);
    const broken = { hz: 586, fromS: up.toS - 0.01, toS: up.toS + 0.5 };
    const samples = sound(RATE, 7, [down, up, broken]);
    for (const nearHz of [466, null]) {
      const take = slot(samples, nearHz);
      expect(take.slot?.bends.map(({ end }) => end)).toEqual(["stopped", "broke"]);
      expect(take.slot?.low?.breaks).toBe(false);
      expect(Math.abs((take.slot?.low?.cents ?? 0) + 60)).toBeLessThan(2);
      expect(Math.abs((take.slot?.high?.cents ?? 0) - 44)).toBeLessThan(2);
      expect(Math.abs((take.slot?.widthCents ?? 0) - 104)).toBeLessThan(3);
      expect(take.slot?.widthUCents).toBeNull();
      expect(take.kinds).toEqual(["one-bend", "one-bend"]);
    }
  });

  it("half a bend is no edge, nor is one that the recording cuts off", () => {
    const away = (t: number) => Math.max(0, 1 - Math.abs((t % 4) - 2) / 1.2);
    const half = slot(
      sound(RATE, 9, [{ hz: (t) => 466 * 2 ** ((-50 * away(t)) / 1200), fromS: 0.3, toS: 8.3 }]),
      466,
    );
    expect(half.slot).toMatchObject({ bends: [], low: null, high: null, widthCents: null, turnedBack: 2 });
    expect(Math.abs(cents(half.slot?.restHz ?? 0, 466))).toBeLessThan(2);
    expect(half.kinds).toEqual(["no-bend", "no-bend", "turned-back"]);
    const cut = slot(sound(RATE, 2.4, [{ ...bend(466, -60, 0.3), toS: 3 }]), 466);
    expect(cut.slot?.bends).toEqual([]);
    expect(cut.kinds).toContain("cut-off");
  });

  it("slurs that stop between, or stay; a note nobody listed; too few", () => {
    const slurs = (tones: Tone[], seconds: number) => {
      const take = heard(sound(RATE, seconds, tones), asked("slur", null, [233, 349, 466, 586]));
      if (take.test !== "slur") throw new Error("asked for slurs");
      return { results: take.slurs?.slurs.map(({ result }) => result), kinds: kinds(take) };
    };
    const chain = (hz: readonly number[], eachS = 0.6): Tone[] =>
      hz.map((one, i) => ({ hz: one, fromS: 0.3 + eachS * i - 0.01, toS: 0.3 + eachS * (i + 1) + 0.01 }));
    // the third is meant for 466, the fourth for 349, wherever the one before landed
    expect(slurs(chain([349, 466, 349, 233, 349, 466, 349]), 5)).toEqual({
      results: ["hit", "hit", "low", "hit", "hit", "hit"],
      kinds: [],
    });
    const stopped = slurs([...chain([349, 466, 349]), { hz: 466, fromS: 2.9, toS: 3.5 }], 4);
    expect(stopped.results).toEqual(["hit", "hit"]);
    expect(stopped.kinds).toEqual(["interrupted", "few"]);
    expect(slurs(chain([349, 800, 349, 466, 349, 466, 349, 466]), 6).kinds).toContain("unlisted-note");
    // the fourth note for as long as two: it was to be left once more than it was
    const stayed = slurs(
      [
        ...chain([349, 466, 349]),
        { hz: 466, fromS: 2.09, toS: 3.31 },
        ...[349, 466].map((hz, i) => ({ hz, fromS: 3.29 + 0.6 * i, toS: 3.91 + 0.6 * i })),
      ],
      5.2,
    );
    expect(stayed.results).toEqual(["hit", "hit", "hit", "high", "hit", "hit"]);
    expect(stayed.kinds).toEqual(["stayed"]);
    const unsure = slurs(chain([349, 466, 233, 466, 349, 233, 349, 466]), 6);
    expect(unsure.kinds).toContain("pair-unsure");
  });

  it("attacks on a note that was never played find nothing", () => {
    const take = heard(
      sound(RATE, 3, [{ hz: 349, fromS: 0.3, toS: 0.8 }]),
      asked("attack", 466, [349, 466, 586]),
    );
    expect(take).toMatchObject({ attacks: null });
    expect(kinds(take)).toContain("nothing-heard");
  });
});

describe("a recording", () => {
  it("in stereo is heard as the mean of its sides, in pieces cut anywhere as in one", () => {
    const samples = sound(44100, 1.6, [{ hz: 233.3, fromS: 0.3, toS: 1.3 }]);
    const bytes = wavBytes(
      44100,
      samples,
      samples.map((x) => 0.5 * x),
    );
    const whole = listenTo(() => wavBlocks([bytes]), asked("steady", 233));
    if (whole.test !== "steady") throw new Error("asked for held notes");
    expect(Math.abs(cents(whole.notes[0].hz, 233.3))).toBeLessThan(0.3);
    const pieces = function* () {
      for (let i = 0; i < bytes.length; i += 1001) yield bytes.subarray(i, i + 1001);
    };
    expect(listenTo(() => wavBlocks(pieces()), asked("steady", 233))).toEqual(whole);
  });

  it("that cannot be used is refused in words", () => {
    const refused = (bytes: Uint8Array, question = asked("steady", 233)) => {
      expect(() => listenTo(() => wavBlocks([bytes]), question)).toThrow(InputError);
      try {
        listenTo(() => wavBlocks([bytes]), question);
      } catch (error) {
        return (error as Error).message;
      }
    };
    const good = wavBytes(RATE, sound(RATE, 1, []));
    expect(refused(new Uint8Array())).toMatch(/^the file is empty; give an uncompressed recording/);
    expect(refused(new TextEncoder().encode("ID3 or anything else"))).toMatch(/^this is no WAV file; give/);
    expect(refused(good.subarray(0, 30))).toMatch(/^there is no sound in it/);
    expect(refused(good.subarray(0, 44))).toMatch(/^there is no sound in it/);
    expect(refused(wavBytes(RATE, sound(RATE, 0.1, [])))).toMatch(
      /^the take is too short, 0\.10 s; record at least 0\.3 s/,
    );
    expect(refused(wavBytes(4000, sound(4000, 1, [])))).toMatch(
      /^its sample rate is 4000 Hz; record with 16000 Hz or more/,
    );
    const odd = good.slice();
    odd[20] = 0x55;
    expect(refused(odd)).toMatch(/^this kind of WAV cannot be read/);
    expect(refused(good, asked("steady", 5))).toMatch(/^a note of 5 Hz is none of brass/);
    expect(refused(good, asked("slur", null, [233, 9000]))).toMatch(/^a note of 9000 Hz is none of brass/);
  });
});
