import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { usePasted } from "../../../../src/app/tasks/edit/pasteReport.ts";
import { readPasted } from "../../../../src/app/tasks/edit/profilePaste.ts";
import { profileText } from "../../../../src/app/tasks/edit/profileText.ts";
import { replaceRows } from "../../../../src/app/tasks/edit/rows.ts";
import type { ProfileMm } from "../../../../src/setup/setup.ts";
import { someSetup } from "../../someSetup.ts";

/** What is understood without a problem. */
const rowsOf = (text: string, unit: "mm" | "in" = "mm") => {
  const { rows, problems } = readPasted(text, unit);
  expect(problems).toEqual([]);
  return rows.map(({ positionMm, diameterMm }) => [positionMm, diameterMm]);
};
const problemsOf = (text: string) =>
  readPasted(text, "mm").problems.map(({ line, message }) => `${line}: ${message}`);

describe("two columns", () => {
  const bore = [
    [0, 8.8],
    [10.5, 9.25],
    [240, 11.68],
  ];

  test("separated by tabs, semicolons, commas or spaces, with points or commas", () => {
    for (const text of [
      "0\t8.8\n10.5\t9.25\n240\t11.68",
      "0\t8,8\r\n10,5\t9,25\r\n240\t11,68\r\n",
      "0;8.8\n10.5;9.25\n240;11.68",
      "0; 8,8\n10,5; 9,25\n240; 11,68",
      "0,8.8\n10.5,9.25\n240,11.68",
      "0, 8.8\n10.5, 9.25\n240, 11.68",
      "0, 8,8\n10,5, 9,25\n240, 11,68",
      "0 8.8\n10.5 9.25\n240 11.68",
      "0   8,8\n10,5\u00a09,25\n  240 11,68  ",
      "\uFEFF# a bore\n\n0\t8.8\n\n10.5\t9.25\n240\t11.68\n\n",
      '"0","8.8"\n"10.5","9.25"\n"240","11.68"',
      "0\t8.8\t\n10.5\t9.25\t\n240\t11.68\t",
    ])
      expect(rowsOf(text)).toEqual(bore);
  });

  test("under a heading, which may name the unit", () => {
    expect(rowsOf("Position\tDiameter\n0\t8.8\n240\t11.68")).toHaveLength(2);
    expect(rowsOf("x (mm)\tØ (mm)\n0\t8.8\n240\t11.68", "in")[1]).toEqual([240, 11.68]);
    expect(rowsOf("position [in], diameter [mm]\n0, 8.8\n10, 11.68")[1]).toEqual([254, 11.68]);
    expect(rowsOf("position;diameter\ncm;mm\n0;8,8\n24;11,68")[1]).toEqual([240, 11.68]);
    expect(rowsOf("Measured in the workshop\n0 8.8\n240 11.68")[1]).toEqual([240, 11.68]);
  });

  test("in inches, fractions and mixed units", () => {
    expect(rowsOf("0 0.35\n1 0.4", "in")).toEqual([
      [0, 8.89],
      [25.4, 10.16],
    ]);
    expect(rowsOf("0 3/8\n1 1/8 1/2", "in")[1]).toEqual([28.575, 12.7]);
    expect(rowsOf('0\t3/8"\n1 1/8 in\t12.7 mm', "mm")).toEqual([
      [0, 9.525],
      [28.575, 12.7],
    ]);
    expect(rowsOf("0 mm 8.8 mm\n9.5 in 11.68 mm")[1]).toEqual([241.3, 11.68]);
  });

  test("a comma before three digits is a decimal one where the others are", () => {
    expect(rowsOf("0,5\t8,8\n1,030\t11,68")[1]).toEqual([1.03, 11.68]);
  });

  test("what cannot be read for certain is named with its line", () => {
    expect(problemsOf("0\t8.8\n1,030\t11.5")).toEqual([
      expect.stringMatching(/^2: "1,030" can be read in two ways/),
    ]);
    expect(problemsOf("0\t8.8\n\nwide\t9\n240\t11.68")).toEqual([
      expect.stringMatching(/^3: "wide" is not a length/),
    ]);
    expect(problemsOf("1\t0\t8.8\n2\t240\t11.68")).toEqual([
      expect.stringMatching(/^1: 3 columns where two columns belong/),
      expect.stringMatching(/^2: 3 columns/),
    ]);
    expect(problemsOf("0,5,8,8\n240,11,68,1")).toHaveLength(2);
    expect(problemsOf("")).toEqual([expect.stringContaining("no numbers here")]);
    expect(problemsOf("only\twords")).toEqual([expect.stringContaining("no numbers here")]);
    expect(problemsOf("1 2\n".repeat(300_000))).toEqual([expect.stringContaining("too long")]);
  });
});

