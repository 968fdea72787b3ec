import { describe, expect, it } from "vitest";
import { cavityDiameterMm } from "../../src/setup/geometry.ts";
import { readSetup } from "../../src/setup/readSetup.ts";
import { exampleFile } from "./example.ts";

describe("a receiver's taper", () => {
  it("is that of Morse taper No. 1: 12.065 mm at the large end, 9.373 mm after 53.975 mm (ISO 296: 1:20.047)", () => {
    const file = exampleFile() as Record<string, object>;
    const { receiver } = readSetup({
      ...file,
      receiver: { mouthDiameter: 12.065, taper: 1 / 20.047, depth: 53.975 },
      mouthpiece: { ...file.mouthpiece, insertion: 50, shankEndDiameter: 9.5 },
    });
    // 0.475 in and 0.369 in over 2 1/8 in: sizes of the American standard, from memory
    expect(cavityDiameterMm(receiver, 0)).toBe(12.065);
    expect(cavityDiameterMm(receiver, 53.975)).toBeCloseTo(9.373, 3);
    expect(cavityDiameterMm(receiver, 53.975) / 25.4).toBeCloseTo(0.369, 4);
  });

  it("turns 0.001 in of diameter into about 0.020 in of insertion (common practice, no source)", () => {
    // Δinsertion = Δdiameter/taper
    expect(0.001 / (1 / 20.047)).toBeCloseTo(0.02, 3);
  });
});
