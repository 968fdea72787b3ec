import { describe, expect, test } from "vitest";
import { comparison } from "../../../src/app/work/comparison.ts";
import { DesignSearch } from "../../../src/app/work/designSearch.ts";
import { withGap } from "../../../src/setup/withGap.ts";
import { compare } from "../../../src/study/compare/compare.ts";
import { designSteps } from "../../../src/study/design/design.ts";
import { parseDesignGoal } from "../../../src/study/design/designGoal.ts";
import { mandrelStations } from "../../../src/study/design/designStations.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { overlay } from "../../../src/study/measured/measured.ts";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import { freedomWords } from "../../../src/words/design/designWords.ts";
import { Compare } from "../../../workers/instrument/compare.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const wider = {
  ...setup,
  leadpipe: {
    profileMm: [
      [0, 9],
      [240, 11.68],
    ] as const,
  },
};
const variants = [
  { name: "demo", setup, gapMm: 2.5 },
  { name: "wider", setup: wider, gapMm: 2.5 },
];
const question = { variants, retune: 4, errorExtentMm: 20 };
/** For what is not about the answer's numbers. */
const short = { variants, modes: 4 };
const design = {
  goal: parseDesignGoal("cents2=0, cents5=0"),
  limits: {
    knots: 6,
    holdsEntry: true,
    holdsEnd: true,
    smallestMm: 8,
    largestMm: 12.5,
    widens: true,
    leastCurvatureRadiusMm: 0,
    gapMm: null,
  },
  restarts: 2,
  stepsEach: 5,
};
const connect = () => ({ model: new Compare(), died: new Promise<never>(() => {}), terminate: () => {} });

async function loaded(): Promise<Compare> {
  const worker = new Compare();
  await worker.load(setup);
  return worker;
}

