// @vitest-environment jsdom
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Drawing, Frame } from "../../../src/charts/kit/drawing.ts";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import type { Theme } from "../../../src/charts/kit/tokens.ts";
import { flowChart, flowHeight, flowTable } from "../../../src/charts/plots/flowChart.ts";
import { holdChart, holdTable } from "../../../src/charts/plots/gap/holdChart.ts";
import { type LeapData, leapChart, leapTable } from "../../../src/charts/plots/leapChart.ts";
import { levelChart, levelTable } from "../../../src/charts/plots/levelChart.ts";
import { slotChart, slotHeight, slotTable } from "../../../src/charts/plots/slotChart.ts";
import { wilsonInterval } from "../../../src/statistics/wilsonInterval.ts";
import { levelLoss } from "../../../src/study/blown/levelLoss.ts";
import { resistanceChange } from "../../../src/study/blown/resistanceChange.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { type GapSlots, slotSteps } from "../../../src/study/feel/slots.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { description, laptop, referenceGapMm, setup, text, thresholds } from "../examples.ts";

const instrument = new Instrument(setup, { modes: MODAL_COUNT });
const chosenGapMm = 5.04;
const slots = [...slotSteps(instrument, [referenceGapMm, 0, 3, chosenGapMm, 8], { referenceGapMm })];
const at = (gapMm: number) => slots.find((one) => one.gapMm === gapMm)!;
const both = { reference: at(referenceGapMm), chosen: at(chosenGapMm) };
const stream = resistanceChange(setup, { gapMm: chosenGapMm, referenceGapMm });
const [soft, wide] = levelLoss(instrument, {
  gapsMm: [referenceGapMm, chosenGapMm],
  levelsDb: [120, 140, 160],
});
const levels = { reference: soft, chosen: wide, highlight: 5 };
const holds = { slots, referenceGapMm, chosenGapMm, thresholds };
const point = (gapMm: number, missed: number, runs = 100) => ({
  gapMm,
  runs,
  missed,
  silent: 0,
  chance: missed / runs,
  interval: wilsonInterval(missed, runs),
});
const leaps: LeapData = {
  from: 4,
  to: 6,
  aimCents: 100,
  points: [point(0, 21), point(referenceGapMm, 18), point(4, 17), point(chosenGapMm, 12), point(8, 15)],
  chosenGapMm,
  referenceGapMm,
  domainMm: [0, 8],
};
const phone = { ...laptop, width: 360, height: 280 };
const tall = (frame: Frame, height: number): Frame => ({ ...frame, height });

const pictures: [name: string, drawing: () => Drawing, theme?: Theme][] = [
  ["plots/slots", () => slotChart(both, tall(laptop, slotHeight(both, laptop.width)))],
  ["plots/slots-phone-dark", () => slotChart(both, tall(phone, slotHeight(both, phone.width))), "dark"],
  ["plots/gap/hold", () => holdChart({ ...holds, highlight: 5 }, laptop)],
  ["plots/flow", () => flowChart(stream, tall(laptop, flowHeight(stream, laptop.width)))],
  ["plots/flow-phone-dark", () => flowChart(stream, tall(phone, flowHeight(stream, phone.width))), "dark"],
  ["plots/level", () => levelChart(levels, laptop)],
  ["plots/leap", () => leapChart(leaps, laptop)],
  ["plots/leap-phone-inches", () => leapChart(leaps, { ...phone, unit: "in" })],
];

