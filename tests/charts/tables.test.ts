// @vitest-environment jsdom
import { expect, test } from "vitest";
import { cutawayTable } from "../../src/charts/drawings/cutawayWords.ts";
import { heightTable } from "../../src/charts/plots/gap/heightChart.ts";
import { shiftTable, spacingTable } from "../../src/charts/plots/gap/spacingChart.ts";
import { impedanceTable } from "../../src/charts/plots/impedanceChart.ts";
import { standingWaveTable } from "../../src/charts/plots/standingWaveChart.ts";
import { verdictTable } from "../../src/charts/plots/verdictBar.ts";
import { partialName } from "../../src/words/instruments.ts";
import { RULE } from "../../src/words/verdicts/rules.ts";
import { testName } from "../../src/words/verdicts/tests.ts";
import { asItIs, blown, explored, referenceGapMm, retuned, setup } from "./examples.ts";

test("the gap charts' tables are the sweep, in full precision, a row a gap", () => {
  const table = heightTable({ sweep: asItIs }, "mm");
  expect(table.columns.slice(0, 3)).toEqual([
    "gap (mm)",
    "slide drawn (mm)",
    "partial 1: change of peak height (dB)",
  ]);
  expect(table.rows).toEqual(
    asItIs.rows.map(({ gapMm, slideMm, modes }) => [
      gapMm,
      slideMm,
      ...modes.map(({ heightDb }) => heightDb),
    ]),
  );
  expect(shiftTable({ sweep: retuned }, "in").rows[3]).toEqual([
    retuned.rows[3].gapMm / 25.4,
    retuned.rows[3].slideMm / 25.4,
    ...retuned.rows[3].modes.map(({ shiftCents }) => shiftCents),
  ]);
  // the last resonance has no upper neighbour
  expect(spacingTable({ sweep: asItIs }, "mm").rows[0].at(-1)).toBe("");
});

test("impedance", () => {
  const { chosen, reference } = explored(4);
  const { columns, rows } = impedanceTable({ chosen, reference }, "mm");
  expect(columns[1]).toBe("|Z| what if, gap 4.00 mm (Pa·s/m³)");
  expect(rows).toHaveLength(chosen.curve.frequencies.length);
  expect(rows[700].slice(0, 3)).toEqual([
    chosen.curve.frequencies[700],
    chosen.curve.magnitude[700],
    reference.curve.magnitude[700],
  ]);
  expect(columns).toHaveLength(5);
  const both = impedanceTable(blown, "mm");
  expect(both.columns[5]).toBe("|Z| what if, gap 4.00 mm, still air (Pa·s/m³)");
  expect(both.rows[700][5]).toBe(blown.stillCurve!.magnitude[700]);
});

test("standing wave", () => {
  const { wave } = explored(4);
  const { rows } = standingWaveTable(wave, "in");
  expect(rows).toHaveLength(wave.xMm.length);
  expect(rows[30]).toEqual([
    wave.xMm[30] / 25.4,
    wave.diameterMm[30] / 25.4,
    wave.pressure[30],
    wave.flow[30],
  ]);
});

test("section", () => {
  const { columns, rows } = cutawayTable({ setup, chosenGapMm: 4, referenceGapMm }, "mm");
  expect(columns).toEqual(["dimension", "length (mm)"]);
  expect(rows.slice(0, 4)).toEqual([
    ["gap", 4],
    ["compared with", 2.5],
    ["receiver depth", setup.receiver.depthMm],
    ["insertion", setup.receiver.depthMm - 4],
  ]);
});

test("verdicts", () => {
  const { claim, tests } = explored(4).verdicts[0];
  const rule = RULE[claim];
  const known = tests.map((one) => ({
    ...one,
    changes: one.changes.map((change) => ({ ...change, expanded: 0.5 })),
  }));
  expect(
    verdictTable([{ rule, tests: known }], "b-flat-trumpet").rows.map((row) => [
      ...row.slice(0, 6),
      row.at(-1),
    ]),
  ).toEqual(
    tests.flatMap((test) =>
      test.changes.map(({ n, change }) => [
        testName(test),
        n,
        partialName(n, "b-flat-trumpet"),
        change,
        change - 0.5,
        change + 0.5,
        rule,
      ]),
    ),
  );
});
