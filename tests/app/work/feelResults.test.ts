import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { AnswerStore } from "../../../src/app/state/keeping/answerStore.ts";
import { playForm } from "../../../src/app/state/notes/play.ts";
import { Observable } from "../../../src/app/state/observable.ts";
import { documentOf, Store } from "../../../src/app/state/store.ts";
import { ComparedGaps } from "../../../src/app/work/comparedGaps.ts";
import type { Methods } from "../../../src/app/work/connection.ts";
import { type FeelKind, holdGapsMm } from "../../../src/app/work/feelAsks.ts";
import { FeelResults } from "../../../src/app/work/feelResults.ts";
import type { ModelResults } from "../../../src/app/work/modelResults.ts";
import { WorkerClient } from "../../../src/app/work/workerClient.ts";
import type { Feel } from "../../../workers/instrument/feel.ts";
import { someSetup } from "../someSetup.ts";

/** A worker that answers by hand. */
class FakeFeel {
  readonly asked: string[] = [];
  readonly open: ((answer: unknown) => void)[] = [];
  progress: (done: number, of: number) => void = () => {};
  terminated = 0;

  readonly model = new Proxy({} as Methods<Feel>, {
    get: (_, name: string) => {
      if (name === "then") return undefined;
      if (name === "load") return async () => ({ ok: true });
      if (name === "stop") return async () => {};
      return (_question: unknown, progress: typeof this.progress) => {
        this.asked.push(name);
        this.progress = progress;
        return new Promise((resolve) => this.open.push(resolve));
      };
    },
  });
  answer = (value: unknown) => this.open.shift()!(value);
}

class FakeModel extends Observable<any> {
  constructor() {
    super(FakeModel.with(0.5));
  }
  static with = (progress: number | null) => ({
    explored: { value: {}, stale: false },
    sweep: { progress },
    retuned: { progress: null },
  });
  finish() {
    this.change(FakeModel.with(null));
  }
}

function bench(...kinds: FeelKind[]) {
  return benchWith(null, ...kinds);
}

function benchWith(kept: Pick<AnswerStore, "find" | "keep"> | null, ...kinds: FeelKind[]) {
  const worker = new FakeFeel();
  let started = 0;
  const client = new WorkerClient<Feel>({
    connect: () => {
      started++;
      return {
        model: worker.model,
        died: new Promise<never>(() => {}),
        terminate: () => {
          worker.terminated++;
        },
      };
    },
  });
  const store = new Store(documentOf(someSetup()));
  const model = new FakeModel();
  const feel = new FeelResults(new ComparedGaps(store), model as unknown as ModelResults, client, kept);
  feel.start();
  const release = feel.use(kinds);
  return { worker, store, model, feel, release, starts: () => started };
}

