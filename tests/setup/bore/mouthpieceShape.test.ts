import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type MouthpieceShape,
  mouthpieceOfShape,
  shapeOfMouthpiece,
  volumeMl,
} from "../../../src/setup/bore/mouthpieceShape.ts";

const shape: MouthpieceShape = {
  rimDiameterMm: 16.5,
  cupDepthMm: 10.5,
  cup: { volumeMl: 1.3 },
  throatDiameterMm: 3.7,
  throatLengthMm: 6,
  exitDiameterMm: 8.4,
  lengthMm: 87,
};

describe("a mouthpiece from the numbers a technician knows", () => {
  it("has each of them where it belongs", () => {
    const profile = mouthpieceOfShape(shape);
    expect(profile[0]).toEqual([0, 16.5]);
    expect(profile.slice(-3)).toEqual([
      [10.5, 3.7],
      [16.5, 3.7],
      [87, 8.4],
    ]);
  });

  it("holds the volume that was given, for any cup that can", () => {
    const cups = fc.record({
      rim: fc.double({ min: 14, max: 34, noNaN: true }),
      depth: fc.double({ min: 6, max: 40, noNaN: true }),
      throat: fc.double({ min: 3, max: 9, noNaN: true }),
      full: fc.double({ min: 0.3, max: 0.9, noNaN: true }),
    });
    fc.assert(
      fc.property(cups, ({ rim, depth, throat, full }) => {
        const most = ((Math.PI / 4) * rim * rim * depth) / 1000;
        const least = ((Math.PI / 4) * throat * throat * depth) / 1000;
        // between a horn's hollow wall and all but a cylinder
        const wanted = least + (0.25 + 0.6 * full) * (most - least);
        const profile = mouthpieceOfShape({
          ...shape,
          rimDiameterMm: rim,
          cupDepthMm: depth,
          throatDiameterMm: throat,
          exitDiameterMm: 12,
          lengthMm: 100,
          cup: { volumeMl: wanted },
        });
        expect(volumeMl(profile, depth)).toBeGreaterThan(0.99 * wanted);
        expect(volumeMl(profile, depth)).toBeLessThan(1.01 * wanted);
        expect(
          profile.every(
            ([x, d], i) => i === 0 || (x > profile[i - 1][0] && (x > depth || d <= profile[i - 1][1])),
          ),
        ).toBe(true);
      }),
    );
  });

  it("reads the same numbers off it again", () => {
    const profileMm = mouthpieceOfShape(shape);
    for (const cupDepthMm of [10.5, undefined]) {
      const mouthpiece = { profileMm, insertionMm: 22, ...(cupDepthMm === undefined ? {} : { cupDepthMm }) };
      const { cup, ...rest } = shapeOfMouthpiece(mouthpiece);
      const { cup: given, ...others } = shape;
      expect(rest).toEqual(others);
      expect("volumeMl" in cup && cup.volumeMl).toBeCloseTo("volumeMl" in given ? given.volumeMl : 0, 9);
    }
  });

  it("makes a V of a frustum's volume and a bowl of half an ellipsoid's, nearly", () => {
    const v = mouthpieceOfShape({ ...shape, cup: { shape: "V" } });
    const frustum = (Math.PI / 12) * 10.5 * (16.5 ** 2 + 16.5 * 3.7 + 3.7 ** 2);
    expect(volumeMl(v, 10.5)).toBeCloseTo(frustum / 1000, 9);
    // a throat next to nothing: a quarter ellipse turned about its axis
    const bowl = mouthpieceOfShape({ ...shape, throatDiameterMm: 1e-6, cup: { shape: "bowl" } });
    const ellipsoid = (2 / 3) * Math.PI * 8.25 ** 2 * 10.5;
    expect(volumeMl(bowl, 10.5) / (ellipsoid / 1000)).toBeCloseTo(1, 2);
  });

  it.each([
    [{ cup: { volumeMl: 3 } }, /cannot hold 3 ml; give 0\.\d+ to 2\.\d+ ml/],
    [{ throatDiameterMm: 17 }, /not narrower than the rim/],
    [{ exitDiameterMm: 3 }, /narrower than the throat/],
    [{ lengthMm: 16 }, /leave no backbore/],
    [{ cupDepthMm: 0 }, /cup depth of 0 mm/],
  ] as const)("refuses %o in words", (change, words) => {
    expect(() => mouthpieceOfShape({ ...shape, ...change })).toThrow(words);
  });
});
