import { describe, expect, test } from "vitest";
import { analysisWork, powerWork } from "../../../src/app/tasks/trial/trialWork.ts";
import type { Answer } from "../../../src/app/work/work.ts";
import { analysisSteps } from "../../../src/trial/analysis.ts";
import { power } from "../../../src/trial/power.ts";
import { TrialStatistics } from "../../../workers/trial/trial.ts";
import { gapItems, played, prefers } from "../../trial/players.ts";

const trial = played(gapItems(1, 2, 3, 4), 3, prefers(2.3, 8), 4);
const question = { items: 3, difference: 30, scatter: 10, simulations: 60 };
const connect = () => ({
  model: new TrialStatistics(),
  died: new Promise<never>(() => {}),
  terminate: () => {},
});

describe("the worker for trials", () => {
  test("answers what the statistics answer, step by step, as plain data", async () => {
    const told: number[] = [];
    const worker = new TrialStatistics();
    const powers = await worker.power({ ...question, repeats: [3, 5], ticket: 1 }, (done) => told.push(done));
    expect(powers).toEqual([3, 5].map((repeats) => power({ ...question, repeats })));
    expect(told).toEqual([1, 2]);
    const analysis = await worker.analyse({ trial, ticket: 2 }, () => {});
    const steps = analysisSteps(trial);
    let step = steps.next();
    while (!step.done) step = steps.next();
    expect(analysis).toEqual(step.value);
    expect(structuredClone(analysis)).toEqual(analysis);
  });

  test("a stop ends it; what cannot be analysed is said as data", async () => {
    const worker = new TrialStatistics();
    const stopped = worker.power({ ...question, repeats: [3, 5, 7], ticket: 1 }, () => void worker.stop(1));
    expect(await stopped).toBeNull();
    const broken = { ...trial, turns: trial.turns.slice(0, 4) };
    expect(await worker.analyse({ trial: broken, ticket: 2 }, () => {})).toEqual({
      refused: expect.stringContaining("Too little was rated"),
    });
  });
});

describe("the newest question", () => {
  const settled = <T, Q>(work: { subscribe: (listener: (state: Answer<T, Q>) => void) => () => void }) =>
    new Promise<Answer<T, Q>>((resolve) => {
      const leave = work.subscribe((state) => {
        if (state.progress !== null) return;
        leave();
        resolve(state);
      });
    });

  test("is answered; the old answer stays until then, and the same is not asked twice", async () => {
    const work = powerWork(connect);
    work.ask({ ...question, repeats: [3] });
    const first = await settled(work);
    expect(first.value).toHaveLength(1);
    work.ask({ ...question, repeats: [3] });
    expect(work.value).toBe(first);
    work.ask({ ...question, repeats: [3, 4] });
    expect(work.value).toMatchObject({ stale: true, progress: 0, value: first.value });
    expect((await settled(work)).value).toHaveLength(2);
    work.close();
  });

  test("is refused in words", async () => {
    const work = analysisWork(connect);
    work.ask({ trial: { ...trial, turns: trial.turns.slice(0, 4) } });
    expect((await settled(work)).refused).toMatch(/Too little was rated/);
    work.close();
  });
});