test("any text gives finite lengths or words, each with a line that is there", () => {
  const marks = fc.constantFrom(
    ...'0 1 25 9.5 8,8 1,030 - . , ; \t \n mm in " # ( x 1/8 NaN 1e999'.split(" "),
    " ",
    "\n",
  );
  const text = fc.oneof(
    fc.string(),
    fc.array(marks, { maxLength: 30 }).map((parts) => parts.join("")),
  );
  fc.assert(
    fc.property(text, fc.constantFrom("mm" as const, "in" as const), (pasted, unit) => {
      const { rows, problems } = readPasted(pasted, unit);
      const lines = pasted.split(/\r\n|\n|\r/).length;
      for (const { positionMm, diameterMm } of rows)
        expect([positionMm, diameterMm].every(Number.isFinite)).toBe(true);
      for (const { message } of problems) expect(message).toMatch(/\S; \S|\S: \S/);
      for (const { line } of [...rows, ...problems]) {
        expect(line).toBeGreaterThan(0);
        expect(line).toBeLessThanOrEqual(lines);
      }
      expect(rows.length + problems.length).toBeGreaterThan(0);
    }),
    { numRuns: 500 },
  );
});

const anyBore = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 10_000_000 }), fc.integer({ min: 1, max: 1_000_000 })), {
    minLength: 1,
    maxLength: 60,
  })
  .map((points) => points.map(([x, d]) => [x / 1000, d / 1000] as const));

test("a copied table pasted again is the same, whatever the unit and the separators", () => {
  const ways: readonly ((line: string) => string)[] = [
    (line) => line,
    (line) => line.replace("\t", ";"),
    (line) => line.replace("\t", ", "),
    (line) => line.replace("\t", ","),
    (line) => line.replace("\t", "   "),
    (line) => line.replaceAll(".", ","),
    (line) => line.replaceAll(".", ",").replace("\t", " ; "),
  ];
  const units = fc.constantFrom("mm" as const, "in" as const);
  fc.assert(
    fc.property(anyBore, units, units, fc.constantFrom(...ways), (profileMm, copied, shown, way) => {
      const text = profileText(profileMm, copied).split("\n").map(way).join("\n");
      const { rows, problems } = readPasted(text, shown);
      // 1,030 without a company that tells what its comma is: asked about, never guessed
      expect(rows.length + problems.length).toBeGreaterThan(0);
      for (const { message } of problems) expect(message).toContain("two ways");
      if (problems.length === 0)
        expect(rows.map(({ positionMm, diameterMm }) => [positionMm, diameterMm])).toEqual(profileMm);
      for (const { line, positionMm, diameterMm } of rows)
        expect([positionMm, diameterMm]).toEqual(profileMm[line - 2]);
    }),
  );
});

describe("a paste into the table", () => {
  const setup = someSetup();
  const use = (text: string, from: number | null = null) => {
    let profileMm: ProfileMm | null = null;
    const replace = (rowsMm: ProfileMm, at: number | null) => {
      const outcome = replaceRows(setup, "leadpipe", rowsMm, at);
      if ("problems" in outcome) return outcome.problems;
      profileMm = outcome.setup.leadpipe.profileMm;
      return [];
    };
    return { report: usePasted(text, "mm", replace, from), profileMm: profileMm as ProfileMm | null };
  };

  test("uses what was understood and names the lines that were left out", () => {
    const { report, profileMm } = use("position\tbore\n0\t8.8\n100\t?\n240\t11.7");
    expect(profileMm).toEqual([
      [0, 8.8],
      [240, 11.7],
    ]);
    expect(report).toMatchObject({
      isUsed: true,
      note: "2 rows pasted, read in mm; one line was left out.",
    });
    expect(report.problems).toEqual([expect.stringMatching(/^Line 3: "\?" is not a length/)]);
  });

  test("that makes no bore changes nothing and names the line and the column", () => {
    const { report, profileMm } = use("# bore\n0 8.8\n100 9\n50 10\n240 0");
    expect(profileMm).toBeNull();
    expect(report.isUsed).toBe(false);
    expect(report.problems).toEqual([
      expect.stringMatching(/^Line 4, position: the bore runs backwards from 100.000 mm to 50.000 mm/),
      expect.stringMatching(/^Line 5, inner diameter: the diameter is 0.000 mm/),
    ]);
  });

  test("from a row on, a problem in a row that was there is named by its row", () => {
    const { report } = use("300\t9", 0);
    expect(report.problems).toEqual([
      expect.stringMatching(/^Leadpipe, row 2, position: the bore runs backwards/),
    ]);
  });
});
