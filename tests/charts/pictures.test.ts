// @vitest-environment jsdom
/** Pictures a person can open; a change of any of them is to be looked at. */
import { expect, test } from "vitest";
import { cutaway } from "../../src/charts/drawings/cutaway.ts";
import type { Drawing } from "../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../src/charts/kit/exportSvg.ts";
import type { Theme } from "../../src/charts/kit/tokens.ts";
import { heightChart } from "../../src/charts/plots/gap/heightChart.ts";
import { shiftChart, spacingChart } from "../../src/charts/plots/gap/spacingChart.ts";
import { impedanceChart } from "../../src/charts/plots/impedanceChart.ts";
import { standingWaveChart } from "../../src/charts/plots/standingWaveChart.ts";
import { verdictBar } from "../../src/charts/plots/verdictBar.ts";
import { asItIs, blown, explored, laptop, referenceGapMm, retuned, setup, thresholds } from "./examples.ts";

const phone = { ...laptop, width: 360, height: 280 };
const section = (chosenGapMm: number) => ({ setup, chosenGapMm, referenceGapMm });
const gaps = { chosenGapMm: 4, thresholds };

const pictures: [name: string, drawing: () => Drawing, theme?: Theme][] = [
  ["drawings/cutaway", () => cutaway(section(4), { width: 1200, height: 260, unit: "mm" })],
  [
    "drawings/cutaway-dark-inches",
    () => cutaway(section(1.5), { width: 1900, height: 260, unit: "in" }),
    "dark",
  ],
  ["drawings/cutaway-closed", () => cutaway(section(0), { width: 1200, height: 260, unit: "mm" })],
  ["drawings/cutaway-phone-12mm", () => cutaway(section(12), { ...phone, height: 260 })],
  ["plots/impedance", () => impedanceChart(explored(4), { ...laptop, width: 780 })],
  [
    "plots/impedance-12mm",
    () => impedanceChart({ ...explored(12), highlight: 4, cursorHz: 466.2 }, { ...laptop, width: 780 }),
  ],
  [
    "plots/impedance-decibels-phone",
    () => impedanceChart({ ...explored(4), cursorHz: 500 }, { ...phone, magnitude: "dB" }),
  ],
  ["plots/impedance-blown", () => impedanceChart(blown, { ...laptop, width: 780 })],
  ["plots/impedance-blown-phone", () => impedanceChart(blown, phone)],
  ["plots/gap/height", () => heightChart({ ...gaps, sweep: asItIs }, laptop)],
  [
    "plots/gap/height-phone",
    () => heightChart({ ...gaps, sweep: asItIs, highlight: 5, cursorGapMm: 9 }, phone),
  ],
  ["plots/gap/height-dark", () => heightChart({ ...gaps, sweep: asItIs }, { ...laptop, unit: "in" }), "dark"],
  ["plots/gap/shift", () => shiftChart({ ...gaps, sweep: asItIs }, laptop)],
  ["plots/gap/shift-retuned", () => shiftChart({ ...gaps, sweep: retuned }, laptop)],
  ["plots/gap/spacing-print", () => spacingChart({ ...gaps, sweep: asItIs }, laptop), "print"],
  ["plots/standing-wave", () => standingWaveChart(explored(4).wave, { ...laptop, width: 400 })],
  [
    "plots/verdict",
    () =>
      verdictBar(explored(12).verdicts[0].tests[0], {
        width: 260,
        height: 44,
        unit: "mm",
        instrument: "b-flat-trumpet",
      }),
  ],
];

test.each(pictures)("%s", async (name, drawing, theme = "light") => {
  const file = standaloneSvg(drawing().svg, theme);
  expect(file).not.toMatch(/var\(|NaN|undefined/);
  await expect(file).toMatchFileSnapshot(`../snapshots/charts/${name}.svg`);
});
