// @vitest-environment jsdom
import { describe, expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import {
  type DeviationData,
  deviationChart,
  deviationHeight,
  deviationTable,
} from "../../../src/charts/plots/compare/deviationChart.ts";
import {
  type MeasuredChartData,
  measuredChart,
  measuredChartHeight,
  measuredChartTable,
} from "../../../src/charts/plots/compare/measuredChart.ts";
import { description, explored, laptop, text } from "../examples.ts";

const phone = { ...laptop, width: 340 };
const data: DeviationData = {
  title: "Plane waves less curved fronts",
  unit: "cents",
  digits: 1,
  feltFrom: 3.5,
  series: [
    { name: "pitch", kind: "before", values: [2, 3, 4, 5].map((n) => ({ n, value: 5 * (n - 2) })) },
    {
      name: "what the gap does",
      kind: "after",
      values: [2, 3, 4].map((n) => ({ n, value: n === 3 ? null : -0.2 })),
    },
  ],
};
const { chosen, reference } = explored(5);
const peaks = reference.modes.map(({ n, frequencyHz }) => ({ n, hz: frequencyHz }));
const overlay: MeasuredChartData = {
  frequencies: reference.curve.frequencies,
  measured: chosen.curve.magnitude,
  model: reference.curve.magnitude,
  fitted: null,
  apartDb: 0.53,
  fittedDb: null,
  peaks,
};
const fitted = { ...overlay, fitted: chosen.curve.magnitude, fittedDb: 0.092 };
const nobody: DeviationData = { ...data, series: [{ ...data.series[0], values: [] }] };

const pictures: [name: string, svg: () => SVGSVGElement][] = [
  ["deviations", () => deviationChart(data, { ...laptop, height: deviationHeight(data, laptop.width) }).svg],
  ["deviations-phone", () => deviationChart(data, { ...phone, height: deviationHeight(data, 340) }).svg],
  ["measured", () => measuredChart(overlay, { ...laptop, height: measuredChartHeight(laptop.width) }).svg],
  ["measured-fitted-phone", () => measuredChart(fitted, { ...phone, height: measuredChartHeight(340) }).svg],
];

test.each(pictures)("picture: %s", async (name, svg) => {
  const file = standaloneSvg(svg(), "light");
  expect(file).not.toMatch(/var\(|NaN|undefined|Infinity/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/plots/compare/${name}.svg`);
});

describe("how far resonances are off", () => {
  test("has a mark for every value, in its place, and none where there is none", () => {
    const { svg, x, y } = deviationChart(data, { ...laptop, height: 300 });
    const dots = [...svg.querySelectorAll("[data-series] circle")];
    expect(dots).toHaveLength(6);
    expect(Number(dots[3].getAttribute("cx"))).toBeCloseTo(x(5), 0);
    expect(Number(dots[3].getAttribute("cy"))).toBeCloseTo(y(15), 0);
    // the two are told apart without colour
    const [before, after] = svg.querySelectorAll("[data-series] path");
    expect(before.getAttribute("stroke-dasharray")).not.toBeNull();
    expect(after.getAttribute("stroke-dasharray")).toBeNull();
  });

  test("says the largest of each, and whether it is felt", () => {
    const { svg } = deviationChart(data, { ...laptop, height: 300 });
    expect(description(svg)).toBe(
      "Plane waves less curved fronts. pitch: at most +15.0 cents at E (5); " +
        "what the gap does: at most −0.2 cents at low C (2), too small to notice.",
    );
    const empty = deviationChart(nobody, { ...laptop, height: 300 }).svg;
    expect(description(empty)).toMatch(/pitch: none could be told/);
    expect(empty.outerHTML).not.toMatch(/NaN|Infinity/);
  });

  test("has its numbers as a table", () => {
    expect(deviationTable(data).rows).toEqual([
      [2, "", 0, -0.2],
      [3, "", 5, ""],
      [4, "", 10, -0.2],
      [5, "", 15, ""],
    ]);
  });
});

describe("a measurement over the model", () => {
  test("draws two lines, three when fitted, numbers the peaks and says how far they are apart", () => {
    const { svg } = measuredChart(overlay, { ...laptop, height: 340 });
    expect(svg.querySelectorAll("path[data-part]")).toHaveLength(2);
    expect(text(svg)).toMatch(/\n5 E\n/);
    expect(description(svg)).toMatch(/apart from the model by 0\.53 dB root mean square\.$/);
    const with_ = measuredChart(fitted, { ...laptop, height: 340 }).svg;
    expect(with_.querySelectorAll("path[data-part]")).toHaveLength(3);
    expect(description(with_)).toMatch(/from the fitted one by 0\.092 dB\.$/);
    expect(measuredChartTable(fitted).rows[7]).toEqual([
      reference.curve.frequencies[7],
      chosen.curve.magnitude[7],
      reference.curve.magnitude[7],
      chosen.curve.magnitude[7],
    ]);
    expect(measuredChartTable(overlay).columns).toHaveLength(3);
  });
});