test.each(pictures)("picture: %s", async (name, drawing, theme = "light") => {
  const file = standaloneSvg(drawing().svg, theme);
  expect(file).not.toMatch(/var\(|NaN|undefined|Infinity/);
  await expect(file).toMatchFileSnapshot(`../../snapshots/charts/${name}.svg`);
});

describe("slots", () => {
  const frame = tall(laptop, slotHeight(both, laptop.width));

  test("each bar stands over the lip frequencies that start the note, the reference's dashed", () => {
    const { svg, x } = slotChart(both, frame);
    expect(both.chosen.notes).toHaveLength(9);
    for (const { n, slot } of both.chosen.notes) {
      const origin = both.reference.notes.find((note) => note.n === n)!.slot!.centreHz;
      const bar = svg.querySelector(`[data-note="${n}"] [data-part=slot]`)!;
      const left = x.invert(Number(bar.getAttribute("x")));
      expect(left).toBeCloseTo(1200 * Math.log2(slot!.lipHz[0] / origin), 0);
      const dashed = svg.querySelector(`[data-note="${n}"] [data-part=reference]`)!;
      expect(dashed.getAttribute("stroke-dasharray")).toBeTruthy();
    }
    const { slotWidthCents, pull } = both.chosen.notes[0].slot!;
    expect(description(svg)).toContain(`low C (2) has a slot ${slotWidthCents.toFixed(0)} cents`);
    expect(text(svg)).toContain(pull.toFixed(2));
  });

  test("a note without a slot says so and keeps its row", () => {
    const lost: GapSlots = {
      ...both.chosen,
      notes: both.chosen.notes.map((note) => (note.n === 5 ? { ...note, slot: null } : note)),
    };
    const { svg } = slotChart({ ...both, chosen: lost }, frame);
    expect(text(svg)).toContain("never grows fastest");
    expect(svg.querySelectorAll("[data-note]")).toHaveLength(both.chosen.notes.length);
    expect(slotTable({ ...both, chosen: lost }).rows.find(([n]) => n === 5)).toContain("");
  });
});

test("the change of hold in its chart and table is that of the slots, 0 at the reference", () => {
  const { columns, rows } = holdTable(holds, "mm");
  expect(columns[0]).toBe("gap (mm)");
  expect(columns[1]).toBe("partial 2: change of slot width (cents)");
  expect(rows.map(([gap]) => gap)).toEqual([0, 2.5, 3, 5.04, 8]);
  expect(rows[1].slice(1)).toEqual(at(referenceGapMm).notes.map(() => 0));
  const [first] = at(8).notes;
  expect(rows[4][1]).toBeCloseTo(
    first.slot!.slotWidthCents - at(referenceGapMm).notes[0].slot!.slotWidthCents,
    9,
  );
  const said = description(holdChart(holds, laptop).svg);
  expect(said).toMatch(/change in width by .* on G on top of the staff \(6\)/);
  expect(said).not.toMatch(/resonance|slide/);
});

test("the stream's bars follow one another to the whole; the gap's figures are told apart", () => {
  const { svg, x } = flowChart(stream, tall(laptop, flowHeight(stream, laptop.width)));
  let lost = 0;
  expect(stream.chosen.parts).toHaveLength(7);
  for (const { part, dropPa } of stream.chosen.parts) {
    const bar = svg.querySelector(`rect[data-part=${part}]`)!;
    expect(x.invert(Number(bar.getAttribute("x")))).toBeCloseTo(lost, 0);
    lost += dropPa;
  }
  expect(lost).toBeCloseTo(stream.chosen.dropPa.estimate, 9);
  expect(description(svg)).toMatch(/The gap takes 1\.29 Pa, between 0\.13 Pa and 4\.52 Pa/);
  const rows = flowTable(stream, "in").rows.filter(([, part]) => part === "gap");
  expect(rows.map((row) => row[0])).toEqual(["what if", "compared with"]);
  const { lower, estimate, upper } = stream.chosen.gap.dropPa;
  expect(rows[0].slice(9, 12)).toEqual([lower, estimate, upper]);
  expect(rows[0][2]).toBeCloseTo(8.4 / 25.4, 9);
});

test("levels and leaps have all their numbers in tables, and the finding in words", () => {
  const [first] = wide.modes;
  expect(levelTable(levels).rows[0].slice(0, 4)).toEqual(["what if", first.n, "", 120]);
  expect(levelTable(levels).rows).toHaveLength(3 * (soft.modes.length + wide.modes.length));
  expect(description(levelChart(levels, laptop).svg)).toMatch(
    /From soft to 160 dB at the rim, [^.]*\(\d+\) changes most/,
  );
  expect(leapTable(leaps, "mm").rows[1].slice(0, 5)).toEqual([2.5, 100, 18, 0, 0.18]);
  expect(description(leapChart(leaps, laptop).svg)).toContain("12 of 100");
});

test("any sheet, any flow, any count is drawn whole", () => {
  const frames = fc.record({
    width: fc.integer({ min: 240, max: 2000 }),
    height: fc.integer({ min: 240, max: 900 }),
    unit: fc.constantFrom("mm" as const, "in" as const),
  });
  fc.assert(
    fc.property(
      frames,
      fc.oneof(fc.constant(0), fc.double({ min: 0.1, max: 60, noNaN: true })),
      fc.integer({ min: 0, max: 100 }),
      (frame, flow, n) => {
        const some = resistanceChange(setup, { gapMm: n / 10, referenceGapMm, litresPerMinute: flow });
        const drawings = [
          slotChart(both, frame),
          flowChart(some, frame),
          levelChart({ ...levels, highlight: n }, frame),
          levelChart({ reference: { gapMm: 1, modes: [] }, chosen: { gapMm: 1, modes: [] } }, frame),
          holdChart({ ...holds, chosenGapMm: n / 10, slots: slots.slice(0, 1 + (n % 5)) }, frame),
          leapChart({ ...leaps, points: [point(1, n)], chosenGapMm: n / 10 }, frame),
        ];
        for (const { svg } of drawings) expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
      },
    ),
    { numRuns: 20 },
  );
});
