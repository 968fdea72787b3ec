import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { Connection, Methods } from "../../../src/app/work/connection.ts";
import { Work } from "../../../src/app/work/work.ts";
import { WorkerClient, type WorkerClientOptions } from "../../../src/app/work/workerClient.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import type { Judged } from "../../../src/study/instrument/exploration.ts";
import type { GapSweep } from "../../../src/study/instrument/gapSweep.ts";
import type { DrawRequest, Model, SweepRequest } from "../../../workers/instrument/model.ts";
import type { StepProgress } from "../../../workers/service/served.ts";
import { flawedSetup, someSetup } from "../someSetup.ts";

const setup = someSetup();
const other = someSetup({ insertion: 21 });

/** A worker whose answers the test gives by hand, in the order of its questions. */
class FakeWorker implements Methods<Model> {
  readonly asked: string[] = [];
  readonly open: ((answer: unknown) => void)[] = [];
  progress: StepProgress = () => {};
  terminated = false;
  die: (reason: unknown) => void = () => {};
  /** Whether it answers `load` by itself. */
  loads = true;
  loaded: Setup | null = null;

  connection(): Connection<Model> {
    const died = new Promise<never>((_, reject) => {
      this.die = reject;
    });
    died.catch(() => {});
    const terminate = () => {
      this.terminated = true;
    };
    return { model: this, died, terminate };
  }

  answer(value: unknown): void {
    this.open.shift()!(value);
  }

  #ask(what: string): Promise<never> {
    this.asked.push(what);
    return new Promise((resolve) => this.open.push(resolve as (answer: unknown) => void));
  }

  load(asked: Setup) {
    this.loaded = asked;
    if (!this.loads) return this.#ask("load");
    this.asked.push("load");
    return Promise.resolve({ ok: true as const });
  }
  picture(gapMm: number) {
    return this.#ask(`picture ${gapMm}`);
  }
  judge(gapMm: number) {
    return this.#ask(`judge ${gapMm}`);
  }
  breathEffect() {
    return this.#ask("breathEffect");
  }
  sweep(request: SweepRequest, progress: StepProgress) {
    this.progress = progress;
    return this.#ask(`sweep ${request.ticket}`);
  }
  draw(request: DrawRequest, progress: StepProgress) {
    this.progress = progress;
    return this.#ask(`draw ${request.ticket}`);
  }
  /** Within a step it hears nothing. */
  isDeaf = false;
  stop(ticket: number): Promise<void> {
    this.asked.push(`stop ${ticket}`);
    return this.isDeaf ? new Promise(() => {}) : Promise.resolve();
  }
}

function bench(options: Partial<WorkerClientOptions<Model>> = {}) {
  const workers: FakeWorker[] = [];
  const onRestart = vi.fn();
  const client = new WorkerClient<Model>({
    connect() {
      workers.push(new FakeWorker());
      return workers.at(-1)!.connection();
    },
    onRestart,
    ...options,
  });
  const judge = (gapMm: number, of = setup) => client.ask(of, (model) => model.judge(gapMm, 2.54, 4));
  return { client, workers, onRestart, judge };
}

