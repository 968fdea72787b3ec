import { expect, test } from "vitest";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { gapLimits, nearestGapMm, shownGaps, sweptGapsMm } from "../../src/setup/gapLimits.ts";
import { withGap } from "../../src/setup/withGap.ts";
import { someSetup } from "../app/someSetup.ts";
import { exampleFile } from "./example.ts";

const file = exampleFile();
/** Narrows so fast that the shank's bore meets the receiver's wall before the leadpipe. */
const steep = readSetup({ ...file, receiver: { ...file.receiver, taper: 0.1 } });

test("a shank usually goes from touching the leadpipe to just out of the receiver", () => {
  expect(gapLimits(someSetup())).toEqual({ leastMm: 0, mostMm: 24.54 });
});

test("in a steep receiver the least gap is where the shank's bore still fits", () => {
  const { leastMm } = gapLimits(steep);
  expect(leastMm).toBeGreaterThan(0);
  expect(() => withGap(steep, leastMm)).not.toThrow();
  expect(() => withGap(steep, leastMm - 2e-4)).toThrow();
});

test("every gap of the charts is one the receiver can have, both ends are there, none twice", () => {
  for (const setup of [
    someSetup(),
    steep,
    someSetup({ depth: 40, insertion: 22 }),
    someSetup({ depth: 5, insertion: 5 }),
  ]) {
    const gaps = sweptGapsMm(setup);
    const { leastMm, mostMm } = shownGaps(setup);
    expect([gaps[0], gaps.at(-1)]).toEqual([leastMm, mostMm]);
    expect(gaps).toEqual([...new Set(gaps)].sort((a, b) => a - b));
    for (const gapMm of gaps) expect(() => withGap(setup, gapMm)).not.toThrow();
  }
  expect(sweptGapsMm(someSetup())).toHaveLength(33);
});

test("a wanted gap is met, less its rounding noise, or becomes the nearest", () => {
  const setup = someSetup();
  expect([0.1 + 0.2, -1, 99].map((mm) => nearestGapMm(setup, mm))).toEqual([0.3, 0, 24.54]);
});
