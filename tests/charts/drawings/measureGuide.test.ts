// @vitest-environment jsdom
/** The drawn guide: whole at any size and of any instrument, and saying what it shows. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MEASURE_STEPS, measureGuide } from "../../../src/charts/drawings/measureGuide.ts";
import type { Frame } from "../../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { description, setup, text } from "../examples.ts";

const frame: Frame = { width: 330, height: 210, unit: "mm" };

test.each(MEASURE_STEPS)("%s", async (step) => {
  const file = standaloneSvg(measureGuide(step, setup, frame).svg, "light");
  expect(file).not.toMatch(/var\(|NaN|undefined/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/drawings/measure-${step}.svg`);
});

describe("any sheet, any instrument", () => {
  const frames: fc.Arbitrary<Frame> = fc.record({
    width: fc.integer({ min: 200, max: 900 }),
    height: fc.integer({ min: 160, max: 400 }),
    unit: fc.constantFrom("mm", "in"),
  });
  const receivers = fc.record({
    mouthDiameterMm: fc.double({ min: 10, max: 16, noNaN: true }),
    taper: fc.double({ min: 0, max: 0.06, noNaN: true }),
    depthMm: fc.double({ min: 22, max: 40, noNaN: true }),
  });

  test("every number is one, every text is on the sheet", () => {
    fc.assert(
      fc.property(
        frames,
        receivers,
        fc.constantFrom(...MEASURE_STEPS),
        fc.boolean(),
        (at, receiver, step, bare) => {
          const { profileMm, insertionMm } = setup.mouthpiece;
          const mouthpiece = bare ? { profileMm, insertionMm } : setup.mouthpiece;
          const { svg } = measureGuide(step, { ...setup, receiver, mouthpiece }, at);
          expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
          const labels = svg.querySelectorAll("text");
          expect(labels.length).toBeGreaterThan(0);
          for (const label of labels) {
            expect(Number(label.getAttribute("x"))).toBeGreaterThanOrEqual(0);
            expect(Number(label.getAttribute("x"))).toBeLessThanOrEqual(at.width);
            expect(Number(label.getAttribute("y"))).toBeGreaterThanOrEqual(10);
            expect(Number(label.getAttribute("y"))).toBeLessThanOrEqual(at.height);
          }
        },
      ),
      { numRuns: 80 },
    );
  });
});

test("depth and insertion carry the setup's own numbers, in the unit shown", () => {
  expect(text(measureGuide("depth", setup, frame).svg)).toContain("receiver depth 24.50 mm");
  expect(text(measureGuide("insertion", setup, { ...frame, unit: "in" }).svg)).toContain(
    "insertion 0.866 in",
  );
});

test("one shoulder gap, two gaps", () => {
  const { svg } = measureGuide("shoulder", setup, frame);
  const written = text(svg).split("\n");
  expect(written.filter((one) => one === "shoulder gap: the same")).toHaveLength(2);
  const own = gapMm(setup);
  expect(written.filter((one) => one.startsWith("gap"))).toEqual([
    `gap ${own.toFixed(2)} mm`,
    `gap ${(own + 3).toFixed(2)} mm`,
  ]);
  expect(description(svg)).toContain("the same shoulder gap outside");
});
