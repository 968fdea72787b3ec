import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellsOfLines, csvOfObjects, csvOfRows, rowsOf } from "../../src/units/delimitedText.ts";

describe("rows of a text", () => {
  it("know their line, also behind a quoted cell of several lines and whatever the line ends", () => {
    const text = '\uFEFFname,depth\r\n"a ""big"" one,\r\nold",24.5\r\n\r\n b , 25 \r\n';
    expect(rowsOf(text, ",").filter(({ cells }) => cells.join("") !== "")).toEqual([
      { line: 1, cells: ["name", "depth"] },
      { line: 2, cells: ['a "big" one,\nold', "24.5"] },
      { line: 5, cells: ["b", "25"] },
    ]);
    expect(rowsOf("a;b\rc;d", ";").map(({ line }) => line)).toEqual([1, 2]);
  });
});

describe("cells of lines", () => {
  it("takes an inch mark behind a number for no quote, and a quoted cell for whole", () => {
    expect(cellsOfLines(['1 1/8",0.464"', ' "8,5" , "11.7" ', "0,1,2"], ",")).toEqual([
      ['1 1/8"', '0.464"'],
      ["8,5", "11.7"],
      ["0", "1", "2"],
    ]);
  });

  it("leaves a quote that is never closed on its own line", () => {
    expect(cellsOfLines(['"a;b', "1;2", "", "3;4"], ";").slice(1)).toEqual([["1", "2"], [""], ["3", "4"]]);
  });
});

describe("CSV", () => {
  it("of objects has every key once, and nothing where there is nothing", () => {
    expect(
      csvOfObjects([
        { n: 1, Q: null },
        { n: 2, Q: 30.5, note: 'so, "so"' },
      ]),
    ).toBe('n,Q,note\n1,,\n2,30.5,"so, ""so"""\n');
  });

  it("is read again as it was written, whatever stands in it", () => {
    const cell = fc.string({ unit: fc.constantFrom("a", "1", ".", ",", ";", '"', "\n", "\t", " ") });
    const table = fc
      .integer({ min: 1, max: 4 })
      .chain((width) => fc.array(fc.array(cell, { minLength: width, maxLength: width }), { minLength: 1 }));
    fc.assert(
      fc.property(table, (rows) => {
        const again = rowsOf(csvOfRows(rows), ",").slice(0, rows.length);
        expect(again.map(({ cells }) => cells)).toEqual(rows.map((cells) => cells.map((one) => one.trim())));
      }),
    );
  });
});

describe("text in a table that a spreadsheet opens", () => {
  const HOSTILE = ['=HYPERLINK("http://x","y")', "+1+2", "-1+2", "@SUM(A1)", "-", "'=1", "''+x", "= 1;2"];

  it("never begins as a formula does, and reads back as it was", () => {
    const csv = csvOfRows([HOSTILE, ["\t=1", "\r=1"]]);
    const cells = csv.split("\n").flatMap((line) => line.match(/"(?:[^"]|"")*"|[^,]+/g) ?? []);
    expect(cells.length).toBeGreaterThanOrEqual(HOSTILE.length);
    for (const cell of cells) expect(cell.replace(/^"/, "")).not.toMatch(/^[=+\-@\t\r]/);
    expect(rowsOf(csvOfRows([HOSTILE]), ",")[0].cells).toEqual(HOSTILE);
    expect(cellsOfLines([csvOfRows([HOSTILE]).trimEnd()], ",")[0]).toEqual(HOSTILE);
  });

  it("leaves numbers as they are, negative ones and ones in text too", () => {
    expect(csvOfRows([[-1.5, "-1.5", "+0.3", "-2e-7", 4]])).toBe("-1.5,-1.5,+0.3,-2e-7,4\n");
    expect(csvOfObjects([{ "=name": "=1", n: -2 }])).toBe("'=name,n\n'=1,-2\n");
  });

  it("reads any text back", () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: "grapheme" }), { minLength: 1 }), (cells) => {
        const trimmed = cells.map((cell) => cell.trim().replace(/\r\n?/g, "\n"));
        expect(rowsOf(csvOfRows([trimmed]), ",")[0].cells).toEqual(trimmed);
      }),
    );
  });
});
