import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/units/inputError.ts";
import { LengthError } from "../../src/units/length.ts";
import { parseFrequencyRange, parseRange, RangeTextError } from "../../src/units/range.ts";

describe("parseRange", () => {
  it("includes the stop when the steps meet it", () => {
    expect(parseRange("0:1:0.25")).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(parseRange("0:1:0.1")).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]);
    expect(parseRange("0:1:0.3")).toEqual([0, 0.3, 0.6, 0.9]);
    expect(parseRange("0:1in:1/3 in")).toHaveLength(4);
    expect(parseRange("0:8:0.05")).toHaveLength(161);
  });
  it("reads a unit with each part", () => {
    const gapsMm = parseRange("0mm:8mm:1/64in");
    expect(gapsMm).toHaveLength(21);
    expect(gapsMm[1]).toBe(0.396875);
    expect(parseRange("0:0.1:0.05", "in")).toEqual([0, 1.27, 2.54]);
  });
  it("takes one length, or a range of no extent, as one point", () => {
    expect(parseRange("0.1 in")).toEqual([2.54]);
    expect(parseRange("2:2:1")).toEqual([2]);
  });
  it.each(["0:8", "0:8:1:2", "0:8:0", "0:8:-1", "8:0:1", "0:8:1e-9", "0:200000:1", "0:8:1e-300"])(
    "refuses %j",
    (text) => expect(() => parseRange(text)).toThrow(RangeTextError),
  );
  it.each(["", "::", "0:x:1", "0::1"])("refuses the lengths of %j", (text) =>
    expect(() => parseRange(text)).toThrow(LengthError),
  );
  it("allows 200 000 points", () => expect(parseRange("1:200000:1")).toHaveLength(200_000));
});

describe("parseFrequencyRange", () => {
  it("reads a range and a list", () => {
    const grid = parseFrequencyRange("40:2000:0.5");
    expect(grid).toBeInstanceOf(Float64Array);
    expect(grid).toHaveLength(3921);
    expect(grid[3920]).toBe(2000);
    expect([...parseFrequencyRange("116.5, 233.1 Hz,1kHz")]).toEqual([116.5, 233.1, 1000]);
    expect([...parseFrequencyRange("440")]).toEqual([440]);
  });
  it.each([
    "",
    "0",
    "-40",
    "0:10:1",
    "40:20:1",
    "40:2000:0",
    "40:2000",
    "abc",
    "1,,2",
    "1e999",
    "NaN",
    "40:9e9:1",
    "2 mm",
  ])("refuses %j", (text) => expect(() => parseFrequencyRange(text)).toThrow(RangeTextError));
});

it("never fails with anything but words for the person, whatever is typed", () => {
  const pieces = fc.constantFrom(..."0 1 8 0.5 : , in mm Hz - e x /".split(" "));
  const texts = fc.oneof(
    fc.string(),
    fc.array(pieces, { maxLength: 9 }).map((parts) => parts.join("")),
  );
  fc.assert(
    fc.property(texts, fc.constantFrom(parseRange, parseFrequencyRange), (text, read) => {
      try {
        const values = [...read(text)];
        expect(values.length).toBeGreaterThan(0);
        for (const value of values) expect(Number.isFinite(value)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        expect((error as Error).message).not.toMatch(/[\n\r]/);
      }
    }),
    { numRuns: 1000 },
  );
});
