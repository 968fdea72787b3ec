import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boreDiameterMm, splitProfileMm } from "../../../src/setup/bore/boreDiameter.ts";
import { exitBoreMm, profileLengthMm } from "../../../src/setup/geometry.ts";
import type { ProfileMm } from "../../../src/setup/setup.ts";

/** Narrows to a throat, steps out of it at 10, widens to 30. */
const bore: ProfileMm = [
  [5, 9],
  [8, 4],
  [10, 4],
  [10, 6],
  [30, 10],
];

describe("the bore at a place", () => {
  it("is the point's own at a point, and on the line between two", () => {
    expect(boreDiameterMm(bore, 8)).toBe(4);
    expect(boreDiameterMm(bore, 20)).toBe(8);
    expect(boreDiameterMm(bore, 6.5, "before")).toBe(6.5);
  });

  it("is asked for before or after a step, after it unless said", () => {
    expect(boreDiameterMm(bore, 10, "before")).toBe(4);
    expect(boreDiameterMm(bore, 10, "after")).toBe(6);
    expect(boreDiameterMm(bore, 10)).toBe(6);
    // 0.1 + 0.2 is still 0.3
    const tenths: ProfileMm = [
      [0, 1],
      [0.3, 1],
      [0.3, 2],
      [1, 2],
    ];
    expect(boreDiameterMm(tenths, 0.1 + 0.2, "before")).toBe(1);
  });

  it("goes on beyond the ends, where a step may stand too", () => {
    expect([boreDiameterMm(bore, -3), boreDiameterMm(bore, 31)]).toEqual([9, 10]);
    const stepped: ProfileMm = [
      [0, 1],
      [0, 2],
      [9, 3],
      [9, 4],
    ];
    expect([boreDiameterMm(stepped, 0, "before"), boreDiameterMm(stepped, 0)]).toEqual([1, 2]);
    expect([boreDiameterMm(stepped, 9, "before"), boreDiameterMm(stepped, 9)]).toEqual([3, 4]);
    expect([boreDiameterMm(stepped, -1), boreDiameterMm(stepped, 10, "before")]).toEqual([1, 4]);
  });

  it("of a position given more than twice takes the first before and the last after", () => {
    const thrice: ProfileMm = [
      [0, 1],
      [2, 2],
      [2, 5],
      [2, 3],
      [4, 3],
    ];
    expect([boreDiameterMm(thrice, 2, "before"), boreDiameterMm(thrice, 2)]).toEqual([2, 3]);
  });
});

/** Any bore, some of its positions repeated, in quarters of a millimetre so that places meet its points. */
const anyBore = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 40 }), fc.double({ min: 1, max: 20, noNaN: true })), {
    minLength: 2,
    maxLength: 8,
  })
  .map((points): ProfileMm => points.sort(([a], [b]) => a - b).map(([quarters, d]) => [quarters / 4, d]));
const anyPlace = fc.integer({ min: -4, max: 44 }).map((quarters) => quarters / 4);

/** As a person would do it: the two neighbours on the side asked for, by the rule of three. */
function plainly(profile: ProfileMm, x: number, side: "before" | "after"): number {
  const isNear = (at: number) => (side === "before" ? at < x : at <= x);
  const low = profile.filter(([at]) => isNear(at)).at(-1);
  const high = profile.find(([at]) => !isNear(at));
  if (!low) return high![1];
  if (!high) return low[1];
  const share = (x - low[0]) / (high[0] - low[0]);
  return (1 - share) * low[1] + share * high[1];
}

describe("any bore", () => {
  it("has everywhere what its two neighbours give by the rule of three", () => {
    fc.assert(
      fc.property(anyBore, anyPlace, fc.constantFrom("before", "after"), (profile, x, side) => {
        expect(boreDiameterMm(profile, x, side)).toBeCloseTo(plainly(profile, x, side), 10);
      }),
    );
  });

  it("split anywhere has the same diameters and ends where it began", () => {
    fc.assert(
      fc.property(anyBore, fc.double({ min: 0, max: 1, noNaN: true }), anyPlace, (profile, share, x) => {
        const at = profile[0][0] + share * profileLengthMm(profile);
        const [above, below] = splitProfileMm(profile, at);
        expect(above.length).toBeGreaterThan(0);
        expect(exitBoreMm(above)).toBe(below[0][1]);
        expect(profileLengthMm(above) + profileLengthMm(below)).toBeCloseTo(profileLengthMm(profile), 5);
        const part = x > at ? below : above;
        if (Math.abs(x - at) > 1e-5)
          expect(boreDiameterMm(part, x)).toBeCloseTo(boreDiameterMm(profile, x), 4);
      }),
    );
  });
});