const wait = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("how it feels, beside the model's results", () => {
  test("starts no worker before the model has drawn what it can, nor before the hand rests", async () => {
    const { worker, store, model, starts } = bench("felt");
    await wait(2000);
    expect(starts()).toBe(0);
    model.finish();
    await wait(200);
    store.setGap(2.4, { commit: false });
    await wait(200);
    expect(starts()).toBe(0);
    await wait(60);
    expect(worker.asked).toEqual(["felt"]);
  });

  test("asks for what is shown, one after another, and for nothing else", async () => {
    const { worker, model, feel, release } = bench("closed", "felt");
    model.finish();
    await wait(300);
    expect(worker.asked).toEqual(["felt"]);
    worker.progress(3, 12);
    expect(feel.value.felt.progress).toBe(0.25);
    worker.answer({ slots: "felt" });
    await wait(0);
    expect(worker.asked).toEqual(["felt", "closed"]);
    worker.answer({ finding: "too small to notice" });
    await wait(1000);
    expect(feel.value.felt).toMatchObject({ value: { slots: "felt" }, stale: false, progress: null });
    expect(worker.asked).toHaveLength(2);
    release();
    feel.use(["stream"]);
    await wait(300);
    expect(worker.asked.at(-1)).toBe("stream");
  });

  test("a hand that moves ends the worker; what was known stays, stale where it depends on the gap", async () => {
    const { worker, store, model, feel } = bench("felt", "closed");
    model.finish();
    await wait(300);
    worker.answer({ slots: "first" });
    await wait(0);
    worker.answer({ finding: "closed" });
    await wait(0);
    store.setGap(1, { commit: false });
    expect(feel.value.felt).toMatchObject({ value: { slots: "first" }, stale: true });
    expect(feel.value.closed.stale).toBe(false);
    await wait(300);
    expect(worker.asked.slice(2)).toEqual(["felt"]);
    store.setGap(1.1);
    expect(worker.terminated).toBe(1);
    expect(feel.value.felt.progress).toBeNull();
    worker.answer({ slots: "too late" });
    await wait(100);
    expect(feel.value.felt.value).toEqual({ slots: "first" });
    await wait(300);
    worker.answer({ slots: "second" });
    await wait(0);
    expect(feel.value.felt).toMatchObject({ value: { slots: "second" }, stale: false });
  });

  test("can be stopped and taken up again", async () => {
    const { worker, model, feel } = bench("felt");
    model.finish();
    await wait(300);
    feel.stop();
    await wait(1000);
    expect(feel.value.felt).toMatchObject({ stopped: true, progress: null });
    expect(worker.asked).toHaveLength(1);
    feel.again();
    await wait(300);
    expect(worker.asked).toHaveLength(2);
  });

  test("lips that cannot be read are refused in words, without asking anyone", async () => {
    const { worker, store, model, feel } = bench("felt", "stream");
    store.setNotes("play", { ...playForm.empty, lips: { ...playForm.empty.lips, quality: "many" } });
    model.finish();
    await wait(300);
    worker.answer({ finding: "stream" });
    await wait(0);
    expect(worker.asked).toEqual(["stream"]);
    expect(feel.value.felt.refused).toMatch(/cannot be read/);
    expect(feel.value.stream.value).toEqual({ finding: "stream" });
    store.setNotes("play", playForm.empty);
    await wait(300);
    worker.answer({ slots: "fine" });
    await wait(0);
    expect(feel.value.felt).toMatchObject({ refused: null, value: { slots: "fine" } });
  });

  test("the chart of holds begins with the reference and has each gap once", () => {
    const gaps = holdGapsMm({ setup: someSetup(), referenceGapMm: 4 });
    expect(gaps[0]).toBe(4);
    expect(new Set(gaps).size).toBe(gaps.length);
    expect(Math.min(...gaps)).toBe(0);
  });
});

/** Answers of earlier visits, in memory. */
function shelf() {
  const kept = new Map<string, object>();
  return {
    kept,
    find: async (key: string) => kept.get(key) ?? null,
    keep: async (key: string, answer: object) => void kept.set(key, answer),
  };
}

describe("answers of earlier visits", () => {
  test("are there once the hand rests, before the model is calm, and no worker is started for them", async () => {
    const answers = shelf();
    const before = benchWith(answers, "felt", "closed");
    before.model.finish();
    await wait(300);
    before.worker.answer({ slots: "felt" });
    await wait(0);
    before.worker.answer({ finding: "closed" });
    await wait(0);
    expect(answers.kept.size).toBe(2);
    before.store.setGap(3);

    const again = benchWith(answers, "felt", "closed");
    await wait(300);
    expect(again.feel.value.felt).toMatchObject({ value: { slots: "felt" }, stale: false, progress: null });
    expect(again.feel.value.closed).toMatchObject({ value: { finding: "closed" }, stale: false });
    again.model.finish();
    await wait(1000);
    expect(again.starts()).toBe(0);
  });

  test("are of the same gap, lips and instrument; what is not among them is asked when the model is calm", async () => {
    const answers = shelf();
    const before = benchWith(answers, "felt");
    before.model.finish();
    await wait(300);
    before.worker.answer({ slots: "felt" });
    await wait(0);

    const again = benchWith(answers, "felt");
    again.store.setGap(1);
    await wait(2000);
    expect(again.feel.value.felt.value).toBeNull();
    again.model.finish();
    await wait(300);
    expect(again.worker.asked).toEqual(["felt"]);
  });

  test("are no refusals, and none of what is quickly asked again", async () => {
    const answers = shelf();
    const { worker, model, feel } = benchWith(answers, "felt", "stream");
    model.finish();
    await wait(300);
    worker.answer({ parts: [] });
    await wait(0);
    worker.answer({ refused: "no lips" });
    await wait(0);
    expect(worker.asked).toEqual(["stream", "felt"]);
    expect(feel.value.felt.refused).toBe("no lips");
    expect(answers.kept.size).toBe(0);
  });
});
