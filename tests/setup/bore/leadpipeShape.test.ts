import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leadpipeOfShape } from "../../../src/setup/bore/leadpipeShape.ts";
import { profileFlaws } from "../../../src/setup/geometry.ts";

const shape = {
  entryDiameterMm: 9.2,
  narrowestAtMm: 20,
  entryTaper: 0.02,
  endDiameterMm: 11.7,
  lengthMm: 240,
};

describe("a leadpipe by its dimensions", () => {
  it("narrows, widens and ends as it is told", () => {
    expect(leadpipeOfShape(shape)).toEqual([
      [0, 9.2],
      [20, 8.8],
      [240, 11.7],
    ]);
    expect(leadpipeOfShape({ ...shape, taper: 0.02 })).toEqual([
      [0, 9.2],
      [20, 8.8],
      [165, 11.7],
      [240, 11.7],
    ]);
    expect(leadpipeOfShape({ ...shape, narrowestAtMm: 0 })).toEqual([
      [0, 9.2],
      [240, 11.7],
    ]);
  });

  it("refuses what makes none", () => {
    const refused: [Partial<typeof shape & { taper: number }>, RegExp][] = [
      [
        { narrowestAtMm: 240 },
        /narrowest place at 240 mm is not in the leadpipe; give 0 mm to less than its length/,
      ],
      [{ entryTaper: 0.5 }, /closes the leadpipe; give a taper below 0.460/],
      [{ endDiameterMm: 8 }, /narrower than the narrowest place, 8.800 mm/],
      [{ taper: 0.005 }, /does not reach 11.700 mm in 220.000 mm; give at least 0.0132/],
      [{ entryDiameterMm: Number.NaN }, /entry diameter of NaN mm cannot be/],
      [{ entryTaper: -1 }, /entry taper of -1 cannot be/],
    ];
    for (const [change, words] of refused)
      expect(() => leadpipeOfShape({ ...shape, ...change })).toThrow(words);
  });

  it("is a bore whatever the dimensions, or words", () => {
    const size = fc.double({ min: -1, max: 300, noNaN: true });
    const taper = fc.double({ min: 0, max: 0.2, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        taper,
        size,
        size,
        fc.option(taper, { nil: undefined }),
        (a, b, t, c, d, t2) => {
          try {
            const profile = leadpipeOfShape({
              entryDiameterMm: a,
              narrowestAtMm: b,
              entryTaper: t,
              endDiameterMm: c,
              lengthMm: d,
              ...(t2 === undefined ? {} : { taper: t2 }),
            });
            expect(profileFlaws(profile)).toEqual([]);
            expect(profile.at(-1)).toEqual([d, c]);
          } catch (error) {
            expect(error).toBeInstanceOf(RangeError);
          }
        },
      ),
    );
  });
});
