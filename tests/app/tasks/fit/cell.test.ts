import { interpolateRgb, rgb } from "d3";
import { describe, expect, test } from "vitest";
import {
  cellFigures,
  cellLabel,
  deepestShade,
  preferredWords,
  shadeOf,
  shadeReachMm,
} from "../../../../src/app/tasks/fit/cellWords.ts";
import { partTables } from "../../../../src/app/tasks/fit/partTables.ts";
import { sensitivityWords, spreadOf } from "../../../../src/app/tasks/fit/spreadOf.ts";
import { fitMatrix } from "../../../../src/bench/fit/fitMatrix.ts";
import { tokens } from "../../../../src/charts/kit/tokens.ts";

const mouthpieces = partTables.mouthpieces.read(partTables.mouthpieces.demoCsv, "demo");
const instruments = partTables.instruments.read(partTables.instruments.demoCsv, "demo");
const matrix = fitMatrix(mouthpieces, instruments, { preferredMm: 2.5 });

describe("a cell", () => {
  test("shows gap, uncertainty, and difference with sign and arrow, in either unit", () => {
    expect(cellFigures(matrix.cells[1][7], "mm")).toEqual({
      gap: "0.64",
      uncertainty: "± 0.16",
      difference: "▼ −1.86",
      isAlike: false,
      remark: "",
    });
    expect(cellFigures(matrix.cells[1][7], "in")).toMatchObject({ gap: "0.025", difference: "▼ −0.073" });
    expect(cellFigures(matrix.cells[0][6], "mm")).toMatchObject({ difference: "0.00", isAlike: true });
  });

  test("says what is no plain gap", () => {
    expect(cellFigures(matrix.cells[0][9], "mm")).toMatchObject({
      gap: "",
      remark: "measure the receiver depth",
    });
    expect(cellFigures(matrix.cells[0][11], "mm")).toMatchObject({ gap: "0.00", remark: "on the leadpipe" });
  });

  test("is told in one line", () => {
    expect(cellLabel(matrix.cells[0][2], "mm")).toBe(
      "gap 2.42 mm, standard uncertainty 0.16 mm, 0.08 mm less than preferred, same within measurement error",
    );
    expect(preferredWords(0.004, "mm")).toBe("as preferred");
  });

  test("is shaded by its distance, no deeper than ink can be read on", () => {
    const reachMm = shadeReachMm(matrix.cells);
    expect(matrix.cells.flat().length).toBeGreaterThanOrEqual(16);
    for (const cell of matrix.cells.flat()) expect(shadeOf(cell, reachMm)).toBeLessThanOrEqual(deepestShade);
    expect(shadeOf(matrix.cells[1][7], reachMm)).toBe(deepestShade);
    for (const theme of ["light", "dark", "print"] as const)
      for (const accent of ["gap", "reference"]) {
        const { paper, ink } = tokens[theme];
        const ground = interpolateRgb(paper, tokens[theme][accent])(deepestShade);
        expect(contrast(ink, ground), `${theme} ${accent}`).toBeGreaterThanOrEqual(4.5);
      }
  });
});

/** WCAG 2.2, contrast ratio. */
function contrast(one: string, other: string): number {
  const luminance = (colour: string) => {
    const { r, g, b } = rgb(colour);
    const [red, green, blue] = [r, g, b].map((c) =>
      c <= 10.31475 ? c / 3294.6 : ((c / 255 + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

describe("the spread", () => {
  const chosen = { mouthpiece: 0, instrument: 6 };

  test("over the instruments has a line each, the chosen one marked, and why one has no gap", () => {
    const { gaps, title, spread } = spreadOf(matrix, chosen, "mouthpiece", "mm");
    expect(title).toBe("Brindle 1 over the instruments");
    expect(spread).toBe(matrix.byMouthpiece[0]);
    expect(gaps.rows.map(({ name }) => name)).toEqual(matrix.instruments);
    expect(gaps.rows.flatMap(({ gaps }) => gaps).filter(({ isChosen }) => isChosen)).toMatchObject([
      { gapMm: matrix.cells[0][6].fit!.gapMm },
    ]);
    expect(gaps.rows[9]).toMatchObject({ gaps: [], without: "measure the receiver depth" });
    expect(gaps.rows[11].gaps[0].isOnLeadpipe).toBe(true);
  });

  test("over the mouthpieces, and over all", () => {
    expect(spreadOf(matrix, chosen, "instrument", "mm").gaps.rows).toHaveLength(5);
    const { gaps, causes } = spreadOf(matrix, chosen, "nothing", "mm");
    expect(gaps.rows.map(({ gaps }) => gaps.length)).toEqual([11, 11, 11, 11, 11]);
    expect(causes.causes.reduce((sum, { varianceShare }) => sum + varianceShare, 0)).toBeCloseTo(1, 9);
  });

  test("is put in plain words", () => {
    const cause = {
      cause: "mouthDiameterMm",
      sensitivity: -20,
      standardDeviation: 0.026,
      varianceShare: 1,
    } as const;
    expect(sensitivityWords(cause, "mm")).toEqual([
      "0.01 mm more receiver mouth diameter makes 0.20 mm less gap; it varies by 0.026 mm here (standard deviation).",
    ]);
    expect(sensitivityWords(cause, "in")).toEqual([
      "0.001 in more receiver mouth diameter makes 0.020 in less gap; it varies by 0.0010 in here (standard deviation).",
    ]);
    expect(sensitivityWords({ ...cause, cause: "together" }, "mm")).toEqual([]);
  });
});