/** Lets everything that is due happen. */
const settle = () => vi.advanceTimersByTimeAsync(0);
const judged = (name: string) => ({ name }) as unknown as Judged;
const swept = (name: string) => ({ name }) as unknown as GapSweep;

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("a worker's client", () => {
  test("loads a setup once and asks", async () => {
    const { workers, judge } = bench();
    const first = judge(1);
    await settle();
    workers[0].answer(judged("one"));
    expect(await first).toEqual(judged("one"));
    const second = judge(2);
    await settle();
    workers[0].answer(judged("two"));
    expect(await second).toEqual(judged("two"));
    expect(workers[0].asked).toEqual(["load", "judge 1", "judge 2"]);
  });

  test("while one judgement is under way only the newest waits", async () => {
    const { workers, judge } = bench();
    const work = new Work<number, Judged>({ ask: (gapMm) => judge(gapMm), isQuick: true });
    const seen: unknown[] = [];
    work.subscribe(({ value, stale }) => seen.push([value, stale]));
    for (const gapMm of [1, 2, 3, 4]) work.ask(gapMm);
    await settle();
    expect(workers[0].asked).toEqual(["load", "judge 1"]);
    workers[0].answer(judged("first"));
    await settle();
    expect(workers[0].asked).toEqual(["load", "judge 1", "judge 4"]);
    expect(work.value).toMatchObject({ value: judged("first"), of: 1, stale: true });
    workers[0].answer(judged("last"));
    await settle();
    expect(work.value).toMatchObject({ value: judged("last"), of: 4, stale: false });
    expect(seen.slice(-2)).toEqual([
      [judged("first"), true],
      [judged("last"), false],
    ]);
  });

  test("a question follows its own setup, whatever is asked at the same time", async () => {
    const { client, workers, judge } = bench();
    void judge(1);
    void client.run("sweep", other, { gapsMm: [1] });
    void judge(2);
    await settle();
    expect(workers[0].asked).toEqual(["load", "judge 1", "load", "sweep 1", "load", "judge 2"]);
    expect(workers[0].loaded).toBe(setup);
  });

  test("a new name is no new instrument to the model", async () => {
    const { workers, judge } = bench();
    void judge(1);
    await settle();
    workers[0].answer(judged("one"));
    await settle();
    void judge(1, { ...setup, name: "Renamed" });
    await settle();
    expect(workers[0].asked).toEqual(["load", "judge 1", "judge 1"]);
  });

  test("passes refusals on", async () => {
    const { workers, judge } = bench();
    const answer = judge(99);
    await settle();
    workers[0].answer({ refused: "no such gap" });
    expect(await answer).toEqual({ refused: "no such gap" });
  });

  test("a worker that dies is replaced once, loaded again, and everything under way is asked again", async () => {
    const { client, workers, onRestart, judge } = bench();
    const answers = [judge(1), client.run("sweep", setup, { gapsMm: [1] })];
    await settle();
    workers[0].die(new Error("out of memory"));
    await settle();
    expect(workers[0].terminated).toBe(true);
    expect(workers).toHaveLength(2);
    expect(onRestart).toHaveBeenCalledTimes(1);
    expect(workers[1].asked.toSorted()).toEqual(["judge 1", "load", "sweep 1"]);
    expect(workers[1].asked[0]).toBe("load");
    for (const what of workers[1].asked.slice(1)) workers[1].answer(judged(what));
    expect(await Promise.all(answers)).toEqual([judged("judge 1"), judged("sweep 1")]);
  });

  test("one that dies twice over the same question is not asked a third time", async () => {
    const { workers, judge } = bench();
    const answer = judge(1);
    await settle();
    workers[0].die(new Error("first"));
    await settle();
    workers[1].die(new Error("second"));
    expect(await answer).toEqual({ refused: expect.stringContaining("load the page again") });
    const next = judge(2);
    await settle();
    workers[2].answer(judged("two"));
    expect(await next).toEqual(judged("two"));
  });

  test("a worker that cannot be started is refused in words", async () => {
    const client = new WorkerClient<Model>({
      connect() {
        throw new Error("blocked");
      },
    });
    expect(await client.ask(setup, (model) => model.judge(1, 1, null))).toEqual({
      refused: expect.stringContaining("cannot run here"),
    });
  });

  test("a silent death is noticed by its silence", async () => {
    const { workers, onRestart, judge } = bench({ patienceS: 8 });
    const answer = judge(1);
    await vi.advanceTimersByTimeAsync(7900);
    expect(onRestart).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(200);
    expect(onRestart).toHaveBeenCalledTimes(1);
    await vi.advanceTimersByTimeAsync(8100);
    expect(workers).toHaveLength(2);
    expect(await answer).toEqual({ refused: expect.stringContaining("no answer for this instrument") });
  });

  test("building the air column may take longer", async () => {
    const slow = new FakeWorker();
    slow.loads = false;
    const { onRestart, judge } = bench({
      connect: () => slow.connection(),
      patienceS: 8,
      loadPatienceS: 30,
    });
    const answer = judge(1);
    await vi.advanceTimersByTimeAsync(20_000);
    expect(onRestart).not.toHaveBeenCalled();
    slow.answer({ ok: true });
    slow.answer(judged("late"));
    expect(await answer).toEqual(judged("late"));
  });

  test("a setup that is refused is not asked about", async () => {
    const bad = new FakeWorker();
    bad.loads = false;
    const { judge } = bench({ connect: () => bad.connection() });
    const answer = judge(1);
    await settle();
    bad.answer({ refused: "too long" });
    bad.answer({ refused: "no setup is loaded" });
    expect(await answer).toEqual({ refused: "too long" });
  });

  test("a sweep that tells of progress is alive however long it takes", async () => {
    const { client, workers, onRestart } = bench({ patienceS: 8 });
    const progress = vi.fn();
    const answer = client.run("sweep", setup, { gapsMm: [1, 2] }, progress);
    for (let i = 1; i <= 10; i++) {
      await vi.advanceTimersByTimeAsync(5000);
      workers[0].progress(i, 10);
    }
    workers[0].answer(swept("all"));
    expect(await answer).toEqual(swept("all"));
    expect(progress).toHaveBeenLastCalledWith(10, 10);
    // told on its way while the answer overtook it
    progress.mockClear();
    workers[0].progress(9, 10);
    expect(progress).not.toHaveBeenCalled();
    expect(onRestart).not.toHaveBeenCalled();
  });

  test("a sweep can be stopped, and a stopped one tells nothing more", async () => {
    const { client, workers } = bench();
    const stopping = new AbortController();
    const progress = vi.fn();
    const answer = client.run("sweep", setup, { gapsMm: [1, 2] }, progress, stopping.signal);
    await settle();
    stopping.abort();
    expect(workers[0].asked).toEqual(["load", "sweep 1", "stop 1"]);
    workers[0].progress(1, 2);
    workers[0].answer(null);
    expect(await answer).toBeNull();
    expect(progress).not.toHaveBeenCalled();
    expect(await client.run("sweep", setup, { gapsMm: [1] }, progress, AbortSignal.abort())).toBeNull();
  });

  test("a setup that was kept and can be no instrument is refused unasked", async () => {
    const { client, workers, judge } = bench();
    const refused = { refused: expect.stringMatching(/^receiver\.depth: a depth of 245\.4 mm cannot be/) };
    expect(await judge(1, flawedSetup())).toEqual(refused);
    expect(await client.run("sweep", flawedSetup(), { gapsMm: [1] })).toEqual(refused);
    expect(workers).toEqual([]);
  });

  test.each([
    ["hears", 1],
    ["does not hear", 2],
  ])(
    "long work that is given up holds up the next no longer where the worker %s of it",
    async (how, count) => {
      const { client, workers } = bench({ deafMs: 700 });
      const giveUp = new AbortController();
      const first = client.run("sweep", setup, { gapsMm: [1] }, () => {}, giveUp.signal);
      await settle();
      workers[0].isDeaf = how === "does not hear";
      giveUp.abort("given up");
      expect(await first).toBeNull();
      const second = client.run("sweep", other, { gapsMm: [2] });
      await vi.advanceTimersByTimeAsync(600);
      expect(workers).toHaveLength(1);
      await vi.advanceTimersByTimeAsync(200);
      expect(workers).toHaveLength(count);
      expect(workers.map(({ terminated }) => terminated)).toEqual([...Array(count - 1).fill(true), false]);
      const newest = workers.at(-1)!;
      while (newest.open.length > 1) newest.answer(null);
      newest.answer(swept("second"));
      expect(await second).toEqual(swept("second"));
    },
  );

  test("one that is closed is asked nothing more, however long its answer is awaited", async () => {
    const { client, workers, judge } = bench();
    const answer = judge(1);
    const sweep = client.run("sweep", setup, { gapsMm: [1] });
    await settle();
    client.close();
    expect(await answer).toEqual({ refused: expect.stringContaining("ended before") });
    expect(await sweep).toEqual({ refused: expect.stringContaining("ended before") });
    await vi.advanceTimersByTimeAsync(100_000);
    expect(workers).toHaveLength(1);
    expect(workers[0].terminated).toBe(true);
  });

  test("a worker busy with what nobody asks any more is replaced, and what else it was asked is asked of the new one", async () => {
    const { client, workers, onRestart } = bench();
    const givenUp = new AbortController();
    const old = client.ask(setup, (model) => model.judge(1, 2, null), givenUp.signal);
    const sweep = client.run("sweep", other, { gapsMm: [1] });
    await settle();
    givenUp.abort();
    expect(await old).toEqual({ refused: expect.stringContaining("ended before") });
    await settle();
    expect(workers[0].terminated).toBe(true);
    expect(workers).toHaveLength(2);
    expect(workers[1].loaded).toBe(other);
    expect(workers[1].asked).toEqual(["load", "sweep 1"]);
    workers[1].answer(swept("new"));
    expect(await sweep).toEqual(swept("new"));
    expect(onRestart).not.toHaveBeenCalled();
  });

  test("the newest question about another instrument waits for the old one a moment and no longer", async () => {
    vi.useFakeTimers();
    const asked: number[] = [];
    const ended: number[] = [];
    const work = new Work<number, { readonly of: number }>({
      ask: (question, _, signal) => {
        asked.push(question);
        signal.addEventListener("abort", () => ended.push(question));
        return question < 10 ? new Promise(() => {}) : Promise.resolve({ of: question });
      },
      isQuick: true,
      isOvertaken: (underWay, newest) => Math.floor(underWay / 10) !== Math.floor(newest / 10),
    });
    work.ask(1);
    work.ask(2);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(asked).toEqual([1]);
    work.ask(11);
    work.ask(12);
    await vi.advanceTimersByTimeAsync(1000);
    expect(asked).toEqual([1, 12]);
    expect(ended).toEqual([1]);
    expect(work.value.value).toEqual({ of: 12 });
    // back where the old one is still asked: nothing is ended
    work.ask(3);
    work.ask(13);
    work.ask(4);
    await vi.advanceTimersByTimeAsync(1000);
    expect(ended).toEqual([1]);
  });
});

