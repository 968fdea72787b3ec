import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  BoreTableError,
  type BoreTableOptions,
  boreTableText,
  readBoreTable,
} from "../../../src/setup/bore/boreTable.ts";
import { InputError } from "../../../src/units/inputError.ts";

const bore = [
  [0, 8.75],
  [32, 8.9],
  [240, 11.68],
];
const read = (text: string, options: BoreTableOptions = {}) => readBoreTable(text, "leadpipe", options);

describe("a leadpipe's table", () => {
  it("in any of its writings is the same bore", () => {
    for (const text of [
      "0\t8.75\n32\t8.9\n240\t11.68",
      "position;radius\n0;4,375\n32;4,45\n240;5,84",
      "0,4.375 # the mouth\n32,4.45\n// nothing\n240,5.84",
      "0 0.34448819\n1.2598425 0.35039370\n9.4488189 0.45984252",
      "x [in]  d [in]\n0 0.34448819\n1.2598425 0.35039370\n9.4488189 0.45984252",
      "0\t11.68\n208\t8.9\n240\t8.75",
      "240\t11.68\n32\t8.9\n0\t8.75",
      "100\t8.75\n132\t8.9\n340\t11.68",
    ]) {
      const { profileMm } = read(text);
      expect(profileMm.length).toBeGreaterThan(0);
      profileMm.forEach(([x, d], i) => {
        expect(x).toBeCloseTo(bore[i][0], 5);
        expect(d).toBeCloseTo(bore[i][1], 5);
      });
    }
  });

  it("is told with the reason of every guess", () => {
    const table = read("0 0.172\n9.45 0.23");
    expect(table).toMatchObject({
      unit: { value: "in", isGuess: true },
      measure: { value: "radius", isGuess: true },
      direction: { value: "mouthpiece end first", isGuess: true },
      separator: "space",
      decimal: "point",
      rows: 2,
    });
    expect(table.lengthMm).toBeCloseTo(240.03, 6);
    expect([table.smallestMm, table.largestMm]).toEqual(
      [2 * 0.172 * 25.4, 2 * 0.23 * 25.4].map((d) => expect.closeTo(d, 9)),
    );
    expect(boreTableText(table).join("\n")).toMatch(
      /unit: in \(a guess, as no bore is 0.172 mm wide\)\nbore given as: radius \(a guess, as narrowest 4.369 mm/,
    );
    expect(read("x (mm);Ø (mm)\n0;8,75\n240;11,68")).toMatchObject({
      unit: { value: "mm", isGuess: false },
      measure: { value: "diameter", isGuess: false, reason: "the heading names it" },
      decimal: "comma",
      separator: "semicolon",
    });
  });

  it("is taken for what it is said to be", () => {
    const last = (text: string, options: BoreTableOptions) => read(text, options).profileMm.at(-1);
    expect(last("0 4.4\n240 5.8", { measure: "diameter" })).toEqual([240, 5.8]);
    expect(last("0 8.8\n240 11.68", { measure: "radius" })).toEqual([240, 23.36]);
    expect(last("0 8.8\n24 11.68", { unit: "in", measure: "diameter" })![0]).toBeCloseTo(609.6, 9);
    expect(last("x (mm), d (mm)\n0, 0.35\n9, 0.45", { unit: "in" })![1]).toBeCloseTo(11.43, 9);
    expect(read("0 11\n240 8.8", { direction: "mouthpiece end first" }).profileMm[0]).toEqual([0, 11]);
    expect(last("8.8 0\n9 100\n11.68 240", { isSwapped: true })).toEqual([240, 11.68]);
    expect(last("0;8,8\n1,030;11,68", { decimal: "comma" })).toEqual([1.03, 11.68]);
    expect(last("0;8.8\n1,030;11.68", { decimal: "point" })).toEqual([1030, 11.68]);
  });

  it("of a mouthpiece or a body goes by their sizes", () => {
    expect(readBoreTable("0 8.2\n10 1.85\n80 4.2", "mouthpiece").measure.value).toBe("radius");
    expect(readBoreTable("0 8.4\n70 3.7\n80 16.4", "mouthpiece").profileMm[0]).toEqual([0, 16.4]);
    expect(readBoreTable("0 61\n1000 5.84", "body").profileMm).toEqual([
      [0, 11.68],
      [1000, 122],
    ]);
  });

  it("broken, swapped, doubled or half-empty is refused with its line", () => {
    const refused: [string, RegExp][] = [
      ["0 8.8\nx y\n240 11.68", /^line 2: /],
      ["8.8\t0\n9\t100\n11.68\t240", /^line 1: the columns look swapped: the second runs from 0 to 240/],
      ["0 8.8\n240 11.68\n0 8.8\n240 11.68", /^line 3: the table starts again as it did in line 1: .*twice/],
      ["0 8.8\n240 11.68\n\n0 8.9\n240 11", /^line 4: position 0 again, as in line 1/],
      ["0\t8.8\n100\t\n240\t11.68", /^line 2: "100" stands alone: the second column is empty/],
      ["0;8.8\n;9\n240;11.68", /^line 2: "9" stands alone: the first column is empty/],
      ["0 8.8\n50 9\n40 10\n240 11", /^line 3: the bore runs backwards/],
      ["0 8.8\n50 -9\n240 11", /^line 2: the diameter is -9/],
      ["0 8.8", /^line 1: the bore has no length/],
      ["only words", /^line 1: no numbers here/],
      ["0 8.8\n100 ?\n? 9\n240 11", /\(and 1 more\)$/],
    ];
    for (const [text, words] of refused) {
      expect(() => read(text)).toThrow(words);
      expect(() => read(text)).toThrow(BoreTableError);
    }
  });
});

it("with cells in quotes keeps their commas", () => {
  const bare = readBoreTable("0\t8,75\n120\t10,1\n240\t11,68\n", "leadpipe");
  const quoted = readBoreTable('0,"8,75"\n"120","10,1"\n240,"11,68"\n', "leadpipe");
  expect(quoted.profileMm).toEqual(bare.profileMm);
  // an inch mark is no quote
  expect(readBoreTable('0",0.345"\n9.4",0.46"\n', "leadpipe").profileMm[1][0]).toBeCloseTo(9.4 * 25.4, 9);
});

it("lengths beyond all numbers are refused in words", () => {
  expect(() => readBoreTable("-8e307\t0.3\n1e308\t0.4", "mouthpiece")).toThrow(InputError);
  expect(() => readBoreTable("-8e307\t0.3\n1e308\t0.4", "mouthpiece")).not.toThrow(/NaN|Infinity/);
});

it("any text gives a bore or words", () => {
  const cell = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
    fc.constantFrom("0", "8,8", "1e308", "-1", "", "mm", "#"),
  );
  const text = fc
    .array(fc.tuple(cell, cell), { maxLength: 8 })
    .map((rows) => rows.map((row) => row.join("\t")).join("\n"));
  fc.assert(
    fc.property(text, fc.constantFrom("mouthpiece", "leadpipe", "body"), (typed, part) => {
      try {
        const { profileMm } = readBoreTable(typed, part);
        expect(profileMm[0][0]).toBe(0);
        for (const point of profileMm) expect(point.every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        expect((error as Error).message).not.toMatch(/NaN|Infinity|undefined|\n/);
      }
    }),
  );
});

it("positions in mm beside bores in inches are not taken for inches, 6 m long, but refused with what would be right", () => {
  const rows = "0,0.346\n120,0.394\n240,0.46\n";
  expect(() => readBoreTable(rows, "leadpipe")).toThrow(
    /^line 1: the bores look like inches, but a leadpipe of 240 in would be 6\.1 m long: are the positions in mm\?/,
  );
  const named = readBoreTable(`position (mm),diameter (in)\n${rows}`, "leadpipe");
  expect(named.lengthMm).toBe(240);
  expect(named.smallestMm).toBeCloseTo(8.788, 3);
});
