import { describe, expect, it } from "vitest";
import { cavityDiameterMm } from "../../src/setup/geometry.ts";

const MORSE_NO_1 = 1 / 20.047;

describe("a receiver's taper", () => {
  it("as Morse taper No. 1 (ISO 296: 1:20.047) narrows from 12.065 mm to 9.373 mm over 53.975 mm", () => {
    // 0.475 in and 0.369 in over 2 1/8 in: sizes of the American standard, from memory
    expect(cavityDiameterMm(12.065, MORSE_NO_1, 0)).toBe(12.065);
    expect(cavityDiameterMm(12.065, MORSE_NO_1, 53.975)).toBeCloseTo(9.373, 3);
    expect(cavityDiameterMm(12.065, MORSE_NO_1, 53.975) / 25.4).toBeCloseTo(0.369, 4);
  });

  it("takes 0.001 in of diameter in about 0.020 in of insertion (common practice, no source)", () => {
    const narrower = cavityDiameterMm(11, MORSE_NO_1, 0) - cavityDiameterMm(11, MORSE_NO_1, 0.02 * 25.4);
    expect(narrower / 25.4).toBeCloseTo(0.001, 5);
  });
});
