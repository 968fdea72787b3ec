import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type FitNotes, fitForm } from "../../../../src/app/state/notes/fit.ts";
import { readFit } from "../../../../src/app/tasks/fit/fitReading.ts";
import { partTables } from "../../../../src/app/tasks/fit/partTables.ts";
import { readTableText } from "../../../../src/app/tasks/fit/tableText.ts";
import { freshName, typedPart } from "../../../../src/app/tasks/fit/typedPart.ts";
import { readInstruments, readMouthpieces } from "../../../../src/bench/fit/partsCsv.ts";
import { fitCellWords } from "../../../../src/words/bench/fit.ts";
import { spreadWords } from "../../../../src/words/bench/fitSpread.ts";
import { notNumbers } from "../../../bench/fit/anyFit.ts";

const shared = (name: string) => readFileSync(`shared/demo.bench.${name}.csv`, "utf8");
const parts = {
  mouthpieces: readMouthpieces(shared("mouthpieces")),
  instruments: readInstruments(shared("instruments")),
};
const typed = (unit: "mm" | "in"): FitNotes => ({
  ...fitForm.empty,
  unit,
  mouthpieces: parts.mouthpieces.map((part) => typedPart(part, unit)),
  instruments: parts.instruments.map((part) => typedPart(part, unit)),
});

describe("what is typed", () => {
  test("of the demo reads back as exactly the demo, in either unit and after a switch", () => {
    expect(readFit(typed("mm"), "mm").parts).toEqual(parts);
    expect(readFit(typed("in"), "in").parts).toEqual(parts);
    expect(readFit(typed("mm"), "in").parts).toEqual(parts);
    expect(typed("mm").mouthpieces[3].dimensions.shankTaper).toBe("1:20.047");
  });

  test("and kept comes back as it was", () => {
    const notes = typed("in");
    expect(fitForm.ofJson(JSON.parse(JSON.stringify(notes)))).toEqual(notes);
  });

  const one = (dimensions: Record<string, string>, name = "A", uncertainties = {}): FitNotes => ({
    ...fitForm.empty,
    mouthpieces: [{ name, dimensions, uncertainties }],
    instruments: typed("mm").instruments.slice(0, 1),
  });

  test("and no number leaves the cell unknown, with words; a number no part can have makes the pair impossible", () => {
    const wrong = readFit(one({ shankEndDiameterMm: "nine", shankTaper: "0.05" }), "mm");
    expect(wrong.mouthpieces[0].problems.shankEndDiameterMm).toMatch(
      /^"nine" is not a length.*; give a number with mm.*\.$/,
    );
    expect(wrong.matrix.cells[0][0].missing).toEqual(["shankEndDiameterMm"]);
    const never = readFit(
      one({ shankEndDiameterMm: "-3", shankTaper: "0.05" }, "A", { shankEndDiameterMm: "-0.1" }),
      "mm",
    );
    expect(never.mouthpieces[0].problems).toEqual({
      shankEndDiameterMm: "The shank end diameter is -3 mm; give a length from 0.1 mm to 1000 mm.",
      "u shankEndDiameterMm":
        "The uncertainty of the shank end diameter is -0.1 mm; give a standard uncertainty of 0 or more.",
    });
    expect(never.matrix.cells[0][0].fit?.outcome).toBe("impossible");
  });

  test("in inches is answered in inches", () => {
    const { matrix, mouthpieces } = readFit({ ...one({ shankEndDiameterMm: "-0.1" }), unit: "in" }, "in");
    expect(mouthpieces[0].problems.shankEndDiameterMm).toBe(
      "The shank end diameter is -0.1 in; give a length from 0.004 in to 39 in.",
    );
    const all = readFit(typed("mm"), "in").matrix;
    const said = [
      ...all.cells.flat().map((cell) => fitCellWords(cell, "in")),
      ...[...all.byMouthpiece, all.overall].map((spread) => spreadWords(spread, "in")),
    ].join(" ");
    expect(said).toContain(" in,");
    expect(said).not.toMatch(/\d mm\b/);
    expect(matrix.cells).toHaveLength(1);
  });

  test("a row with nothing in it is no part; one without a name, or with another's, is told", () => {
    const [first] = typed("mm").mouthpieces;
    const blank = { name: " ", dimensions: {}, uncertainties: {} };
    const read = readFit(
      { ...typed("mm"), mouthpieces: [first, blank, first, { ...first, name: "" }] },
      "mm",
    );
    expect(read.matrix.mouthpieces).toEqual(["Brindle 1", "Brindle 1", "mouthpiece 4"]);
    expect(read.mouthpieces.map(({ problems }) => problems.name ?? "")).toEqual([
      "",
      "",
      '"Brindle 1" is here twice; give each its own name.',
      "No name; until it has one it is called mouthpiece 4.",
    ]);
  });

  test("as preferred gap or clearance and wrong is told, and counts for nothing", () => {
    const read = readFit({ ...typed("mm"), preferred: "-1", clearance: "-1" }, "mm");
    expect(read.problems.preferred).toMatch(/^The preferred gap is not a length from 0/);
    expect(read.problems.clearance).toMatch(/^The clearance is not a length of 0/);
    expect(read.matrix.preferredMm).toBeUndefined();
    expect(read.matrix.cells[0][0].fit?.outcome).toBe("seated");
  });

  test("whatever it is, gives numbers or words", () => {
    const text = fc.oneof(
      fc.string(),
      fc.constantFrom("1e400", "0", "-0", "1/0", "9.7", "1:0", "0.05", "1e-320"),
    );
    const row = (names: readonly string[]) =>
      fc.record({
        name: fc.constant("A"),
        dimensions: fc.record(Object.fromEntries(names.map((name) => [name, text]))),
        uncertainties: fc.record(Object.fromEntries(names.map((name) => [name, text]))),
      });
    fc.assert(
      fc.property(
        fc.array(row(partTables.mouthpieces.dimensions), { maxLength: 3 }),
        fc.array(row(partTables.instruments.dimensions), { maxLength: 3 }),
        text,
        fc.constantFrom("mm" as const, "in" as const),
        (mouthpieces, instruments, preferred, unit) => {
          const notes = { ...fitForm.empty, mouthpieces, instruments, preferred };
          const { matrix } = readFit(notes, unit);
          expect(notNumbers(matrix)).toEqual([]);
        },
      ),
    );
  });
});

