// @vitest-environment jsdom
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { causesChart, causesTable, shareText } from "../../../src/charts/plots/bench/causesChart.ts";
import {
  type SpreadData,
  spreadChart,
  spreadHeight,
  spreadTable,
} from "../../../src/charts/plots/bench/spreadChart.ts";
import { description, laptop, text } from "../examples.ts";

const gap = (name: string, gapMm: number, extra = {}) => ({
  name,
  gapMm,
  standardUncertaintyMm: 0.16,
  isChosen: false,
  isOnLeadpipe: false,
  ...extra,
});
const row = (name: string, gapMm: number, extra = {}) => ({
  name,
  gaps: [gap("Brindle 1", gapMm, extra)],
  without: "",
});
const data: SpreadData = {
  of: "Brindle 1 over the instruments",
  rows: [
    row("Kettle Lane 1", 2.86),
    row("Kettle Lane 2", 2.01, { isChosen: true }),
    row("Kettle Lane 8 with a name far too long for its line", 1.44),
    { name: "Kettle Lane 10", gaps: [], without: "measure the receiver depth" },
    row("Kettle Lane 12", 0, { isOnLeadpipe: true, standardUncertaintyMm: undefined }),
  ],
  meanMm: 2.1,
  standardDeviationMm: 0.71,
  preferredMm: 2.5,
  words: "Over 3 instruments the gap runs from 1.44 mm to 2.86 mm.",
};
const frame = { ...laptop, height: spreadHeight(data, laptop.width) };
const causes = {
  of: "Brindle 1",
  causes: [
    { name: "receiver mouth diameter", varianceShare: 1.4, isTogether: false },
    { name: "receiver depth", varianceShare: 0.2, isTogether: false },
    { name: "together", varianceShare: -0.6, isTogether: true },
  ],
  words: "The dimensions make up for one another here.",
};

describe("the gaps on one axis", () => {
  test.each(["light", "dark"] as const)("picture, %s", async (theme) => {
    const file = standaloneSvg(spreadChart(data, frame).svg, theme);
    expect(file).not.toMatch(/var\(|NaN|undefined/);
    await expect(file).toMatchFileSnapshot(`../../snapshots/charts/plots/bench/spread-${theme}.svg`);
  });

  test("stand where their lengths are, the chosen one in the accent, one on the leadpipe open", () => {
    const { svg, x } = spreadChart(data, frame);
    const marks = [...svg.querySelectorAll("circle")];
    expect(marks.map((mark) => x.invert(Number(mark.getAttribute("cx"))))).toEqual(
      [2.86, 2.01, 1.44, 0].map((mm) => expect.closeTo(mm, 2)),
    );
    expect(marks[1].getAttribute("fill")).toContain("--gap");
    expect(marks[3].getAttribute("fill")).toContain("--paper");
    expect(text(svg)).toContain("measure the receiver depth");
    expect(text(svg)).toContain("preferred 2.50 mm · 0.098 in");
    expect(description(svg)).toBe(data.words);
  });

  test("in a table, each with its reason", () => {
    const { columns, rows } = spreadTable(data, "in");
    expect(columns[2]).toBe("gap (in)");
    expect(rows).toHaveLength(5);
    expect(rows[3]).toEqual(["Kettle Lane 10", "", "", "", "measure the receiver depth"]);
    expect(rows[4][4]).toBe("on the leadpipe");
    expect(rows[0][2]).toBeCloseTo(2.86 / 25.4, 12);
  });

  test("any, or none, are drawn whole", () => {
    const length = fc.double({ min: 0, max: 1000, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.array(length, { maxLength: 3 }), { maxLength: 6 }),
        fc.option(length, { nil: undefined }),
        fc.integer({ min: 240, max: 1600 }),
        (rows, preferredMm, width) => {
          const some = {
            ...data,
            preferredMm,
            meanMm: undefined,
            standardDeviationMm: undefined,
            rows: rows.map((gaps, i) => ({
              name: `${i}`,
              gaps: gaps.map((mm) => gap("m", mm)),
              without: "unknown",
            })),
          };
          const { svg } = spreadChart(some, { width, height: spreadHeight(some, width), unit: "in" });
          expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
        },
      ),
    );
  });
});

describe("the causes", () => {
  test("picture", async () => {
    const file = standaloneSvg(causesChart(causes, { ...laptop, height: 140 }).svg, "light");
    expect(file).not.toMatch(/var\(|NaN|undefined/);
    await expect(file).toMatchFileSnapshot("../../snapshots/charts/plots/bench/causes.svg");
  });

  test("go to either side of 0, and past 1, as far as their shares", () => {
    const { svg, x } = causesChart(causes, { ...laptop, height: 140 });
    const ends = causes.causes.map(({ name }) => {
      const d = svg.querySelector(`[data-cause="${name}"] path`)!.getAttribute("d")!;
      const xs = [...d.matchAll(/([\d.]+),/g)].map(([, at]) => x.invert(Number(at)));
      return [Math.min(...xs), Math.max(...xs)];
    });
    expect(ends).toEqual([
      [expect.closeTo(0, 2), expect.closeTo(1.4, 2)],
      [expect.closeTo(0, 2), expect.closeTo(0.2, 2)],
      [expect.closeTo(-0.6, 2), expect.closeTo(0, 2)],
    ]);
    expect(text(svg)).toContain("−60 %");
    expect(causesTable(causes).rows[2]).toEqual(["together", -0.6]);
    expect(shareText(-0.001)).toBe("0 %");
  });
});
