// @vitest-environment jsdom
/** What a drawing says to who cannot see it, and the numbers written on it. */
import { expect, test } from "vitest";
import { cutaway } from "../../src/charts/drawings/cutaway.ts";
import { tickText } from "../../src/charts/kit/numbers.ts";
import { heightChart } from "../../src/charts/plots/gap/heightChart.ts";
import { shiftChart, spacingChart } from "../../src/charts/plots/gap/spacingChart.ts";
import { impedanceChart } from "../../src/charts/plots/impedanceChart.ts";
import { standingWaveChart } from "../../src/charts/plots/standingWaveChart.ts";
import { verdictBar } from "../../src/charts/plots/verdictBar.ts";
import { noteText } from "../../src/words/instruments.ts";
import { signed } from "../../src/words/numbers.ts";
import {
  asItIs,
  blown,
  description,
  explored,
  laptop,
  referenceGapMm,
  retuned,
  setup,
  text,
  thresholds,
} from "./examples.ts";

const gaps = { sweep: asItIs, chosenGapMm: 4, thresholds };

test("the section gives gap, insertion and depth, and warns of the shoulder gap", () => {
  const { svg } = cutaway(
    { setup, chosenGapMm: 4, referenceGapMm },
    { width: 1200, height: 260, unit: "mm" },
  );
  expect(description(svg)).toContain("20.50 mm into a receiver 24.50 mm deep");
  expect(description(svg)).toContain("4.00 mm · 0.157 in");
  expect(description(svg)).toContain("1.50 mm wider than the one compared with, 2.50 mm · 0.098 in");
  expect(text(svg)).toContain("gap 4.00 mm · 0.157 in");
  expect(text(svg)).toContain("insertion 20.50 mm");
  expect(text(svg)).toContain("shoulder gap — not the gap");
});

test("height: the extremes over the played resonances, against the threshold", () => {
  const row = asItIs.rows.find(({ gapMm }) => gapMm === 4)!;
  const played = row.modes.filter(({ n }) => n >= 2 && n <= 10).sort((a, b) => a.heightDb! - b.heightDb!);
  const said = description(heightChart(gaps, laptop).svg);
  for (const mode of [played[0], played[8]])
    expect(said).toContain(`${signed(mode.heightDb!, 2)} dB on ${noteText(mode.n, "b-flat-trumpet")}`);
  expect(said).toContain("All are within ±1 dB: too small to notice.");
  expect(said).toContain("wider means taller");
});

test("shift at a wide gap is felt, and says of which resonances", () => {
  expect(description(shiftChart({ ...gaps, chosenGapMm: 12 }, laptop).svg)).toContain(
    "where a player may notice: low C (2), G (3), C in the staff (4), E (5), G on top of the staff (6), flat B♭ (7), high C (8), high D (9), high E (10).",
  );
});

test("the retuned view names its resonance and what the slide does", () => {
  const { svg } = spacingChart({ ...gaps, sweep: retuned }, laptop);
  expect(text(svg)).toContain("slide set again on C in the staff (4)");
  expect(text(svg)).toMatch(/4\.00 mm, slide in \d\.\d mm/);
});

test("impedance: the tallest peak, here and at the reference", () => {
  const { chosen, reference } = explored(4);
  const said = description(impedanceChart({ chosen, reference }, laptop).svg);
  const tallest = chosen.modes.reduce((a, b) => (a.peakImpedance! > b.peakImpedance! ? a : b));
  expect(said).toContain(`${noteText(tallest.n, "b-flat-trumpet")} at ${tallest.peakHz!.toFixed(1)} Hz`);
  expect(said).toContain(`${reference.modes[tallest.n - 1].peakHz!.toFixed(1)} Hz`);
  expect(said).not.toContain("still air");
  expect(description(impedanceChart(blown, laptop).svg)).toMatch(
    /All of this is blown; in still air the highest impedance at this gap is \d+\.\d MPa/,
  );
});

test("the read-out line gives frequency, note and size", () => {
  const { svg } = impedanceChart({ ...explored(4), cursorHz: 466.16 }, { ...laptop, width: 800 });
  expect(svg.querySelector(".cursor text")?.textContent).toMatch(
    /^466\.2 Hz · C5 0 cents · \d+\.\d MPa·s\/m³$/,
  );
});

test("standing wave and verdict", () => {
  const { wave, verdicts } = explored(4);
  expect(description(standingWaveChart(wave, laptop).svg)).toContain(
    `pressure is ${Math.round(100 * wave.atGap.pressure)} % and flow ${Math.round(100 * wave.atGap.flow)} %`,
  );
  const [one] = verdicts[0].tests;
  expect(
    description(verdictBar(one, { width: 260, height: 44, unit: "mm", instrument: "b-flat-trumpet" }).svg),
  ).toContain(`to ${signed(Math.max(...one.changes.map(({ change }) => change)), 2)} dB on `);
});

test("a mark's number is as short as it can be", () => {
  expect(tickText(0.1 + 0.2, true)).toBe("+0.3");
});
