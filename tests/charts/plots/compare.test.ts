// @vitest-environment jsdom
import { describe, expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import {
  type BoreDifferenceData,
  boreDifference,
  boreDifferenceHeight,
  boreDifferenceTable,
} from "../../../src/charts/plots/compare/boreDifference.ts";
import {
  type CompareChartData,
  compareChart,
  compareChartHeight,
  compareChartTable,
} from "../../../src/charts/plots/compare/compareChart.ts";
import {
  type CompareCurvesData,
  compareCurves,
  compareCurvesTable,
  comparePeaksTable,
} from "../../../src/charts/plots/compare/compareCurves.ts";
import { strokeOf } from "../../../src/charts/plots/compare/compareSeries.ts";
import { designChart, designTable } from "../../../src/charts/plots/compare/designChart.ts";
import {
  type SensitivityData,
  sensitivityChart,
  sensitivityTable,
} from "../../../src/charts/plots/compare/sensitivityChart.ts";
import { description, explored, laptop, setup, text } from "../examples.ts";

const phone = { ...laptop, width: 340 };
const standing = { reference: 1, chosen: 2 };
const { chosen, reference } = explored(5);
const curves: CompareCurvesData = {
  ...standing,
  around: null,
  variants: [reference, chosen].map(({ curve, modes }, i) => ({
    number: i + 1,
    name: `gap ${i}`,
    ...curve,
    modes,
  })),
};
const values: CompareChartData = {
  ...standing,
  title: "equivalent fundamental",
  unit: "cents",
  digits: 1,
  feltFrom: 3.5,
  variants: [
    { number: 1, name: "one", values: [2, 3, 4, 5].map((n) => ({ n, value: n })) },
    { number: 2, name: "two", values: [2, 3, 4, 5].map((n) => ({ n, value: n === 4 ? null : 2 * n })) },
    { number: 3, name: "a name that is far too long for any of the small charts to show", values: [] },
  ],
};
const bores: BoreDifferenceData = {
  ...standing,
  part: "leadpipe",
  variants: [
    { number: 1, name: "demo", profileMm: setup.leadpipe.profileMm },
    {
      number: 2,
      name: "longer",
      profileMm: [
        [5, 8.95],
        [255, 11.68],
      ],
    },
    { number: 3, name: "same", profileMm: setup.leadpipe.profileMm },
  ],
};
const errors: SensitivityData = {
  name: "1 demo",
  errorMm: 0.05,
  extentMm: 10,
  placesMm: [0, 80, 160, 240],
  modes: [
    { n: 2, change: [0.1, 0.05, -0.02, -0.01] },
    { n: 5, change: [0.3, -0.45, 0.1, 0.02] },
  ],
  quantity: "pitch",
  highlight: 5,
  feltFrom: 3.5,
};
const steps = [
  { start: 1, of: 2, step: 1, miss: 6, best: 6 },
  { start: 1, of: 2, step: 2, miss: 2, best: 2 },
  { start: 2, of: 2, step: 1, miss: 9, best: 2 },
];

const pictures: [name: string, svg: () => SVGSVGElement][] = [
  ["compare-curves", () => compareCurves(curves, { ...laptop, height: 340 }).svg],
  [
    "compare-curves-around-phone",
    () => compareCurves({ ...curves, around: 5 }, { ...phone, height: 340 }).svg,
  ],
  [
    "compare-chart",
    () => compareChart(values, { ...laptop, height: compareChartHeight(values, laptop.width) }).svg,
  ],
  [
    "compare-chart-phone",
    () => compareChart(values, { ...phone, height: compareChartHeight(values, phone.width) }).svg,
  ],
  [
    "bore-difference",
    () => boreDifference(bores, { ...laptop, height: boreDifferenceHeight(bores, laptop.width) }).svg,
  ],
  [
    "bore-difference-inches",
    () =>
      boreDifference(bores, { ...laptop, unit: "in", height: boreDifferenceHeight(bores, laptop.width) }).svg,
  ],
  ["sensitivity", () => sensitivityChart(errors, laptop).svg],
  ["design-steps", () => designChart(steps, laptop).svg],
];

test.each(pictures)("picture: %s", async (name, svg) => {
  const file = standaloneSvg(svg(), "light");
  expect(file).not.toMatch(/var\(|NaN|undefined|Infinity/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/plots/compare/${name}.svg`);
});

test("no two variants have the same sign, and none but the reference its dashes", () => {
  const stroke = (number: number) => strokeOf({ number, name: "" }, { reference: 99, chosen: 98 });
  const dashes = Array.from({ length: 12 }, (_, i) => stroke(i + 1)["stroke-dasharray"]);
  expect(new Set(dashes).size).toBe(12);
  expect(dashes).not.toContain(
    strokeOf({ number: 99, name: "" }, { reference: 99, chosen: 98 })["stroke-dasharray"],
  );
});

describe("|Z| of all", () => {
  test("has a curve and a sign in the key for each, the peaks named", () => {
    const { svg, x } = compareCurves(curves, { ...laptop, height: 340 });
    expect(svg.querySelectorAll("path[data-variant]")).toHaveLength(2);
    expect(text(svg)).toMatch(/1 gap 0[\s\S]*2 gap 1[\s\S]*\n5 E\n/);
    expect(x.domain()).toEqual([curves.variants[0].frequencies[0], curves.variants[0].frequencies.at(-1)]);
    expect(compareCurvesTable(curves).rows[7]).toEqual([
      reference.curve.frequencies[7],
      reference.curve.magnitude[7],
      chosen.curve.magnitude[7],
    ]);
    expect(comparePeaksTable(curves).rows[3]).toEqual([
      4,
      "",
      reference.modes[3].peakHz,
      reference.modes[3].peakImpedance! / 1e6,
      chosen.modes[3].peakHz,
      chosen.modes[3].peakImpedance! / 1e6,
    ]);
  });

  test("around one resonance shows it for every variant and says where it is", () => {
    const { svg, x } = compareCurves({ ...curves, around: 5 }, { ...laptop, height: 340 });
    const [low, high] = x.domain();
    expect(curves.variants).toHaveLength(2);
    for (const { modes } of curves.variants) {
      expect(modes[4].frequencyHz).toBeGreaterThan(low);
      expect(modes[4].frequencyHz).toBeLessThan(high);
      expect(modes[5].frequencyHz).toBeGreaterThan(high);
    }
    expect(description(svg)).toContain(`${reference.modes[4].frequencyHz.toFixed(1)} Hz`);
  });
});

describe("one quantity of every resonance", () => {
  test("a panel for each on one scale, the reference's drawn again, what is missing left out", () => {
    const { svg, y } = compareChart(values, { ...laptop, height: 500 });
    const panel = (number: number) => svg.querySelector(`[data-variant="${number}"]`)!;
    expect(panel(2).querySelectorAll("circle")).toHaveLength(3);
    expect(panel(2).querySelector("[data-part=reference]")!.getAttribute("stroke-dasharray")).toBeTruthy();
    expect(panel(2).querySelector("[data-part=felt]")).not.toBeNull();
    expect(panel(1).querySelector("[data-part=felt]")).toBeNull();
    expect(panel(3).querySelectorAll("circle")).toHaveLength(0);
    const at = (number: number, n: number) =>
      Number(panel(number).querySelector(`[data-n="${n}"]`)!.getAttribute("cy"));
    expect(y.invert(at(2, 3))).toBeCloseTo(6, 0);
    expect(y.invert(at(1, 5))).toBeCloseTo(5, 0);
    expect(compareChartTable(values).rows).toEqual([
      [2, "", 2, 4, ""],
      [3, "", 3, 6, ""],
      [4, "", 4, "", ""],
      [5, "", 5, 10, ""],
    ]);
  });

  test("says where each is farthest from the reference, and whether that is felt", () => {
    expect(description(compareChart(values, laptop).svg)).toMatch(
      /2 two: at most \+5\.0 cents at E \(5\); 3 a name.*nothing to compare/,
    );
    expect(description(compareChart({ ...values, feltFrom: 9 }, laptop).svg)).toMatch(
      /E \(5\), too small to notice/,
    );
  });
});

test("bores are drawn over one another, their differences below, as long as both are", () => {
  const { svg, x, y } = boreDifference(bores, { ...laptop, height: 500 });
  expect(svg.querySelectorAll("[data-part=wall]")).toHaveLength(3);
  const line = svg.querySelector('[data-part=difference][data-variant="2"]')!.getAttribute("d")!;
  const points = line
    .slice(1)
    .split("L")
    .map((point) => point.split(",").map(Number));
  expect(y.invert(points[0][1])).toBeCloseTo(0.2, 1);
  expect(x.invert(points.at(-1)![0])).toBeLessThanOrEqual(240.5);
  expect(description(svg)).toMatch(/2 longer is \+0\.\d+ mm wider at .* mm; 3 same is as wide throughout/);
  const { rows } = boreDifferenceTable(bores, "mm");
  expect(rows[0].slice(1)).toEqual([0, expect.closeTo(0.2, 6), 0]);
  expect(rows.at(-1)!.slice(1)).toEqual(["", "", ""]);
});

test("what an error does along the leadpipe is told where it does most", () => {
  const { svg, x, y } = sensitivityChart(errors, laptop);
  const rows = [...svg.querySelectorAll("g[data-resonance]")];
  // the highest note on top
  expect(rows.map((row) => row.getAttribute("data-resonance"))).toEqual(["5", "2"]);
  rows.forEach((row, i) => {
    const { change } = errors.modes.find(({ n }) => `${n}` === row.getAttribute("data-resonance"))!;
    const squares = [...row.querySelectorAll("rect")];
    expect(squares).toHaveLength(change.filter((by) => by !== 0).length);
    const number = (square: Element, name: string) => Number(square.getAttribute(name) ?? 0);
    const outer = squares.map((square) => number(square, "width") + number(square, "stroke-width"));
    change.forEach((by, place) => {
      const square = squares[place];
      // filled is up; the area is the change
      expect(square.getAttribute("fill")).toContain(by > 0 ? (i === 0 ? "--gap" : "--ink") : "--paper");
      expect((outer[place] / outer[0]) ** 2).toBeCloseTo(Math.abs(by / change[0]), 0);
      expect(number(square, "x") + number(square, "width") / 2).toBeCloseTo(x(errors.placesMm[place]), 0);
      expect(number(square, "y") + number(square, "height") / 2).toBeCloseTo(y(i + 0.5), 0);
      // all of it too small to notice
      expect(square.getAttribute("opacity")).toBe("0.45");
    });
  });
  const felt = sensitivityChart({ ...errors, feltFrom: 0.3 }, laptop).svg;
  const faint = [...felt.querySelectorAll("g[data-resonance] rect")].map((one) =>
    one.hasAttribute("opacity"),
  );
  expect(faint).toEqual(
    [...errors.modes].reverse().flatMap(({ change }) => change.map((by) => Math.abs(by) < 0.3)),
  );
  expect(description(svg)).toMatch(
    /0\.05 mm too wide moves E \(5\) most at 80\.00 mm .* by −0\.45 cents, too small to notice/,
  );
  expect(description(sensitivityChart({ ...errors, highlight: 9 }, laptop).svg)).toMatch(
    /high D \(9\) is not there/,
  );
  expect(sensitivityTable(errors, "mm").rows[1]).toEqual([80, 0.05, -0.45]);
});

test("a search is drawn step by step, and before its first step says so", () => {
  const { svg } = designChart(steps, laptop);
  expect(svg.querySelectorAll("path[data-start]")).toHaveLength(2);
  expect(description(svg)).toMatch(/3 steps, start 2 of 2; from 6\.00 to 2\.00/);
  expect(description(designChart([], laptop).svg)).toMatch(/No step/);
  expect(designTable(steps).rows[2]).toEqual([2, 1, 9, 2]);
});