describe("a setup that will be asked about", () => {
  test("is loaded before, and once", async () => {
    const { client, workers, judge } = bench();
    client.expect(setup);
    expect(workers.map(({ asked }) => asked)).toEqual([["load"]]);
    // who asks has read it again
    const answer = judge(1, structuredClone(setup));
    await settle();
    workers[0].answer({ gapMm: 1 });
    expect(await answer).toEqual({ gapMm: 1 });
    expect(workers.map(({ asked }) => asked)).toEqual([["load", "judge 1"]]);
  });

  test("gives way to another that is asked about instead", async () => {
    const { client, workers, judge } = bench();
    client.expect(other);
    const answer = judge(1);
    await settle();
    workers[0].answer({ gapMm: 1 });
    await answer;
    expect(workers[0].loaded).toEqual(setup);
    expect(workers[0].asked).toEqual(["load", "load", "judge 1"]);
  });

  test("is not loaded where it can be no instrument, and a worker that dies over it is replaced by who asks", async () => {
    const { client, workers, onRestart, judge } = bench();
    client.expect(flawedSetup());
    expect(workers).toHaveLength(0);
    client.expect(setup);
    workers[0].die(new Error("gone"));
    await settle();
    expect(onRestart).not.toHaveBeenCalled();
    const answer = judge(1);
    await settle();
    expect(workers).toHaveLength(2);
    expect(onRestart).toHaveBeenCalledOnce();
    workers[1].answer({ gapMm: 1 });
    expect(await answer).toEqual({ gapMm: 1 });
  });
});
