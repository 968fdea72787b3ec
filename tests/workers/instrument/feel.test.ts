import { describe, expect, test } from "vitest";
import { leaps as leapWork } from "../../../src/app/work/leaps.ts";
import { resistanceChangeLike } from "../../../src/study/blown/resistanceLike.ts";
import { type LeapTally, leapSteps } from "../../../src/study/feel/leaps.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { slotSteps } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { Feel } from "../../../workers/instrument/feel.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const instrument = new Instrument(setup, { modes: MODAL_COUNT });
const LEAP = { gapMm: 2.5, from: 4, to: 5, aimCents: 120, runs: 6 };

async function loaded(): Promise<Feel> {
  const feel = new Feel();
  expect(await feel.load(setup)).toEqual({ ok: true });
  return feel;
}

function tallyOf(options: typeof LEAP): LeapTally {
  let tally: LeapTally | null = null;
  for (const step of leapSteps(instrument, options)) tally = step;
  return tally!;
}

describe("the worker for feel", () => {
  test("answers what the studies answer, telling progress gap by gap", async () => {
    const feel = await loaded();
    const question = { gapMm: 5, referenceGapMm: 2.5, litresPerMinute: 30 };
    expect(await feel.stream(question)).toEqual(resistanceChangeLike(setup, question));
    const told: number[][] = [];
    const slots = await feel.slots({ gapsMm: [2.5, 4], referenceGapMm: 2.5, ticket: 1 }, (...step) =>
      told.push(step),
    );
    expect(slots).toEqual([...slotSteps(instrument, [2.5, 4], { referenceGapMm: 2.5 })]);
    expect(told).toEqual([
      [1, 2],
      [2, 2],
    ]);
  });

  test("a newer ticket, a stop and another setup end its work", async () => {
    for (const overtake of [
      (feel: Feel) => feel.slots({ gapsMm: [1], ticket: 2 }, () => {}),
      (feel: Feel) => feel.stop(1),
      (feel: Feel) => feel.load(setup),
    ]) {
      const feel = await loaded();
      let steps = 0;
      const first = feel.slots({ gapsMm: [1, 2, 3], ticket: 1 }, () => {
        steps++;
        if (steps === 1) void overtake(feel);
      });
      expect(await first).toBeNull();
      expect(steps).toBe(1);
    }
  });

  test("says why it refuses, as data", async () => {
    const feel = await loaded();
    expect(await feel.stream({ gapMm: 99, referenceGapMm: 2.5, litresPerMinute: 20 })).toEqual({
      refused: expect.stringContaining("no gap of this receiver"),
    });
    expect(await feel.stream({ gapMm: 2, referenceGapMm: 2.5, litresPerMinute: 900 })).toEqual({
      refused: expect.stringContaining("too fast"),
    });
    expect(await feel.slots({ gapsMm: [2], pressure: { timesThreshold: 1 }, ticket: 1 }, () => {})).toEqual({
      refused: expect.stringContaining("times the starting pressure"),
    });
    expect(await new Feel().levels({ gapsMm: [1], ticket: 1 }, () => {})).toEqual({
      refused: "no setup is loaded",
    });
  });
});

describe("leaps over several workers", () => {
  const experiment = {
    setup,
    gapsMm: [2.5, 5],
    chosenGapMm: 5,
    referenceGapMm: 2.5,
    from: LEAP.from,
    to: LEAP.to,
    aimCents: LEAP.aimCents,
    runs: LEAP.runs,
  };
  let ended = 0;
  const connect = () => ({
    model: new Feel(),
    died: new Promise<never>(() => {}),
    terminate: () => {
      ended++;
    },
  });
  const run = async (workers: number): Promise<ReturnType<typeof leapWork>["value"]> => {
    const leaps = leapWork(connect, workers);
    await leaps.start(experiment);
    return leaps.value;
  };

  test("come to exactly what one gives, and what the study gives at once", async () => {
    ended = 0;
    const three = await run(3);
    expect(ended).toBe(3);
    const one = await run(1);
    expect(three.progress).toBeNull();
    expect(experiment.gapsMm).toHaveLength(2);
    for (const gapMm of experiment.gapsMm) {
      const whole = tallyOf({ ...LEAP, gapMm, ...{ referenceGapMm: 2.5 } });
      for (const { value, step } of [three, one]) {
        expect(step).toBe(value);
        const { runs, landed, silent } = value!.get(gapMm)!;
        expect([runs, silent]).toEqual([whole.runs, whole.silent]);
        expect([...landed].sort()).toEqual([...whole.landed].sort());
      }
    }
  });

  test("can be stopped; the workers end and what is done stays", async () => {
    ended = 0;
    const leaps = leapWork(connect, 2);
    const seen: number[] = [];
    leaps.subscribe(({ progress }) => {
      if (progress === null) return;
      seen.push(progress);
      if (progress > 0.5) leaps.stop();
    });
    await leaps.start({ ...experiment, runs: 8 });
    expect(leaps.value.progress).toBeNull();
    expect(Math.max(...seen)).toBeLessThan(1);
    expect(ended).toBe(2);
  });

  test("say in words why a leap cannot be", async () => {
    const leaps = leapWork(connect, 2);
    await leaps.start({ ...experiment, pressure: { pascals: 200 } });
    expect(leaps.value).toMatchObject({ progress: null, refused: expect.stringContaining("blow harder") });
  });
});