describe("the worker that compares", () => {
  test("answers what the study answers, with curves whose peaks are the resonances'", async () => {
    const told: number[] = [];
    const answer = await (await loaded()).compare({ ...question, ticket: 1 }, (done) => told.push(done));
    if (!answer || "refused" in answer) throw new Error("an answer is expected");
    const study = compare(variants, question).variants;
    expect(answer).toHaveLength(2);
    answer.forEach(({ curve: _, worst, ...compared }, v) => {
      expect(compared).toEqual(study[v]);
      const { sensitivity } = compared;
      const fourth = worst.find(({ n }) => n === 4)!;
      expect(fourth.place.part).toBe("leadpipe");
      expect(sensitivity!.places).toHaveLength(71);
      sensitivity!.places.forEach(({ part }, i) => {
        if (part === "leadpipe")
          expect(Math.abs(sensitivity!.modes[3].centsPerMm[i])).toBeLessThanOrEqual(
            Math.abs(fourth.centsPerMm),
          );
      });
    });
    expect(told.slice(0, 2)).toEqual([1, 2]);
    const { curve, retuned } = answer[1];
    const { peakHz, peakImpedance } = retuned!.modes[4];
    const near = curve.frequencies.findIndex((hz) => hz > peakHz!);
    expect(curve.magnitude[near] / peakImpedance!).toBeGreaterThan(0.98);
    expect(curve.magnitude[near] / peakImpedance!).toBeLessThan(1.0001);
  });

  test("a newer ticket and a stop end its work; what is refused is said as data", async () => {
    for (const overtake of [
      (worker: Compare) => worker.compare({ ...short, ticket: 2 }, () => {}),
      (worker: Compare) => worker.stop(1),
    ]) {
      const worker = await loaded();
      const first = worker.compare({ ...short, ticket: 1 }, (done) => {
        if (done === 1) void overtake(worker);
      });
      expect(await first).toBeNull();
    }
    expect(await (await loaded()).compare({ ...short, reference: 7, ticket: 1 }, () => {})).toEqual({
      refused: expect.stringContaining("no candidate 8"),
    });
    expect(await new Compare().stations({})).toEqual({ refused: "no setup is loaded" });
  });

  test("designs a leadpipe like another instrument's, with the gap among what may change", async () => {
    // a straight taper, which a spline can be exactly
    const straight = { ...setup, leadpipe: { profileMm: [[0, 8.8] as const, [240, 11.68] as const] } };
    const like = { setup: withGap(straight, 3.2), gapMm: 3.2 };
    const worker = new Compare();
    await worker.load(straight);
    const limits = { ...design.limits, knots: 4, gapMm: [1, 5] as const };
    const answer = await worker.design({ goal: like, limits, restarts: 1, ticket: 1 }, () => {});
    if (!answer || "refused" in answer) throw new Error("an answer is expected");
    expect(answer.targets.map(({ quantity, n }) => `${quantity}${n}`)).toContain("f10");
    expect(answer.targets).toHaveLength(18);
    expect(answer.missBefore).toBeGreaterThan(0.5);
    expect(answer.missAfter).toBeLessThan(0.01 * answer.missBefore);
    expect(answer.gapMm).toBeCloseTo(3.2, 2);
    expect(answer.setup.receiver.depthMm - answer.setup.mouthpiece.insertionMm).toBeCloseTo(answer.gapMm, 9);
  });

  test("holds a measurement against the model and fits it, all as plain data, or says why not", async () => {
    const worker = await loaded();
    const made = await worker.inventMeasurement();
    if ("refused" in made) throw new Error("a measurement is expected");
    expect(made.text).toMatch(/^# Invented, nobody has measured it: .* gap of 3\.10 mm/);
    const { frequencies, re, im, reading } = readMeasured(made.text);
    const measured = { frequencies, re, im, reading };
    expect(await worker.inventMeasurement()).toEqual(made);
    expect(await worker.overlay(measured)).toEqual(overlay(setup, measured));
    const told: number[] = [];
    const question = { measured, unknowns: ["gap"] as const, noise: null, ticket: 1 };
    const fit = await worker.fitColumn(question, ({ iteration }) => told.push(iteration));
    if (!fit || "refused" in fit) throw new Error("a fit is expected");
    expect(told[0]).toBe(1);
    expect(structuredClone(fit)).toEqual(fit);
    expect(fit.estimates[0].unknown.key).toBe("gap");
    expect(fit.after.peaks).toHaveLength(7);
    expect(await worker.fitColumn({ measured, unknowns: [], noise: null, ticket: 2 }, () => {})).toEqual({
      refused: expect.stringMatching(/at least one/),
    });
  });

  test("works out both bells, and refuses one too wide for curved fronts in words", async () => {
    const worker = await loaded();
    const done: number[] = [];
    const gaps = { fromGapMm: 2.5, toGapMm: 5 };
    const trust = await worker.bellTrust({ ...gaps, ticket: 1 }, (count) => done.push(count));
    if (!trust || "refused" in trust) throw new Error("an answer is expected");
    expect(done).toEqual([0, 1]);
    expect(trust.modes).toHaveLength(12);
    const { profileMm } = setup.body;
    const huge = profileMm.map(([x, d], i) => [x, i === profileMm.length - 1 ? 900 : d] as const);
    await worker.load({ ...setup, body: { ...setup.body, profileMm: huge } });
    expect(await worker.bellTrust({ ...gaps, ticket: 2 }, () => {})).toEqual({
      refused: expect.stringMatching(/too high for model\.bell "multimodal" with this bell: give at most/),
    });
  });

  test("designs as the study does, step by step, and ends with the best so far when told to", async () => {
    const steps = [...designSteps(setup, design)];
    const told: unknown[] = [];
    const answer = await (await loaded()).design({ ...design, ticket: 1 }, (step) => told.push(step));
    expect(told).toEqual(steps);
    if (!answer || "refused" in answer) throw new Error("an answer is expected");
    expect(answer.missAfter).toBeCloseTo(steps.at(-1)!.best, 9);
    expect(freedomWords(answer.freedom)).toMatch(/goal/);
    expect(structuredClone(answer)).toEqual(answer);
    const worker = await loaded();
    const early = await worker.design({ ...design, ticket: 1 }, ({ step }) => {
      if (step === 2) void worker.finish();
    });
    if (!early || "refused" in early) throw new Error("an answer is expected");
    expect(early.starts).toHaveLength(1);
    expect(early.starts[0].steps).toBeLessThanOrEqual(3);
    expect(await worker.stations({ everyMm: 20 })).toEqual(
      mandrelStations(new Instrument(setup), 2.5, { everyMm: 20 }),
    );
  });
});

describe("the newest comparison", () => {
  type Comparison = ReturnType<typeof comparison>;
  const settled = (results: Comparison): Promise<Comparison["value"]> =>
    new Promise((resolve) => {
      const leave = results.subscribe((state) => {
        if (state.progress !== null) return;
        leave();
        resolve(state);
      });
    });

  test("stays while the next one is worked out, and is not asked for twice", async () => {
    const results = comparison(connect);
    results.ask(short);
    const first = await settled(results);
    expect(first.value).toHaveLength(2);
    results.ask({ ...short, variants: variants.map((one) => ({ ...one, name: "renamed" })) });
    expect(results.value).toBe(first);
    results.ask({ ...short, variants: [variants[1], variants[0]] });
    expect(results.value).toMatchObject({ stale: true, progress: 0, value: first.value });
    const second = await settled(results);
    expect(second.stale).toBe(false);
    expect(second.value![0].modes[3].frequencyHz).toBeCloseTo(first.value![1].modes[3].frequencyHz, 9);
    results.close();
  });

  test("is refused in words, or stopped and gone on with", async () => {
    const results = comparison(connect);
    results.ask({ ...short, variants: [{ ...variants[0], gapMm: 99 }] });
    expect((await settled(results)).refused).toMatch(/no gap of this receiver/);
    results.ask(short);
    results.stop();
    expect(results.value).toMatchObject({ stopped: true, progress: null });
    results.again();
    expect((await settled(results)).value).toHaveLength(2);
    results.close();
  });
});

test("a search keeps every step and ends with a result, or with none when it is left", async () => {
  const search = new DesignSearch(connect);
  const found = await search.start({ setup, question: design });
  expect(search.value).toMatchObject({ progress: null, value: found });
  expect(found).not.toBeNull();
  expect(search.value.step).toEqual([...designSteps(setup, design)]);
  const leave = search.subscribe(({ step }) => {
    if (step?.length === 2) search.close();
  });
  expect(await search.start({ setup, question: design })).toBeNull();
  leave();
  expect(search.value).toMatchObject({ progress: null, value: null });
  const impossible = { ...design, limits: { ...design.limits, smallestMm: 20 } };
  await search.start({ setup, question: impossible });
  expect(search.value.refused).toMatch(/no leadpipe is between/);
});
