// @vitest-environment jsdom
import fc from "fast-check";
import { expect, test } from "vitest";
import { textWidth } from "../../../src/charts/kit/drawing.ts";
import { spread } from "../../../src/charts/kit/labels/spread.ts";
import { heightChart } from "../../../src/charts/plots/gap/heightChart.ts";
import { shiftChart, spacingChart } from "../../../src/charts/plots/gap/spacingChart.ts";
import { impedanceChart } from "../../../src/charts/plots/impedanceChart.ts";
import { asItIs, explored, retuned, thresholds } from "../examples.ts";

const number = (element: Element, name: string) => Number(element.getAttribute(name));

test("labels at the lines' ends never stand on one another, and stay on the sheet", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 200, max: 2000 }),
      fc.integer({ min: 200, max: 900 }),
      fc.constantFrom(heightChart, shiftChart, spacingChart),
      fc.constantFrom(asItIs, retuned),
      (width, height, chart, sweep) => {
        const { svg, plot } = chart(
          { sweep, chosenGapMm: 4, thresholds, highlight: 5 },
          { width, height, unit: "mm" },
        );
        const labels = [...svg.querySelectorAll(".end-label")];
        expect(labels.map(({ textContent }) => textContent)).toContain("5");
        const ys = labels.map((label) => number(label, "y")).sort((a, b) => a - b);
        const size = number(labels[0], "font-size");
        ys.slice(1).forEach((y, i) => {
          expect(y - ys[i]).toBeGreaterThanOrEqual(size);
        });
        expect(ys[0]).toBeGreaterThanOrEqual(plot.top);
        expect(ys[ys.length - 1]).toBeLessThanOrEqual(plot.bottom + size);
      },
    ),
    { numRuns: 40 },
  );
});

test("on paper words stand before the chosen gap's line, and beside it where there is room", () => {
  const box = (svg: SVGElement, words: RegExp) => {
    const text = [...svg.querySelectorAll("text")].find(({ textContent }) => words.test(textContent!))!;
    const left = number(text, "x");
    return { text, left, right: left + textWidth(text.textContent!, number(text, "font-size")) };
  };
  for (let chosenGapMm = 0; chosenGapMm <= 8; chosenGapMm += 0.25) {
    const { svg, x } = heightChart(
      { sweep: asItIs, chosenGapMm, thresholds, isPrinted: true },
      { width: 1000, height: 400, unit: "mm" },
    );
    const line = svg.querySelector('[data-part="gap-line"]')!;
    const { text, left, right } = box(svg, /^too small to notice/);
    expect(x(chosenGapMm) < left || x(chosenGapMm) > right).toBe(true);
    for (const after of [text, box(svg, /^rule of thumb/).text])
      expect(line.compareDocumentPosition(after)).toBe(Node.DOCUMENT_POSITION_FOLLOWING);
  }
});

test("two or three notes have a line and a name, every other one lies in the shaded range", () => {
  const heights = (gapMm: number) =>
    asItIs.rows.find((row) => row.gapMm === gapMm)!.modes.filter(({ n }) => n >= 2 && n <= 10);
  const atEnd = [...heights(12)].sort((a, b) => a.heightDb! - b.heightDb!).map(({ n }) => n);
  const [lowest, lower] = atEnd;
  const highest = atEnd[atEnd.length - 1];
  for (const [highlight, named] of [
    [undefined, [lowest, highest]],
    [4, [lowest, highest, 4]],
    [lowest, [lowest, lower, highest]],
  ] as [number | undefined, number[]][]) {
    const { svg, x, y } = heightChart(
      { sweep: asItIs, chosenGapMm: 4, thresholds, ...(highlight !== undefined && { highlight }) },
      { width: 600, height: 300, unit: "mm" },
    );
    const sorted = (all: Iterable<number>) => [...all].sort((a, b) => a - b);
    const labels = Array.from(svg.querySelectorAll(".end-label"), ({ textContent }) => Number(textContent));
    expect(sorted(labels)).toEqual(sorted(named));
    const lines = [...svg.querySelectorAll("path[data-resonance]")];
    expect(sorted(lines.map((line) => Number(line.getAttribute("data-resonance"))))).toEqual(sorted(labels));
    // told apart without their colours
    const looks = lines.map(
      (line) => `${line.getAttribute("stroke-width")} ${line.getAttribute("stroke-dasharray")}`,
    );
    expect(new Set(looks).size).toBe(lines.length);
    const range = svg.querySelector('[data-part="range"]')!.getAttribute("d")!;
    const points = range
      .slice(1, -1)
      .split("L")
      .map((pair) => pair.split(",").map(Number));
    for (const gapMm of [0, 4, 9, 12]) {
      const ys = points.filter(([at]) => Math.abs(at - x(gapMm)) < 0.06).map(([, at]) => at);
      const values = heights(gapMm).map(({ heightDb }) => y(heightDb!));
      expect(Math.min(...ys)).toBeCloseTo(Math.min(...values), 0);
      expect(Math.max(...ys)).toBeCloseTo(Math.max(...values), 0);
    }
  }
});

test("peak numbers do not overlap on a phone", () => {
  const { svg } = impedanceChart(explored(4), { width: 340, height: 280, unit: "mm" });
  const boxes = Array.from(svg.querySelectorAll(".peak-label"), (label) => ({
    x: number(label, "x"),
    y: number(label, "y"),
    half: 3 * label.textContent!.length,
  }));
  expect(boxes).toHaveLength(11);
  for (const a of boxes)
    for (const b of boxes)
      if (a !== b) expect(Math.abs(a.x - b.x) >= a.half + b.half || Math.abs(a.y - b.y) >= 10).toBe(true);
});

test("spreading keeps order, distance and bounds, and leaves alone what is apart already", () => {
  expect(spread([10, 30, 50], 12, [0, 100])).toEqual([10, 30, 50]);
  expect(spread([20, 20, 20], 10, [0, 100])).toEqual([10, 20, 30]);
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -50, max: 250, noNaN: true }), { minLength: 1, maxLength: 12 }),
      (values) => {
        const wanted = values.sort((a, b) => a - b);
        const places = spread(wanted, 13, [0, 200]);
        expect(places).toHaveLength(wanted.length);
        places.forEach((place, i) => {
          expect(place).toBeGreaterThanOrEqual(-1e-9);
          expect(place).toBeLessThanOrEqual(200 + 1e-9);
          if (i > 0) expect(place - places[i - 1]).toBeGreaterThanOrEqual(13 - 1e-9);
        });
      },
    ),
  );
});
