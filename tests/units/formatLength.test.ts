import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatInchFraction, formatLength } from "../../src/units/formatLength.ts";
import { parseLengthMm } from "../../src/units/length.ts";

describe("formatLength", () => {
  it("prints mm with two decimals and inches with three", () => {
    expect(formatLength(2.54, "mm")).toBe("2.54 mm");
    expect(formatLength(2.54, "in")).toBe("0.100 in");
    expect(formatLength(2.54, "mm", 0)).toBe("3 mm");
    expect(formatLength(-0.46, "mm")).toBe("-0.46 mm");
  });
  it("prints no minus zero and no number that is not one", () => {
    expect(formatLength(-0.001, "mm")).toBe("0.00 mm");
    expect(formatLength(Number.NaN, "mm")).toBe("–");
  });
});

describe("formatInchFraction", () => {
  it.each([
    [3.175, "1/8 in"],
    [28.575, "1 1/8 in"],
    [0, "0 in"],
    [-3.175, "-1/8 in"],
    [25.4, "1 in"],
    [25.4 / 64, "1/64 in"],
    [3.175 + 0.0004 * 25.4, "1/8 in"],
    [3.175 + 0.0005 * 25.4, "1/8 in"],
    [25.4 - 0.0004 * 25.4, "1 in"],
  ])("calls %d mm %s", (mm, text) => expect(formatInchFraction(mm)).toBe(text));

  it("has no fraction for a length between", () => {
    expect(formatInchFraction(2.54)).toBeUndefined();
    expect(formatInchFraction(3.175 + 0.0006 * 25.4)).toBeUndefined();
    expect(formatInchFraction(Number.NaN)).toBeUndefined();
    expect(formatInchFraction(Number.POSITIVE_INFINITY)).toBeUndefined();
  });

  it("prints what reads back as the same 64th", () =>
    fc.assert(
      fc.property(fc.integer({ min: -1000, max: 1000 }), (n) => {
        expect(parseLengthMm(formatInchFraction((n * 25.4) / 64)!, "mm")).toBeCloseTo((n * 25.4) / 64, 9);
      }),
    ));
});
