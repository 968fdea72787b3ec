// @vitest-environment jsdom
/** Whatever the size of the sheet and whatever is missing, a drawing is whole. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cutaway } from "../../src/charts/drawings/cutaway.ts";
import type { Drawing, Frame } from "../../src/charts/kit/drawing.ts";
import { heightChart } from "../../src/charts/plots/gap/heightChart.ts";
import { shiftChart, spacingChart } from "../../src/charts/plots/gap/spacingChart.ts";
import { impedanceChart } from "../../src/charts/plots/impedanceChart.ts";
import { standingWaveChart } from "../../src/charts/plots/standingWaveChart.ts";
import { verdictBar } from "../../src/charts/plots/verdictBar.ts";
import type { GapSweep } from "../../src/study/instrument/gapSweep.ts";
import { asItIs, explored, referenceGapMm, setup, thresholds } from "./examples.ts";

const frames: fc.Arbitrary<Frame> = fc.record({
  width: fc.integer({ min: 200, max: 2000 }),
  height: fc.integer({ min: 200, max: 2000 }),
  unit: fc.constantFrom("mm", "in"),
});
const gaps = fc.integer({ min: 0, max: 1200 }).map((hundredths) => hundredths / 100);

/** Every position `scale` gives comes back, and nothing on the sheet is not a number. */
function checkWhole({ svg, x, y }: Drawing): void {
  expect(svg.outerHTML).not.toMatch(/NaN|undefined|Infinity|null/);
  for (const scale of [x, y])
    for (const value of scale.domain()) expect(scale.invert(scale(value))).toBeCloseTo(value, 6);
}

const without = (sweep: GapSweep, missing: readonly boolean[]): GapSweep => ({
  ...sweep,
  rows: sweep.rows.map((row, i) => ({
    ...row,
    modes: row.modes.map((mode, j) =>
      missing[(i * 5 + j) % missing.length] ? { ...mode, heightDb: null, spacingChangeCents: null } : mode,
    ),
  })),
});

describe("any sheet, any gap", () => {
  test("the section", () => {
    fc.assert(
      fc.property(frames, gaps, gaps, (frame, chosenGapMm, reference) => {
        const drawing = cutaway({ setup, chosenGapMm, referenceGapMm: reference }, frame);
        checkWhole(drawing);
        const pxPerMm = drawing.x(1) - drawing.x(0);
        expect(drawing.y(0) - drawing.y(1)).toBeCloseTo(pxPerMm, 6);
        expect(drawing.mmPerPx * pxPerMm).toBeCloseTo(1, 9);
      }),
      { numRuns: 60 },
    );
  });

  test("the section of other instruments, with what need not be given left out", () => {
    const receivers = fc.record({
      mouthDiameterMm: fc.double({ min: 10, max: 16, noNaN: true }),
      taper: fc.double({ min: 0, max: 0.06, noNaN: true }),
      depthMm: fc.double({ min: 12, max: 40, noNaN: true }),
    });
    const { profileMm, insertionMm } = setup.mouthpiece;
    fc.assert(
      fc.property(frames, receivers, gaps, fc.boolean(), (frame, receiver, chosenGapMm, bare) => {
        const mouthpiece = bare ? { profileMm, insertionMm } : setup.mouthpiece;
        checkWhole(
          cutaway({ setup: { ...setup, receiver, mouthpiece }, chosenGapMm, referenceGapMm }, frame),
        );
      }),
      { numRuns: 60 },
    );
  });

  test("the charts over the gap, with values missing", () => {
    const missing = fc.array(fc.boolean(), { minLength: 1, maxLength: 40 });
    const highlights = fc.option(fc.integer({ min: 1, max: 12 }), { nil: undefined });
    fc.assert(
      fc.property(frames, gaps, missing, highlights, (frame, chosenGapMm, mask, highlight) => {
        const data = {
          sweep: without(asItIs, mask),
          chosenGapMm,
          thresholds,
          cursorGapMm: 12 - chosenGapMm,
          ...(highlight !== undefined && { highlight }),
        };
        for (const chart of [heightChart, shiftChart, spacingChart]) checkWhole(chart(data, frame));
      }),
      { numRuns: 25 },
    );
  });

  test("impedance, wave and verdicts", () => {
    fc.assert(
      fc.property(
        frames,
        gaps,
        fc.integer({ min: 1, max: 12 }),
        fc.boolean(),
        (frame, gapMm, resonance, inDb) => {
          const { reference, chosen, wave, verdicts } = explored(gapMm, resonance);
          const peakless = {
            ...chosen,
            modes: chosen.modes.map((mode) =>
              mode.n % 3 ? mode : { ...mode, peakHz: null, peakImpedance: null },
            ),
          };
          checkWhole(
            impedanceChart(
              { reference, chosen: peakless, cursorHz: 100 * resonance, highlight: resonance },
              { ...frame, magnitude: inDb ? "dB" : "linear" },
            ),
          );
          checkWhole(standingWaveChart(wave, frame));
          for (const one of verdicts.flatMap(({ tests }) => tests))
            checkWhole(verdictBar(one, { ...frame, height: 44 }));
        },
      ),
      { numRuns: 25 },
    );
  });
});

test("a sweep that has only begun, or found nothing, is drawn", () => {
  const frame = { width: 500, height: 300, unit: "mm" } as const;
  for (const rows of [[], asItIs.rows.slice(0, 1)])
    checkWhole(heightChart({ sweep: { ...asItIs, rows }, chosenGapMm: referenceGapMm, thresholds }, frame));
});

test("a missing value leaves a gap in its line, not a bridge", () => {
  const rows = asItIs.rows.map((row) => ({
    ...row,
    modes: row.modes.map((mode) => (mode.n === 5 && row.gapMm === 6 ? { ...mode, heightDb: null } : mode)),
  }));
  const chart = heightChart(
    { sweep: { ...asItIs, rows }, chosenGapMm: 4, thresholds, highlight: 5 },
    { width: 500, height: 300, unit: "mm" },
  );
  const moves = (n: number) =>
    chart.svg.querySelector(`[data-resonance="${n}"]`)?.getAttribute("d")?.match(/M/g)?.length;
  expect(moves(5)).toBe(2);
  expect(moves(8)).toBe(1);
});
