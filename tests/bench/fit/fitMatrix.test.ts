import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fitDimensions } from "../../../src/bench/fit/fitDimensions.ts";
import { fitMatrix } from "../../../src/bench/fit/fitMatrix.ts";
import type { InstrumentPart, MouthpiecePart } from "../../../src/bench/fit/part.ts";
import {
  CsvError,
  instrumentsCsv,
  mouthpiecesCsv,
  readInstruments,
  readMouthpieces,
} from "../../../src/bench/fit/partsCsv.ts";
import { fitCellWords } from "../../../src/words/bench/fit.ts";
import { fitMatrixCsv } from "../../../src/words/bench/fitMatrixCsv.ts";
import { spreadWords } from "../../../src/words/bench/fitSpread.ts";
import { anyNumber, notNumbers } from "./anyFit.ts";

const shared = (name: string) => readFileSync(new URL(`../../../shared/${name}`, import.meta.url), "utf8");
const mouthpieces = readMouthpieces(shared("demo.bench.mouthpieces.csv"));
const instruments = readInstruments(shared("demo.bench.instruments.csv"));

describe("the demo's matrix of 5 mouthpieces and 12 instruments", () => {
  const matrix = fitMatrix(mouthpieces, instruments, { preferredMm: 2.5 });
  const cellOf = (mouthpiece: string, instrument: string) =>
    matrix.cells[matrix.mouthpieces.indexOf(mouthpiece)][matrix.instruments.indexOf(instrument)];

  it("has the demo setup's gap in its cell", () => {
    expect(matrix.cells.length).toBe(5);
    expect(matrix.cells.every((row) => row.length === 12)).toBe(true);
    const cell = cellOf("Brindle 1", "Kettle Lane 7");
    expect(cell.fit?.gapMm).toBeCloseTo(2.5, 9);
    expect(cell.fromPreferredMm).toBeCloseTo(0, 9);
    expect(cell.isApartFromPreferred).toBe(false);
    expect(cellOf("Brindle 2", "Kettle Lane 8").isApartFromPreferred).toBe(true);
  });

  it("names what has not been measured", () => {
    const cell = cellOf("Fenwood 5", "Kettle Lane 10");
    expect(cell).toMatchObject({ fit: undefined, missing: ["depthMm"], fromPreferredMm: undefined });
    expect(fitCellWords(cell, "mm")).toBe("Unknown: measure the receiver depth.");
  });

  it("counts inches and millimetres alike", () => {
    const kettle11 = instruments.find(({ name }) => name === "Kettle Lane 11")!;
    expect(kettle11.dimensions.mouthDiameterMm).toBeCloseTo(0.4245 * 25.4, 9);
    expect(kettle11.dimensions.receiverTaper).toBeCloseTo(1 / 20.047, 12);
  });

  it("says what makes the gaps differ: the mouth's diameter, over the instruments", () => {
    const [brindle] = matrix.byMouthpiece;
    expect(brindle).toMatchObject({ of: "Brindle 1", count: 10, onLeadpipe: 1, leftOut: 1 });
    expect(brindle.causes[0].cause).toBe("mouthDiameterMm");
    expect(brindle.causes.at(-1)?.cause).toBe("together");
    expect(spreadWords(brindle, "mm")).toMatch(/Over 10 instruments \(besides 1 on the leadpipe, 1 unknown/);
    expect(matrix.byInstrument[9]).toMatchObject({ count: 0, causes: [] });
  });

  it("has shares that sum to 1 everywhere", () => {
    for (const { causes } of [...matrix.byMouthpiece, ...matrix.byInstrument, matrix.overall])
      if (causes.length > 0)
        expect(causes.reduce((sum, { varianceShare }) => sum + varianceShare, 0)).toBeCloseTo(1, 9);
  });

  it("goes out as CSV, one row a pair", () => {
    const lines = fitMatrixCsv(matrix).trimEnd().split("\n");
    expect(lines.length).toBe(1 + 60);
    // u² = (20 · 0.004)² + (20 · 0.005)² + 0.02² + (440 · 0.0002)²: diameters, depth, one of two equal tapers
    expect(lines.find((line) => line.startsWith("Brindle 1,Kettle Lane 7,"))).toBe(
      "Brindle 1,Kettle Lane 7,seated,22,2.5,0.156665,0,along its length,22,0,",
    );
    expect(lines.find((line) => line.startsWith("Brindle 1,Kettle Lane 10,"))).toMatch(
      /,unknown,,,,,,,,receiver depth$/,
    );
  });
});

describe("spread", () => {
  const mouthpiece: MouthpiecePart = {
    name: "m",
    dimensions: { shankEndDiameterMm: 9.7, shankTaper: 0.05 },
    uncertainties: {},
  };
  const instrument = (name: string, mouthDiameterMm: number, depthMm: number): InstrumentPart => ({
    name,
    dimensions: { mouthDiameterMm, receiverTaper: 0.05, depthMm },
    uncertainties: {},
  });

  it("is all the depth's where only the depth differs", () => {
    const { byMouthpiece } = fitMatrix(
      [mouthpiece],
      [24, 25, 26].map((depthMm) => instrument(`${depthMm}`, 10.8, depthMm)),
    );
    expect(byMouthpiece[0].standardDeviationMm).toBeCloseTo(1, 9);
    expect(byMouthpiece[0].causes[0]).toMatchObject({ cause: "depthMm", sensitivity: 1 });
    expect(byMouthpiece[0].causes[0].varianceShare).toBeCloseTo(1, 9);
  });

  it("is halved between two that act alike and apart: mouth ±0.05 mm and depth ±1 mm", () => {
    const parts = [-1, 1].flatMap((a) =>
      [-1, 1].map((b) => instrument(`${a} ${b}`, 10.8 + 0.05 * a, 25 + b)),
    );
    const [{ causes }] = fitMatrix([mouthpiece], parts).byMouthpiece;
    const share = Object.fromEntries(causes.map(({ cause, varianceShare }) => [cause, varianceShare]));
    expect(share.mouthDiameterMm).toBeCloseTo(0.5, 9);
    expect(share.depthMm).toBeCloseTo(0.5, 9);
    expect(share.together).toBeCloseTo(0, 9);
  });

  it("is nobody's where dimensions make up for one another", () => {
    const parts = [-1, 0, 1].map((a) => instrument(`${a}`, 10.8 + 0.05 * a, 25 + 0.9 * a));
    const [spread] = fitMatrix([mouthpiece], parts).byMouthpiece;
    expect(spread.causes.at(-1)!.varianceShare).toBeLessThan(-1);
    expect(spreadWords(spread, "mm")).toMatch(/make up for one another/);
  });

  it("says when measuring alone would scatter the gaps as far", () => {
    const parts = [10.79, 10.8, 10.81].map((d) => ({
      ...instrument(`${d}`, d, 25),
      uncertainties: { mouthDiameterMm: 0.01 },
    }));
    expect(spreadWords(fitMatrix([mouthpiece], parts).byMouthpiece[0], "mm")).toMatch(
      /Measuring alone would scatter it/,
    );
  });

  it("of none, one or equal ones explains nothing", () => {
    const spread = (parts: InstrumentPart[]) => fitMatrix([mouthpiece], parts).byMouthpiece[0];
    const words = (parts: InstrumentPart[]) => spreadWords(spread(parts), "mm");
    expect(spread([])).toMatchObject({ count: 0, causes: [] });
    expect(words([instrument("a", 10.8, 25)])).toMatch(/no spread to explain/);
    expect(words([instrument("a", 10.8, 25), instrument("b", 10.8, 25)])).toMatch(/in all 2/);
  });

  it("and every cell are numbers or nothing for any parts", () => {
    const part = (names: readonly string[]) =>
      fc.array(
        fc.record({
          name: fc.string(),
          dimensions: fc.record(Object.fromEntries(names.map((n) => [n, anyNumber])), { requiredKeys: [] }),
          uncertainties: fc.record(Object.fromEntries(names.map((n) => [n, anyNumber])), {
            requiredKeys: [],
          }),
        }),
        { maxLength: 4 },
      );
    fc.assert(
      fc.property(part(fitDimensions.slice(0, 2)), part(fitDimensions.slice(2)), (some, others) => {
        const named = (parts: readonly object[]) => parts.map((p, i) => ({ ...p, name: `${i}` }));
        const matrix = fitMatrix(
          [mouthpiece, ...(named(some) as MouthpiecePart[])],
          [instrument("a", 10.8, 25), instrument("b", 10.9, 25), ...(named(others) as InstrumentPart[])],
        );
        expect(notNumbers(matrix)).toEqual([]);
        expect(notNumbers(matrix.cells.flat().map((cell) => fitCellWords(cell, "mm")))).toEqual([]);
        expect(notNumbers(matrix.byMouthpiece.map((spread) => spreadWords(spread, "mm")))).toEqual([]);
        for (const { causes } of matrix.byMouthpiece)
          if (causes.length > 0)
            expect(causes.reduce((sum, { varianceShare }) => sum + varianceShare, 0)).toBeCloseTo(1, 6);
      }),
    );
  });

  it("refuses a preferred gap that is none", () => {
    expect(() => fitMatrix([], [], { preferredMm: -1 })).toThrow(/preferred gap/);
  });
});

describe("parts as CSV", () => {
  it("come back as they went", () => {
    expect(readMouthpieces(mouthpiecesCsv(mouthpieces))).toEqual(mouthpieces);
    expect(readInstruments(instrumentsCsv(instruments))).toEqual(instruments);
  });

  it("are read by header, in any order, with either separator, quotes and a byte order mark", () => {
    const [one] = readMouthpieces('\uFEFF"taper";Name;end diameter (in)\r\n1:20;"A; B";0,4\r\n\r\n');
    expect(one.name).toBe("A; B");
    expect(one.dimensions.shankTaper).toBe(0.05);
    expect(one.dimensions.shankEndDiameterMm).toBeCloseTo(10.16, 9);
    expect(readInstruments("name,depth_mm,u depth (mm)\na,25,0.02\nb,?,\n")).toEqual([
      { name: "a", dimensions: { depthMm: 25 }, uncertainties: { depthMm: 0.02 } },
      { name: "b", dimensions: {}, uncertainties: {} },
    ]);
  });

  it.each([
    ["", /line 1: no header/],
    ["# remark\nname,depth (mm)\n", /line 2: no line follows the header/],
    ["name,colour\na,gold\n", /line 1: "colour" is no column of this table; give name, receiver mouth/],
    ["depth (mm)\n25\n", /line 1: there must be one column called name/],
    ["name,depth (mm),receiver depth (in)\na,25,1\n", /line 1: two columns give the receiver depth/],
    ["name,depth (cm)\na,2.5\n", /line 1: "depth \(cm\)" has no unit of length here/],
    ["name,taper (in/ft)\na,0.6\n", /write it in the cell, such as 0.6 in\/ft/],
    ['name,depth (mm)\n"a\nb",25\n# x\nc,deep\n', /line 5: "depth \(mm\)": "deep" is not a length/],
    ["name,depth (mm)\na,25\n\na,26\n", /line 4: "a" is here twice/],
    ["name,depth (mm)\n,25\n", /line 2: the name is empty/],
    ["name,depth (mm)\na,25,3\n", /line 2: 3 cells under 2 headers/],
    ["name,depth (mm)\na,-25\n", /line 2: the receiver depth is -25 mm; give/],
    ["name,taper\na,steep\nb,x\n", /line 2: "taper": "steep" is not a taper.*\(and 1 more\)/],
    ["name,u depth\na,-1\n", /uncertainty of the receiver depth is -1/],
  ])("%j is refused with its line", (text, words) => {
    expect(() => readInstruments(text)).toThrow(CsvError);
    expect(() => readInstruments(text)).toThrow(words);
  });

  it("any text is read or refused in one line", () =>
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string().map((t) => `name,depth (mm)\na,${t}\n`),
        ),
        (text) => {
          try {
            readInstruments(text);
          } catch (error) {
            expect(error).toBeInstanceOf(CsvError);
            expect((error as Error).message).not.toMatch(/\n|NaN|undefined/);
          }
        },
      ),
    ));
});
