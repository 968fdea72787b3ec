import { describe, expect, it } from "vitest";
import { gapOfWrapMm, MOST_LAYERS, planWrap, wrapForGapMm } from "../../../src/bench/cut/wrap.ts";
import { fitOf } from "../../../src/bench/fit/fit.ts";
import { NAMED_TAPERS, nearestNamed } from "../../../src/bench/fit/namedTapers.ts";
import { taperWords, wrapWords } from "../../../src/words/bench/benchAdvice.ts";

describe("a wrap", () => {
  it("of 0.01 mm foil opens the gap by 0.4 mm at 1:20, one of 0.001 in by 0.040 in (common practice, no source)", () => {
    expect(gapOfWrapMm(0.01, 0.05)).toBeCloseTo(0.4, 12);
    expect(gapOfWrapMm(0.0254, 1 / 20)! / 25.4).toBeCloseTo(0.04, 12);
  });

  it("for half a millimetre more is an eightieth of a millimetre thick at 1:20", () => {
    expect(wrapForGapMm(0.5, 0.05)).toBeCloseTo(0.0125, 12);
  });

  it("there and back is the same, at Morse No. 1 as well", () => {
    for (const { taper } of NAMED_TAPERS)
      expect(gapOfWrapMm(wrapForGapMm(0.7, taper), taper)).toBeCloseTo(0.7, 12);
  });

  it("is what the fit of the thicker shank gives, whichever taper stops it", () => {
    for (const shankTaper of [0.05, 0.055, 0.045]) {
      const bare = {
        shankEndDiameterMm: 9.7,
        shankTaper,
        mouthDiameterMm: 10.8,
        receiverTaper: 0.05,
        depthMm: 24.5,
      };
      const wrapped = { ...bare, shankEndDiameterMm: 9.7 + 2 * 0.01 };
      const opened = fitOf(wrapped).gapMm! - fitOf(bare).gapMm!;
      expect(gapOfWrapMm(0.01, Math.max(shankTaper, 0.05))).toBeCloseTo(opened, 9);
    }
  });

  it("is planned in whole layers, and never for less gap or without a taper", () => {
    const plan = (asked: object) =>
      planWrap({ thicknessMm: 0.012, seatTaper: 0.05, gapMm: 2.5, plannedMm: 3.4, ...asked });
    // 0.48 mm a layer, 0.9 mm wanted: two
    expect(plan({})).toMatchObject({
      perLayerMm: expect.closeTo(0.48, 9),
      layers: 2,
      gapMm: expect.closeTo(3.46, 9),
    });
    expect(wrapWords(plan({})!, "mm")).toBe("One layer opens the gap by 0.48 mm; 2 layers, to 3.46 mm.");
    expect(plan({ plannedMm: 2 })).toMatchObject({ layers: undefined, gapMm: undefined });
    expect(plan({ plannedMm: 24 })).toMatchObject({ layers: MOST_LAYERS });
    expect(plan({ seatTaper: 0 })).toBeUndefined();
    for (const thicknessMm of [0, -1, Number.NaN]) expect(plan({ thicknessMm })).toBeUndefined();
  });
});

describe("tapers by name", () => {
  it("are those of ISO 296, in inches per foot as they are called", () => {
    const perFoot = Object.fromEntries(NAMED_TAPERS.map(({ name, inchesPerFoot }) => [name, inchesPerFoot]));
    expect(perFoot["morse-1"]).toBeCloseTo(0.59858, 4);
    expect(perFoot["morse-0"]).toBeCloseTo(0.6246, 4);
  });

  it("are said as near, never as certain, and only where one is near", () => {
    expect(taperWords(0.05)).toBe(
      "1:20.00, 0.6000 in/ft: about usual for trumpet shanks, check with a gauge",
    );
    expect(nearestNamed(1 / 20.047)!.name).toBe("morse-1");
    expect(nearestNamed(1 / 19.212)!.name).toBe("morse-0");
    expect(nearestNamed(0.06)).toBeUndefined();
    expect(taperWords(0)).toBe("no taper");
  });
});
