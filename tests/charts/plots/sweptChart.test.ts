// @vitest-environment jsdom
/** Shifts from sweeps beside the model's. */
import { describe, expect, it } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { sweptChart, sweptFigure, sweptTable } from "../../../src/charts/plots/swept/sweptChart.ts";
import { besideModel } from "../../../src/study/swept/besideModel.ts";
import { sweptChange } from "../../../src/study/swept/sweptChange.ts";
import { AFTER_MM, takesOf } from "../../study/swept/takes.ts";
import { description, explored as exploredAt, laptop, text } from "../examples.ts";

const shifts = [-1.2, -1.9, -2.4, -2.8, -3.1, -3.2, -3.1, -2.9, -2.6];
exploredAt(AFTER_MM);
const explored = exploredAt(AFTER_MM);
const swept = sweptChange(takesOf({ order: "ABABAB", shifts, scatter: 0.2 }))!;
const chart = { swept, beside: besideModel(swept, explored) };

describe("the chart of shifts", () => {
  it("has an open diamond with its interval for each resonance, and the model's dot beside it", () => {
    const { svg, y } = sweptChart(chart, laptop);
    const measured = svg.querySelectorAll("[data-part=measured]");
    expect(measured).toHaveLength(9);
    const named = chart.beside.resonances.filter(({ model }) => model !== null).length;
    expect(named).toBeGreaterThan(5);
    expect(svg.querySelectorAll("[data-part=model]")).toHaveLength(named);
    expect(description(svg)).toMatch(/^From 2\.50 mm to 5\.00 mm: \d of 9 resonances moved/);
    expect(text(svg)).toContain("shift, cents");
    expect(y(0)).toBeGreaterThan(y(1));
    expect(svg.outerHTML).not.toMatch(/NaN|undefined/);
  });

  it("is a picture to look at", async () => {
    for (const [name, width] of [
      ["swept", 600],
      ["swept-phone", 360],
    ] as const)
      await expect(standaloneSvg(sweptChart(chart, { ...laptop, width }).svg, "light")).toMatchFileSnapshot(
        `../../snapshots/charts/plots/swept/${name}.svg`,
      );
  });

  it("goes by frequencies where the model knows none of them, and draws one or none", () => {
    const alone = { swept, beside: besideModel(swept, null) };
    expect(text(sweptChart(alone, laptop).svg)).toContain("resonance, Hz");
    expect(sweptChart(alone, laptop).svg.querySelectorAll("[data-part=model]")).toHaveLength(0);
    for (const count of [0, 1]) {
      const few = { swept, beside: { ...chart.beside, resonances: chart.beside.resonances.slice(0, count) } };
      expect(sweptChart(few, laptop).svg.outerHTML).not.toMatch(/NaN|undefined/);
    }
  });

  it("has every number in its table", () => {
    const { columns, rows } = sweptTable(chart, "mm", "b-flat-trumpet");
    expect(columns.slice(2, 5)).toEqual(["frequency before (Hz)", "shift (cents)", "± 95 % (cents)"]);
    expect(rows).toHaveLength(9);
    expect(rows[4][3]).toBe(chart.beside.resonances[4].shift.value);
    expect(sweptFigure.caption(null, "mm")).toBe("");
  });
});
