// @vitest-environment jsdom
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cutDrawing } from "../../../src/charts/drawings/cutDrawing.ts";
import { cutTable, type ShankCut, type ShankState } from "../../../src/charts/drawings/shankCut.ts";
import { description, laptop, setup, text } from "../examples.ts";

const { profileMm, shankEndDiameterMm, insertionMm, shankTaper } = setup.mouthpiece;
const before: ShankState = { boreMm: profileMm, endDiameterMm: shankEndDiameterMm!, insertionMm };
const cut = (after: Partial<ShankState>, isEndKnown = true): ShankCut => ({
  before,
  after: { ...before, ...after },
  taper: shankTaper!,
  isEndKnown,
});
const turned = cut({ endDiameterMm: 9.675, insertionMm: 22.5 });
const sleeved = cut({ endDiameterMm: 9.75, insertionMm: 21 });
const shortened = cut({
  boreMm: [...profileMm.slice(0, -1), [85, 8.361]],
  endDiameterMm: 9.75,
  insertionMm: 21,
});

/** Corners of a drawn part, px. */
const corners = (svg: SVGSVGElement, part: string) =>
  [
    ...svg
      .querySelector(`[data-part=${part}]`)!
      .getAttribute("d")!
      .matchAll(/([\d.-]+),([\d.-]+)/g),
  ].map(([, x, y]) => [Number(x), Number(y)] as const);
const span = (values: readonly number[]) => Math.max(...values) - Math.min(...values);

describe("the shank's wall before and after", () => {
  test("says what is taken off, the wall that is left, and by how much it exaggerates", () => {
    const { svg } = cutDrawing(turned, laptop);
    expect(text(svg)).toMatch(/0\.01[23] mm off, all along/);
    expect(text(svg)).toContain("0.638 mm");
    expect(text(svg)).toContain("now 0.650 mm");
    expect(text(svg)).toMatch(/diameters \d+\.\d times as large as lengths/);
    expect(text(svg)).toMatch(/the layer \d+ times as thick again/);
    expect(description(svg)).toContain("wall at the shank's end 0.650 mm to 0.638 mm");
    expect(text(cutDrawing(turned, { ...laptop, unit: "in" }).svg)).toContain("0.0251 in");
  });

  test("draws what it says: the layer as thick as the stated exaggeration makes it", () => {
    for (const one of [turned, sleeved]) {
      const { svg, x, y } = cutDrawing(one, laptop);
      const times = Number(/the layer (\d+) times/.exec(text(svg))![1]);
      const radial = Number(/diameters ([\d.]+) times/.exec(text(svg))![1]);
      expect((y(0) - y(1)) / (x(1) - x(0))).toBeCloseTo(radial, 1);
      const atEnd = corners(svg, "change").filter(([at]) => Math.abs(at - x(86)) < 0.2);
      const layerMm = Math.abs(one.after.endDiameterMm - before.endDiameterMm) / 2;
      expect(span(atEnd.map(([, at]) => at))).toBeCloseTo(layerMm * times * (y(0) - y(1)), 0);
    }
  });

  test("a layer taken off lies in the wall, one laid on outside it", () => {
    const top = (one: ShankCut, part: string) =>
      Math.min(...corners(cutDrawing(one, laptop).svg, part).map(([, y]) => y));
    expect(top(turned, "change")).toBeLessThan(top(turned, "shank"));
    expect(top(sleeved, "change")).toBeLessThan(top(sleeved, "shank"));
    expect(text(cutDrawing(sleeved, laptop).svg)).toContain("0.025 mm on, all along");
    // the old outside is the layer's upper side where it is taken off, its lower where it is laid on
    const y = (one: ShankCut) => cutDrawing(one, laptop).y(before.endDiameterMm / 2);
    const atEnd = (one: ShankCut) =>
      corners(cutDrawing(one, laptop).svg, "change")
        .slice(0, 4)
        .sort((a, b) => b[0] - a[0])
        .slice(0, 2)
        .map(([, at]) => at);
    expect(Math.min(...atEnd(turned))).toBeCloseTo(y(turned), 0);
    expect(Math.max(...atEnd(sleeved))).toBeCloseTo(y(sleeved), 0);
  });

  test("an end cut off is true to scale along, and the exit bore is told", () => {
    const { svg, x } = cutDrawing(shortened, laptop);
    expect(span(corners(svg, "change").map(([at]) => at))).toBeCloseTo(x(86) - x(85), 0);
    expect(text(svg)).toContain("1.00 mm · 0.039 in off");
    expect(text(svg)).not.toContain("as thick again");
    expect(description(svg)).toContain("exit bore 8.400 mm to 8.361 mm");
  });

  test("gives no wall where nobody has measured the end", () => {
    const { svg } = cutDrawing({ ...sleeved, isEndKnown: false }, laptop);
    expect(text(svg)).not.toContain("wall then");
    expect(description(svg)).toContain("has not been measured");
    expect(cutTable({ ...sleeved, isEndKnown: false }, "mm").rows.map(([name]) => name)).toEqual([
      "insertion",
      "mouthpiece length",
      "exit bore",
    ]);
  });

  test("is whole whatever the sheet and the shank", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 240, max: 2000 }),
        fc.double({ min: 8.5, max: 12, noNaN: true }),
        fc.double({ min: 8.5, max: 12, noNaN: true }),
        fc.double({ min: 0, max: 24.5, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (width, endDiameterMm, thenMm, insertion, cutOffMm, taper) => {
          const endMm = 86 - cutOffMm;
          const boreMm = [...profileMm.filter(([at]) => at < endMm), [endMm, 8] as const];
          const { svg } = cutDrawing(
            {
              before: { ...before, endDiameterMm },
              after: { boreMm, endDiameterMm: thenMm, insertionMm: insertion },
              taper,
              isEndKnown: true,
            },
            { ...laptop, width },
          );
          expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
        },
      ),
      { numRuns: 60 },
    );
  });
});
