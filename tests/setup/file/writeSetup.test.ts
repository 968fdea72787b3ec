import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { writeSetup } from "../../../src/setup/file/writeSetup.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { exampleFile } from "../example.ts";

describe("writeSetup", () => {
  it("writes the example as it was, with its defaults", () => {
    const file = exampleFile();
    expect(writeSetup(readSetup(file))).toEqual({ ...file, model: { ...file.model, wallLossFactor: 1 } });
  });

  it("writes inches for a setup in inches", () => {
    const setup: Setup = { ...readSetup(exampleFile()), units: "in" };
    const file = writeSetup(setup) as { receiver: { depth: number } };
    expect(file.receiver.depth).toBeCloseTo(24.54 / 25.4, 12);
    expect(readSetup(file)).toEqual(setup);
  });

  it("leaves out what was not there, and keeps breath and constants", () => {
    const { shankTaper: _, ...mouthpiece } = exampleFile().mouthpiece;
    const air = { temperature: 20, breath: { temperature: 33, reach: 300 } };
    for (const file of [
      { ...exampleFile(), mouthpiece },
      { ...exampleFile(), air },
      {
        ...exampleFile(),
        air: { density: 1.18, soundSpeed: 346, viscosity: 1.84e-5, heatRatio: 1.4, prandtl: 0.708 },
      },
    ])
      expect(readSetup(writeSetup(readSetup(file)))).toEqual(readSetup(file));
  });

  it("brings every length back to a billionth of a millimetre", () => {
    // what a leadpipe can be: 5 mm to 2500 mm in all
    const diameter = fc.double({ min: 9, max: 30, noNaN: true });
    const lengths = fc.array(fc.double({ min: 1e-3, max: 60, noNaN: true }), {
      minLength: 1,
      maxLength: 40,
    });
    fc.assert(
      fc.property(lengths, diameter, fc.constantFrom("mm", "in"), (pieces, diameterMm, units) => {
        let positionMm = 0;
        const profile = [0, 5, ...pieces].map((pieceMm) => {
          positionMm += pieceMm;
          return [`${positionMm.toFixed(12)} mm`, `${diameterMm.toFixed(12)} mm`];
        });
        const example = exampleFile();
        const setup = { ...readSetup({ ...example, leadpipe: { profile } }), units } as Setup;
        const again = readSetup(writeSetup(setup));
        expect(again.leadpipe.profileMm).toHaveLength(pieces.length + 2);
        expect(setup.leadpipe.profileMm).toHaveLength(pieces.length + 2);
        setup.leadpipe.profileMm.forEach((point, i) => {
          point.forEach((lengthMm, j) => {
            expect(Math.abs(again.leadpipe.profileMm[i][j] - lengthMm)).toBeLessThanOrEqual(1e-9);
          });
        });
      }),
    );
  });
});
