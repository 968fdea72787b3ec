/**
 * Whole measurements on a synthetic rig, before and after in turn, with what a real room does: each take is recorded, heard and kept as
 * the page does it, and what all of them tell is held against the truth.
 */
import { randomLcg } from "d3";
import { describe, expect, it } from "vitest";
import { foundIn, type KeptSweep } from "../../src/response/keptSweep.ts";
import type { Sound } from "../../src/response/sound.ts";
import { exponentialSweep, USUAL_SWEEP } from "../../src/response/sweep.ts";
import { sweepTakeOf } from "../../src/response/sweepTake.ts";
import { airCents, type SweptChange, sweptChange } from "../../src/study/swept/sweptChange.ts";
import { type Rig, recorded, TEN } from "./syntheticRig.ts";

const rate = 16_000;
const one: Sound = { samples: exponentialSweep({ ...USUAL_SWEEP, seconds: 3, rate }), rate };
const two = new Float32Array(2 * one.samples.length + rate / 2);
two.set(one.samples);
two.set(one.samples, one.samples.length);

/** What the change does to each of the ten, cents. */
const SHIFTS = TEN.poles.map((_, k) => -1.5 - 0.25 * k);

/** What is with one take of the four. */
type AtTake = (take: number) => {
  readonly rig?: Partial<Rig>;
  /** Of the air, truly and as read, °C. */
  readonly trueC?: number;
  readonly readC?: number;
  /** Of each resonance, beside all else. */
  readonly movedCents?: (k: number) => number;
  readonly keptQ?: (k: number) => number;
};

const measured = (atTake: AtTake): SweptChange =>
  sweptChange([0, 1, 2, 3].map((take) => kept(take, atTake)!))!;

/** null where it tells nothing, and so cannot be kept. */
function kept(take: number, atTake: AtTake): KeptSweep | null {
  const isAfter = take % 2 === 1;
  const { rig, trueC = 20, readC = trueC, movedCents = () => 0, keptQ = () => 1 } = atTake(take);
  const poles: Rig["poles"] = TEN.poles.map(([hz, q], k) => [
    hz * 2 ** ((airCents(20, trueC) + (isAfter ? SHIFTS[k] : 0) + movedCents(k)) / 1200),
    q * keptQ(k),
  ]);
  const heard = recorded(
    { samples: two, rate },
    { ...TEN, poles, delay: 0.09, noiseDb: 35, seed: 10 + take, ...rig },
  );
  const found = foundIn(sweepTakeOf(one, heard));
  if (!found) return null;
  return {
    id: `${take}`,
    at: "2026-03-02T10:00:00.000Z",
    side: isAfter ? "after" : "before",
    gapMm: isAfter ? 5 : 2.5,
    temperatureC: readC,
    temperatureUncertaintyK: 0.1,
    hasSound: false,
    ...found,
  };
}

const kinds = ({ doubts }: SweptChange) => doubts.map(({ kind }) => kind);

/** Every shift that is told, by the place of its resonance among the ten. */
function expectTrue(swept: SweptChange, least: number): void {
  expect(swept.resonances.length).toBeGreaterThanOrEqual(least);
  for (const { hz, shift } of swept.resonances) {
    const k = TEN.poles.reduce(
      (at, [pole], i) => (Math.abs(pole - hz) < Math.abs(TEN.poles[at][0] - hz) ? i : at),
      0,
    );
    expect(Math.abs(shift.value - SHIFTS[k]), `${hz.toFixed(1)} Hz`).toBeLessThan(shift.expanded);
  }
}

describe("a measurement before and after", () => {
  it("in a quiet room, on one clock, is right within half a cent and has no doubts", () => {
    const swept = measured(() => ({}));
    expect(kinds(swept)).toEqual([]);
    expectTrue(swept, 10);
    for (const { shift } of swept.resonances) expect(shift.expanded).toBeLessThan(0.5);
  });

  it("by a recorder whose clock is 50 parts per million off is as right", () => {
    const swept = measured(() => ({ rig: { clock: -5e-5 } }));
    expect(kinds(swept)).toEqual([]);
    expectTrue(swept, 10);
    for (const { shift } of swept.resonances) expect(shift.expanded).toBeLessThan(0.5);
  });

  /** @param loud of the first echo, as a part of the sound */
  function room(loud: number): AtTake {
    const uniform = randomLcg(7);
    const echoes = Array.from(
      { length: 40 },
      (_, i) =>
        [0.006 + 0.005 * i + 0.002 * uniform(), 2 * loud * (uniform() - 0.5) * Math.exp(-i / 15)] as const,
    );
    return () => ({ rig: { echoes } });
  }

  it("in a room that echoes a little says so; what it tells is true, and less sure", () => {
    const swept = measured(room(0.03));
    expect(kinds(swept)).toContain("restless");
    expectTrue(swept, 4);
    expect(Math.max(...swept.resonances.map(({ shift }) => shift.expanded))).toBeGreaterThan(2);
  });

  it("in a room that echoes much tells nothing: such a take cannot be kept", () => {
    expect(kept(0, room(0.1))).toBeNull();
  });

  it("in air that warms by a tenth of a degree at every take, which the thermometer says, is as right", () => {
    const swept = measured((take) => ({ trueC: 20 + 0.1 * take }));
    expect(kinds(swept)).toEqual([]);
    expectTrue(swept, 10);
  });

  it("in air that warms by half a degree at every take, which nobody read, says that it drifted, and cannot tell", () => {
    const swept = measured((take) => ({ trueC: 20 + 0.5 * take, readC: 20 }));
    expect(kinds(swept)).toContain("drift");
    expectTrue(swept, 10);
    for (const { shift } of swept.resonances) expect(shift.expanded).toBeGreaterThan(Math.abs(shift.value));
  });

  it("with a leak at the seal of one take says which, or that the low notes are not alike", () => {
    // a mass of air beside the column: it is felt as one over the square of the frequency
    const part = (k: number) => (TEN.poles[0][0] / TEN.poles[k][0]) ** 2;
    const swept = measured((take) =>
      take === 2 ? { movedCents: (k) => 20 * part(k), keptQ: (k) => 1 - 0.25 * part(k) } : {},
    );
    expect(swept.doubts).toContainEqual({ kind: "unlike", take: 2, side: "before" });
    expectTrue(swept, 10);
  });
});
