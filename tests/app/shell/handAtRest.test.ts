// @vitest-environment jsdom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { handAtRest } from "../../../src/app/shell/handAtRest.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test("a hand that drags or types is waited for, one that passes over the page is not", async () => {
  let isAtRest = false;
  void handAtRest(2000).then(() => {
    isAtRest = true;
  });
  const hold = new MouseEvent("pointermove", { buttons: 1 });
  for (const event of [hold, new Event("keydown"), new Event("wheel"), new Event("pointerdown")]) {
    await vi.advanceTimersByTimeAsync(1500);
    dispatchEvent(event);
  }
  await vi.advanceTimersByTimeAsync(1500);
  dispatchEvent(new MouseEvent("pointermove", { buttons: 0 }));
  expect(isAtRest).toBe(false);
  await vi.advanceTimersByTimeAsync(500);
  expect(isAtRest).toBe(true);
});
