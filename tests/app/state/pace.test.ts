import { expect, test } from "vitest";
import { Pace } from "../../../src/app/state/pace.ts";

/** When something is drawn that is asked for at these times. */
function drawnAt(asked: readonly number[], paceMs: number): number[] {
  const pace = new Pace();
  const drawn: number[] = [];
  for (const at of asked) {
    // asked for while one waits: drawn with that one
    if (at <= (drawn.at(-1) ?? -1)) continue;
    const now = at + Math.max(0, pace.waitMs(paceMs, at));
    pace.drawn(now);
    drawn.push(now);
  }
  return drawn;
}

test("what changes at every frame is drawn at an even pace, the first two of it at once", () => {
  const frames = Array.from({ length: 20 }, (_, i) => 10 * i);
  expect(drawnAt(frames, 40)).toEqual([0, 10, 50, 90, 130, 170, 210]);
});

test("the second drawing after a rest does not wait, the third does", () => {
  expect(drawnAt([0, 200, 208, 216], 40)).toEqual([0, 200, 208, 248]);
  expect(drawnAt([0, 45, 90, 98], 40)).toEqual([0, 45, 90, 125]);
});

test("without a pace nothing waits", () => {
  expect(drawnAt([0, 1, 2], 0)).toEqual([0, 1, 2]);
});
