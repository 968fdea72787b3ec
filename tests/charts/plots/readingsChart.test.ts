// @vitest-environment jsdom
/** The readings as dots, and the gap's interval against contact. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Frame } from "../../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import {
  type GapInterval,
  gapIntervalChart,
  gapIntervalTable,
} from "../../../src/charts/plots/bench/gapIntervalChart.ts";
import {
  type LengthReadings,
  readingsChart,
  readingsTable,
} from "../../../src/charts/plots/bench/readingsChart.ts";
import {
  decimals,
  lengthSpan,
  plusMinus,
  standardUncertaintyText,
} from "../../../src/units/uncertainLength.ts";
import { description, text } from "../examples.ts";

const frame: Frame = { width: 560, height: 250, unit: "mm" };
const depth: LengthReadings = {
  name: "receiver depth",
  readingsMm: [24.53, 24.54, 24.55, 24.54, 24.95],
  meanMm: 24.622,
  expandedMm: 0.22,
  outlier: 4,
};
const insertion: LengthReadings = {
  name: "insertion",
  readingsMm: [22, 22.02, 22],
  meanMm: 22.0067,
  expandedMm: 0.029,
  outlier: undefined,
};

test("every reading is a dot; the one that stands apart has a shape and words of its own", async () => {
  const { svg } = readingsChart([depth, insertion], frame);
  expect(svg.querySelectorAll("circle")).toHaveLength(7);
  expect(svg.querySelectorAll("path.outlier")).toHaveLength(1);
  expect(text(svg)).toContain("number 5 stands apart");
  expect(description(svg)).toContain("receiver depth: 5 readings about a mean of 24.62 ± 0.22 mm");
  expect(description(svg)).toContain("Number 5 stands apart, +0.33 mm from the mean");
  const file = standaloneSvg(svg, "light");
  expect(file).not.toMatch(/var\(|NaN|undefined/);
  await expect(file).toMatchFileSnapshot("../../snapshots/charts/plots/bench/readings.svg");
});

test("equal readings stand on one another and none is hidden", () => {
  const { svg } = readingsChart([depth, insertion], frame);
  const places = Array.from(
    svg.querySelectorAll("circle"),
    (dot) => `${dot.getAttribute("cx")},${dot.getAttribute("cy")}`,
  );
  expect(new Set(places).size).toBe(7);
});

test("the table has what was read", () => {
  const { rows } = readingsTable([depth], "in");
  expect(rows).toHaveLength(5);
  expect(rows[4]).toEqual(["receiver depth", 5, 24.95 / 25.4, (24.95 - 24.622) / 25.4, "stands apart"]);
});

describe("the gap's interval", () => {
  const data: GapInterval = { gapMm: 2.54, expandedMm: 0.031, setupGapMm: 2.5 };

  test("is drawn, and said, against contact and the setup", async () => {
    const { svg, x } = gapIntervalChart(data, frame);
    expect(x(2.54)).toBeGreaterThan(x(0));
    expect(text(svg)).toContain("gap 2.54 ± 0.03 mm");
    expect(text(svg)).toContain("open setup 2.50 mm");
    expect(description(svg)).toMatch(/from 2\.51 to 2\.57 mm\. It is clear of contact at 0/);
    await expect(standaloneSvg(svg, "light")).toMatchFileSnapshot(
      "../../snapshots/charts/plots/bench/gap-interval.svg",
    );
  });

  test.each([
    [{ gapMm: 0.1, expandedMm: 0.3 }, /reaches contact/],
    [{ gapMm: -2, expandedMm: 0.3 }, /from −2\.3 to −1\.7 mm\. All of it is below 0/],
    [{ gapMm: 2, expandedMm: undefined }, /cannot tell how well/],
  ])("%j", (part, words) => {
    expect(description(gapIntervalChart({ ...data, ...part }, frame).svg)).toMatch(words);
  });

  test("leaves blank in its table what is unknown", () => {
    expect(gapIntervalTable({ ...data, expandedMm: undefined }, "mm").rows.map(([, value]) => value)).toEqual(
      [2.54, "", "", 2.5],
    );
  });
});

test("any readings on any sheet are drawn whole", () => {
  const frames: fc.Arbitrary<Frame> = fc.record({
    width: fc.integer({ min: 240, max: 1600 }),
    height: fc.integer({ min: 160, max: 500 }),
    unit: fc.constantFrom("mm", "in"),
  });
  const lengths = fc.double({ min: 0, max: 40, noNaN: true });
  const known = fc.option(fc.double({ min: 1e-6, max: 5, noNaN: true }), { nil: undefined });
  fc.assert(
    fc.property(
      frames,
      fc.array(lengths, { minLength: 1, maxLength: 30 }),
      known,
      lengths,
      (at, readingsMm, expandedMm, setupGapMm) => {
        const meanMm = readingsMm.reduce((sum, one) => sum + one, 0) / readingsMm.length;
        const row = { name: "insertion", readingsMm, meanMm, expandedMm, outlier: readingsMm.length - 1 };
        const charts = [
          readingsChart([row, row], at).svg,
          gapIntervalChart({ gapMm: meanMm - 20, expandedMm, setupGapMm }, at).svg,
        ];
        for (const svg of charts) expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity/);
        for (const dot of charts[0].querySelectorAll("circle")) {
          expect(Number(dot.getAttribute("cx"))).toBeGreaterThanOrEqual(0);
          expect(Number(dot.getAttribute("cx"))).toBeLessThanOrEqual(at.width);
          expect(Number(dot.getAttribute("cy"))).toBeGreaterThan(0);
        }
      },
    ),
    { numRuns: 60 },
  );
});

describe("lengths with their uncertainty", () => {
  test.each([
    [2.5368, 0.031, "mm", "2.54 ± 0.03 mm"],
    [2.5368, 0.0249, "mm", "2.537 ± 0.025 mm"],
    [2.5368, 0.012, "mm", "2.537 ± 0.012 mm"],
    [2.54, 0.031, "in", "0.1000 ± 0.0012 in"],
    [-0.04, 0.3, "mm", "0.0 ± 0.3 mm"],
    [-2, 0.3, "mm", "−2.0 ± 0.3 mm"],
    [12.4, 31, "mm", "12 ± 31 mm"],
    [2.54, undefined, "in", "0.100 in"],
  ] as const)("%d ± %d in %s is %s", (lengthMm, expandedMm, unit, words) => {
    expect(plusMinus(lengthMm, expandedMm, unit)).toBe(words);
  });

  test("rounding takes less than a sixth of an uncertainty", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-3, max: 5, noNaN: true }),
        fc.constantFrom("mm" as const, "in" as const),
        (expandedMm, unit) => {
          const length = unit === "mm" ? expandedMm : expandedMm / 25.4;
          expect(Math.abs(Number(length.toFixed(decimals(expandedMm, unit))) - length)).toBeLessThan(
            length / 5.9,
          );
        },
      ),
    );
  });

  test("spans and standard uncertainties", () => {
    expect(lengthSpan([-0.2, 0.4], 0.3, "mm")).toBe("−0.2 to 0.4 mm");
    expect(standardUncertaintyText(0.012345, "mm")).toBe("0.012 mm");
    expect(standardUncertaintyText(0.012345, "in")).toBe("0.00049 in");
    expect(standardUncertaintyText(0, "mm")).toBe("0 mm");
  });
});
