import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LengthError, needsArithmetic, parseLengthMm } from "../../src/units/length.ts";

describe("parseLengthMm", () => {
  it.each([
    ["1/8 in", 3.175],
    ["1/8in", 3.175],
    ["0.100in", 2.54],
    ["2.54 mm", 2.54],
    ["3.2mm - 1/16 in", 1.6125],
    ["2.54", 2.54],
    ['.1"', 2.54],
    ["1/8”", 3.175],
    ["1/8''", 3.175],
    ["1 1/8 in", 28.575],
    ['1 1/8"', 28.575],
    ["1½ in", 38.1],
    ["⅛ in", 3.175],
    ["-1 1/8 in", -28.575],
    ["2 in - 1 1/8 in", 22.225],
    ["2,54 mm", 2.54],
    ["0,125 in", 3.175],
    ["2,54mm + 0,1mm", 2.64],
    ["0.5cm", 5],
    ["0.02 m", 20],
    ["5 thou", 0.127],
    ["12 µm", 0.012],
    ["2.54mm + 0.1", 2.64],
    ["3 * 1/8 in", 9.525],
    ["1/8 in * 3", 9.525],
    ["(1 + 1/8) in", 28.575],
    ["1 in / 8", 3.175],
    ["-(2 mm)", -2],
    ["+2 mm", 2],
    ["2 mm − 1 mm", 1],
    ["2.5e1 mm", 25],
    ["2 MM", 2],
    [" 2.54\tmm\n", 2.54],
  ])("reads %j", (text, mm) => expect(parseLengthMm(text, "mm")).toBe(mm));

  it("takes a bare number in the default unit, in a sum too", () => {
    expect(parseLengthMm("0.1", "in")).toBe(2.54);
    expect(parseLengthMm(0.3, "in")).toBe(7.62);
    expect(parseLengthMm("1 1/8", "in")).toBe(28.575);
    expect(parseLengthMm("2.54mm + 0.1", "in")).toBe(5.08);
  });

  it.each([
    "",
    "  ",
    "abc",
    "3 kg",
    "mm",
    "1/0",
    "1/0 in",
    "0/0 mm",
    "Infinity",
    "-Infinity mm",
    "NaN",
    "null",
    "true",
    "i",
    "pi mm",
    "1e999",
    "1e999 mm",
    "1e308 m",
    "0x10",
    "x = 2",
    "f(x) = x",
    "sqrt(4) mm",
    "sqrt(4 mm * 4 mm)",
    "import(2)",
    "mm(2)",
    "2 mm * 3 mm",
    "2 mm mm",
    "5 mm 3",
    "2 (3 mm)",
    "1/(8 in)",
    "2 in / 1 in",
    "2 mm to inch",
    "2^3",
    "5!",
    "5%",
    "[1, 2]",
    "{a: 1}",
    "1:3",
    "1;2",
    "1 ? 2 : 3",
    "2 mm\n3 mm",
    '"2 mm"',
    "1.2.3",
    "1,2,3",
    "1/2 1/8 in",
    "1 2 mm",
    "2 mm #",
    "2 mm or 3 mm",
    "5 mod 3",
    "(((",
    "\u0000",
    "\ud800",
    "9".repeat(201),
    "(".repeat(90),
  ])("refuses %j in one line", (text) => {
    const error = errorOf(text);
    expect(error).toBeInstanceOf(LengthError);
    expect(error?.message).toMatch(/^[^\n\r]+; give a number with mm, cm, m, in or ", such as /);
    expect(error?.message.length).toBeLessThan(300);
  });

  it("says what was typed and why", () => {
    expect(errorOf("3 kg")?.message).toContain('"3 kg" is not a length ("kg" is no unit of length)');
    expect(errorOf("1/0")?.message).toContain("divides by zero");
    expect(errorOf("mm")?.message).toContain("a unit without a number");
    expect(errorOf("2 mm * 2 mm")?.message).toContain("multiplies two lengths");
  });

  it.each(["1,030 mm", "1,125", "12,345,678", "1-1/8 in", "1,234.5 mm"])(
    "asks again about %j, which can be read in two ways",
    (text) => expect(errorOf(text)?.message).toContain("two ways"),
  );

  it("refuses numbers that are not finite", () => {
    for (const value of [Number.NaN, Infinity, -Infinity, 1e308])
      expect(() => parseLengthMm(value, "in")).toThrow(LengthError);
  });

  it("reads back what it would print, in any unit", () =>
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.constantFrom(["mm", 1] as const, ["in", 25.4] as const, ["cm", 10] as const),
        (value, [unit, unitMm]) => {
          expect(parseLengthMm(`${value} ${unit}`, "mm")).toBeCloseTo(value * unitMm, 8);
        },
      ),
    ));

  it("gives a finite length or a LengthError of one line, whatever is typed", () => {
    const pieces = fc.constantFrom(
      ..."0 1 8 . , / * + - ( ) in mm \" ' e x = ; : [ { ½ ^ % kg NaN Infinity".split(" "),
      " ",
    );
    const texts = fc.oneof(
      fc.string(),
      fc.array(pieces, { maxLength: 12 }).map((parts) => parts.join("")),
    );
    fc.assert(
      fc.property(texts, (text) => {
        const error = errorOf(text);
        if (error === undefined) expect(Number.isFinite(parseLengthMm(text, "mm"))).toBe(true);
        else {
          expect(error).toBeInstanceOf(LengthError);
          expect(error.message).not.toMatch(/[\n\r]/);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it("reads what is plain as the grammar does", () => {
    const digits = fc.nat(99999).map(String);
    const decimal = fc
      .tuple(digits, fc.constantFrom("", ".", ".5", ".062", "e-2", "e3"))
      .map((p) => p.join(""));
    const fraction = fc.tuple(digits, fc.integer({ min: 1, max: 64 })).map((p) => p.join("/"));
    const number = fc.oneof(
      decimal,
      fraction,
      fc.tuple(digits, fraction).map((p) => p.join(" ")),
    );
    const unit = fc.constantFrom("", " mm", "in", " cm", "m", " thou", '"');
    fc.assert(
      fc.property(fc.constantFrom("", "-", "+"), number, unit, (sign, size, unit) => {
        const text = `${sign}${size}${unit}`;
        expect(needsArithmetic(text)).toBe(false);
        expect(parseLengthMm(text, "mm")).toBe(parseLengthMm(`(${text})`, "mm"));
      }),
    );
  });
});

function errorOf(text: string): Error | undefined {
  try {
    parseLengthMm(text, "mm");
    return undefined;
  } catch (error) {
    return error as Error;
  }
}
