// @vitest-environment jsdom
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { planCut } from "../../../src/bench/cut/cut.ts";
import { cutQuestion } from "../../../src/bench/cut/cutSetup.ts";
import { type StagesData, stagesChart, stagesTable } from "../../../src/charts/plots/bench/stagesChart.ts";
import { description, laptop, setup, text } from "../examples.ts";

function stagesTo(targetMm: number, toleranceMm = 0.05): StagesData {
  const plan = planCut({
    ...cutQuestion(setup, { targetMm, toleranceMm, stopMmPerMark: 0.25, standardUncertaintyMm: 0.001 }),
  });
  return { targetMm, limitsMm: plan.limitsMm!, stages: plan.ways[0].stages };
}
const number = (element: Element, name: string) => Number(element.getAttribute(name));

describe("the gap after each stage", () => {
  test("is where the bench's stages are, each at most half of the way that remained", () => {
    for (const data of [stagesTo(1), stagesTo(4)]) {
      const { svg, y } = stagesChart(data, laptop);
      const circles = [...svg.querySelectorAll("circle")];
      expect(circles.map((circle) => y.invert(number(circle, "cy"))).length).toBe(data.stages.length);
      expect(circles).toHaveLength(5);
      circles.forEach((circle, i) => {
        const { gapBeforeMm, gapAfterMm } = data.stages[i];
        expect(y.invert(number(circle, "cy"))).toBeCloseTo(gapAfterMm, 2);
        expect(Math.abs(gapAfterMm - data.targetMm)).toBeGreaterThanOrEqual(
          Math.abs(gapBeforeMm - data.targetMm) / 2 - 1e-5,
        );
      });
    }
  });

  test("gives present gap, target and limits, on the drawing and in words", () => {
    const { svg } = stagesChart(stagesTo(2), laptop);
    expect(text(svg)).toContain("now 2.50 mm · 0.098 in");
    expect(text(svg)).toContain("target 2.00 mm · 0.079 in");
    expect(description(svg)).toMatch(/in 4 stages: 2\.28 mm, .*Done from 1\.95 to 2\.05 mm\./);
    expect(svg.querySelector("[data-part=limits]")).not.toBeNull();
    expect(text(stagesChart(stagesTo(2), { ...laptop, unit: "in" }).svg)).toContain("gap, in");
  });

  test("has a table of the same, in the unit shown", () => {
    const data = stagesTo(2);
    const { columns, rows } = stagesTable(data, "in");
    expect(columns[2]).toBe("gap after (in)");
    expect(rows.length).toBe(data.stages.length);
    expect(rows[1][2]).toBeCloseTo(data.stages[1].gapAfterMm / 25.4, 12);
    expect(rows[1][3]).toBeCloseTo((data.stages[1].gapAfterMm - 2) / 25.4, 12);
  });

  test("is whole on any sheet, with any number of stages, whose numbers do not stand on one another", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 220, max: 1500 }),
        fc.double({ min: 0, max: 24.5, noNaN: true }),
        fc.double({ min: 0.001, max: 0.5, noNaN: true }),
        (width, targetMm, toleranceMm) => {
          fc.pre(Math.abs(targetMm - 2.5) > toleranceMm);
          const { svg } = stagesChart(stagesTo(targetMm, toleranceMm), { ...laptop, width });
          expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
          const texts = [...svg.querySelectorAll("text")];
          const row = number(texts.find((one) => one.textContent === "now")!, "y");
          const places = texts.filter((one) => number(one, "y") === row).map((one) => number(one, "x"));
          expect(places.length).toBeGreaterThan(1);
          places.slice(1).forEach((at, i) => {
            expect(at - places[i]).toBeGreaterThanOrEqual(14);
          });
        },
      ),
      { numRuns: 60 },
    );
  });
});