describe("a table from text", () => {
  test("is understood with the range of each column", () => {
    const read = readTableText(shared("instruments"), "demo.csv", partTables.instruments, "mm");
    expect(read).toMatchObject({
      understood:
        "12 instruments read from demo.csv: receiver mouth diameter 10.76 mm to 10.92 mm; receiver taper 0.047 to 0.0503; " +
        "receiver depth 24.38 mm to 25.10 mm (1 unknown).",
    });
  });

  test("may come from a spreadsheet, tabs between and commas in the numbers", () => {
    const read = readTableText(
      "name\tend diameter (mm)\nA\t9,7\n",
      "clipboard",
      partTables.mouthpieces,
      "in",
    );
    expect(read).toMatchObject({
      parts: [{ name: "A", dimensions: { shankEndDiameterMm: "0.381889763779528" } }],
    });
  });

  test("is refused with every line that is wrong, and when there is too much of it", () => {
    const bad = readTableText("name,depth\nA,x\nA,\n", "bad.csv", partTables.instruments, "mm");
    expect(bad).toEqual({
      problems: [
        expect.stringMatching(/^line 2: .*"x"/),
        expect.stringMatching(/^line 3: "A" is here twice/),
      ],
    });
    const long = `name\n${Array.from({ length: 201 }, (_, n) => `n${n}`).join("\n")}\n`;
    expect(readTableText(long, "long.csv", partTables.mouthpieces, "mm")).toEqual({
      problems: ["201 mouthpieces; give at most 200 at a time"],
    });
  });
});

test("a new name is nobody's", () => {
  const named = (name: string) => ({ name, dimensions: {}, uncertainties: {} });
  expect(freshName("A", [])).toBe("A");
  expect(freshName("A", [named("A"), named("A 2")])).toBe("A 3");
});
