import { effect } from "@preact/signals-core";
import { afterEach, expect, test, vi } from "vitest";
import { Work, Works } from "../../../src/app/work/work.ts";

interface Doubled {
  readonly twice: number;
}

/** Work that is answered by hand, over parts that are followed. */
function bench() {
  const waiting: ((answer: Doubled) => void)[] = [];
  const work = new Work<number, Doubled>({
    ask: () => new Promise((answered) => waiting.push(answered)),
    isQuick: true,
  });
  const { parts } = new Works<{ doubled: Work<number, Doubled>["value"] }>({ doubled: work });
  const answer = async (twice: number) => {
    waiting.shift()!({ twice });
    await vi.advanceTimersByTimeAsync(0);
  };
  return { work, parts, answer };
}

afterEach(() => {
  vi.useRealTimers();
});

test("a value looks old once it has been out of date for a quarter of a second, and no sooner", async () => {
  vi.useFakeTimers();
  const { work, parts, answer } = bench();
  work.ask(1);
  await answer(2);
  expect(parts.doubled).toMatchObject({ value: { twice: 2 }, stale: false, late: false });
  work.ask(2);
  await vi.advanceTimersByTimeAsync(240);
  expect(parts.doubled).toMatchObject({ stale: true, late: false });
  await vi.advanceTimersByTimeAsync(20);
  expect(parts.doubled).toMatchObject({ stale: true, late: true });
  await answer(4);
  expect(parts.doubled).toMatchObject({ value: { twice: 4 }, stale: false, late: false });
});

test("a hand that moves on is never late while every step brings a value", async () => {
  vi.useFakeTimers();
  const { work, parts, answer } = bench();
  work.ask(0);
  const seen: boolean[] = [];
  for (let step = 1; step <= 6; step++) {
    await vi.advanceTimersByTimeAsync(100);
    // the next question is there before the answer to this one
    work.ask(step);
    await answer(step);
    seen.push(parts.doubled.late, parts.doubled.stale);
  }
  expect(seen).toEqual(Array.from({ length: 6 }, () => [false, true]).flat());
});

test("who draws a value is drawn anew when there is another, not when something is asked", async () => {
  vi.useFakeTimers();
  const { work, parts, answer } = bench();
  const drawn: (number | undefined)[] = [];
  const leave = effect(() => {
    drawn.push(parts.doubled.late ? Number.NaN : parts.doubled.value?.twice);
  });
  work.ask(1);
  await answer(2);
  work.ask(2);
  await answer(4);
  leave();
  expect(drawn).toEqual([undefined, 2, 4]);
});
