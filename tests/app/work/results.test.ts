import { expect, test } from "vitest";
import { FIRST_VIEW } from "../../../src/app/state/state.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { ComparedGaps } from "../../../src/app/work/comparedGaps.ts";
import { ModelResults, type Results } from "../../../src/app/work/modelResults.ts";
import { WorkerClient } from "../../../src/app/work/workerClient.ts";
import { Model } from "../../../workers/instrument/model.ts";
import { someSetup } from "../someSetup.ts";

/** The page's results over the real model, without a worker between. */
function bench(model = new Model()) {
  const store = new Store(documentOf(someSetup()), { ...FIRST_VIEW, retune: null });
  const connect = () => ({ model, died: new Promise<never>(() => {}), terminate() {} });
  const compared = new ComparedGaps(store);
  const results = new ModelResults(compared, new WorkerClient<Model>({ connect }));
  results.start();
  return { store, compared, results };
}

/** Waits until the results are as asked; no longer than the model answers. */
const until = (results: ModelResults, isSo: (now: Results) => boolean): Promise<Results> =>
  new Promise((resolve, reject) => {
    const look = (now: Results) => {
      if (!isSo(now) && !now.explored.refused) return;
      leave();
      if (isSo(now)) resolve(now);
      else reject(new Error(now.explored.refused!));
    };
    const leave = results.subscribe(look);
    look(results.value);
  });

test("the results follow the store; the old ones stay, marked stale, until the new are there", async () => {
  const { store, results } = bench();
  const isDone = ({ explored, sweep }: Results) =>
    explored.value !== null && !explored.stale && sweep.progress === null && sweep.value !== null;
  const first = await until(results, isDone);
  expect(first.explored.value!.chosen.gapMm).toBe(2.54);
  expect(first.sweep.value!.rows).toHaveLength(33);
  expect(first.retuned.value).toBeNull();

  store.setGap(1);
  expect(results.value.explored).toMatchObject({ stale: true, value: first.explored.value });
  expect(results.value.sweep).toBe(first.sweep);
  const moved = await until(results, isDone);
  expect(moved.explored.value!.chosen.gapMm).toBe(1);

  store.setReference(3);
  expect(results.value.sweep).toMatchObject({ stale: true, progress: 0, value: first.sweep.value });
  expect((await until(results, isDone)).sweep.value!.referenceGapMm).toBe(3);
});

test("what is drawn of a new gap is there before what is judged of it, and is the same", async () => {
  const { store, results } = bench();
  const isDone = ({ explored }: Results) => explored.value?.uncertainty != null && !explored.stale;
  const first = (await until(results, isDone)).explored;
  expect(first.step!.chosen).toBe(first.value!.chosen);
  store.setGap(1);
  const drawn = (await until(results, ({ explored }) => explored.step !== first.step)).explored;
  expect(drawn).toMatchObject({ value: first.value, stale: true, progress: null });
  expect(drawn.step!.chosen.gapMm).toBe(1);
  const judged = (await until(results, isDone)).explored;
  expect(judged.step).toBe(drawn.step);
  expect(judged.value!.chosen).toBe(drawn.step!.chosen);
});

test("what stands beside the charts is drawn with them: at once where they are as asked, else with the next picture", async () => {
  const { store, results } = bench();
  await until(results, ({ explored }) => explored.value?.uncertainty != null && !explored.stale);
  let isDue = false;
  void results.pictured().then(() => {
    isDue = true;
  });
  await Promise.resolve();
  expect(isDue).toBe(true);
  store.setGap(1);
  await results.pictured();
  expect(results.value.explored.step!.chosen.gapMm).toBe(1);
});

test("it does not wait for a model that is silent", async () => {
  const model = new Model();
  const { store, results } = bench(model);
  await until(results, ({ explored }) => explored.value?.uncertainty != null && !explored.stale);
  model.picture = () => new Promise(() => {});
  store.setGap(1);
  await results.pictured();
  expect(results.value.explored.step!.chosen.gapMm).toBe(2.54);
});

test("retuning adds a sweep, which goes when it is switched off; one that cannot be says why", async () => {
  const { store, results } = bench();
  store.setView({ retune: 4 });
  const { retuned } = await until(results, (now) => now.retuned.value !== null);
  expect(retuned.value!.retune).toBe(4);
  store.setView({ retune: null });
  expect(results.value.retuned.value).toBeNull();
  store.setView({ retune: 30 });
  const refused = await until(results, (now) => now.retuned.refused !== null);
  expect(refused.retuned.refused).toContain("resonance 30");
});

test("long work can be stopped and taken up again", async () => {
  const { results } = bench();
  await until(results, ({ sweep }) => (sweep.progress ?? 0) > 0);
  results.stopSweeps();
  expect(results.value.sweep).toMatchObject({ value: null, progress: null, stopped: true });
  results.sweepAgain();
  const { sweep } = await until(results, (now) => now.sweep.value !== null);
  expect(sweep).toMatchObject({ stopped: false, stale: false });
});

test("after many quick changes the newest is what stands", async () => {
  const { store, results } = bench();
  for (let i = 0; i <= 40; i++) store.setGap(i / 10, { commit: false });
  const { explored } = await until(results, (now) => now.explored.value !== null && !now.explored.stale);
  expect(explored.value!.chosen.gapMm).toBe(4);
});

test("a breath blows curve and sweep and adds what it does to the peaks; still air brings back what was", async () => {
  const { store, compared, results } = bench();
  const isDone = ({ explored, sweep }: Results) =>
    explored.value !== null && !explored.stale && sweep.value !== null && !sweep.stale;
  const first = await until(results, isDone);
  expect(first.breath.value).toBeNull();
  compared.blow(true);
  store.setBreath(20);
  const blown = await until(results, (now) => isDone(now) && now.breath.value !== null && !now.breath.stale);
  expect(blown.explored.value!.stillCurve).toEqual(first.explored.value!.chosen.curve);
  expect(blown.breath.value).toMatchObject({ litresPerMinute: 20, gapMm: 2.54, referenceGapMm: 2.54 });
  expect(blown.sweep.value!.reference[6].peakImpedance).toBeLessThan(
    first.sweep.value!.reference[6].peakImpedance!,
  );
  store.setBreath(0);
  const again = await until(results, isDone);
  expect(again.breath.value).toBeNull();
  expect(again.sweep.value).toEqual(first.sweep.value);
  expect(again.explored.value!.chosen).toEqual(first.explored.value!.chosen);
  expect(again.explored.value!.stillCurve).toBeUndefined();
});
