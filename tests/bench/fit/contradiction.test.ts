import { describe, expect, it } from "vitest";
import {
  CONTRADICTION_FROM_MM,
  contradiction,
  contradictionsKey,
  type GapAndDiameters,
} from "../../../src/bench/fit/contradiction.ts";
import { fitOf } from "../../../src/bench/fit/fit.ts";
import { setupContradiction } from "../../../src/bench/fit/setupContradiction.ts";
import { gapMm } from "../../../src/setup/setup.ts";
import { demo } from "../../acoustics/setups.ts";

/** (10.8 − 9.7)/0.05 = 22 mm go in, which leaves 2.5 mm. */
const given: GapAndDiameters = {
  gapMm: 2.5,
  givenBy: "file",
  depthMm: 24.5,
  endDiameterMm: 9.7,
  mouthDiameterMm: 10.8,
  shankTaper: 0.05,
  receiverTaper: 0.05,
};
const found = (change: Partial<GapAndDiameters> = {}) => contradiction({ ...given, ...change });

describe("diameters and tapers against a gap", () => {
  it("say nothing where they go together, or where a diameter is not known", () => {
    expect(found()).toBeUndefined();
    expect(found({ gapMm: 2.5 + 0.99 * CONTRADICTION_FROM_MM })).toBeUndefined();
    expect(found({ gapMm: 2.5 - 0.99 * CONTRADICTION_FROM_MM })).toBeUndefined();
    expect(found({ gapMm: 9, endDiameterMm: undefined })).toBeUndefined();
    expect(found({ gapMm: 9, mouthDiameterMm: undefined })).toBeUndefined();
  });

  it("foresee a smaller gap than is given: the shank would go further in", () => {
    expect(found({ gapMm: 3.5 })).toEqual({
      kind: "foresees-other-gap",
      foreseenMm: expect.closeTo(2.5, 9),
      gapMm: 3.5,
      givenBy: "file",
    });
  });

  it("find the shank wider than the receiver where it is said to sit, at the end that is tighter", () => {
    // 23 mm in, where the receiver is 10.8 − 1.15 = 9.65 mm wide, and the shank 9.7
    expect(found({ gapMm: 1.5 })).toMatchObject({
      kind: "wider-than-receiver",
      at: "end",
      excessMm: expect.closeTo(0.05, 9),
      foreseenMm: expect.closeTo(2.5, 9),
    });
    // at the face the shank would be 9.7 + 0.06 · 22 = 11.02 mm in 10.8
    expect(found({ shankTaper: 0.06 })).toMatchObject({
      kind: "wider-than-receiver",
      at: "face",
      excessMm: expect.closeTo(0.22, 9),
      foreseenMm: expect.closeTo(24.5 - 1.1 / 0.06, 9),
    });
    expect(found({ shankTaper: 0, receiverTaper: 0, endDiameterMm: 11 })).toMatchObject({
      kind: "wider-than-receiver",
      excessMm: expect.closeTo(0.2, 9),
      foreseenMm: undefined,
    });
  });

  it("take the receiver's taper for a shank whose own is not known", () => {
    expect(found({ shankTaper: undefined })).toBeUndefined();
    expect(found({ shankTaper: undefined, gapMm: 1.5 })).toEqual(found({ gapMm: 1.5 }));
  });

  it("leave alone what is within the uncertainty", () => {
    expect(found({ gapMm: 3.5, expandedUncertaintyMm: 1.1 })).toBeUndefined();
    expect(found({ gapMm: 3.5, expandedUncertaintyMm: 0.9 })).toBeDefined();
    expect(found({ gapMm: 1.5, expandedUncertaintyMm: 1.1 })).toBeUndefined();
    expect(found({ gapMm: 1.5, expandedUncertaintyMm: 0.9 })).toBeDefined();
  });

  it("foresee the gap that Fit gives, whatever seats", () => {
    let compared = 0;
    for (const shankTaper of [0.03, 0.05, 0.07])
      for (const receiverTaper of [0.04, 0.05, 0.06])
        for (const endDiameterMm of [9.3, 9.7, 10.4, 11]) {
          const dimensions = {
            shankEndDiameterMm: endDiameterMm,
            shankTaper,
            mouthDiameterMm: 10.8,
            receiverTaper,
            depthMm: 24.5,
          };
          const fit = fitOf(dimensions);
          if (fit.gapMm === undefined) continue;
          const asFit = { shankTaper, receiverTaper, endDiameterMm };
          expect(found({ ...asFit, gapMm: fit.gapMm })).toBeUndefined();
          expect(found({ ...asFit, gapMm: fit.gapMm + 0.5 })?.foreseenMm).toBeCloseTo(fit.gapMm, 9);
          compared++;
        }
    expect(compared).toBe(27);
  });
});

describe("a setup", () => {
  it("goes with its own gap in the demo, and not with one read elsewhere", () => {
    const setup = demo();
    expect(
      setupContradiction(setup, { gapMm: gapMm(setup), givenBy: "file", expandedMm: undefined }),
    ).toBeUndefined();
    expect(setupContradiction(setup, { gapMm: 4, givenBy: "readings", expandedMm: 0.1 })).toMatchObject({
      kind: "foresees-other-gap",
      gapMm: 4,
      givenBy: "readings",
    });
  });

  it("does not contradict where its diameters are known that badly", () => {
    const setup = demo();
    const vague = {
      ...setup,
      uncertainties: {
        ...setup.uncertainties,
        "receiver.mouthDiameter": { standard: 0.05, degreesOfFreedom: Infinity },
      },
    };
    const asked = { gapMm: 4, givenBy: "readings", expandedMm: 0.1 } as const;
    expect(setupContradiction(vague, asked)).toBeUndefined();
  });
});

it("another doubt has another key, the same one found anew has not", () => {
  const key = (gapMm: number) => contradictionsKey([found({ gapMm })!]);
  expect(key(3.5)).toBe(key(3.5 + 1e-9));
  expect(key(3.5)).not.toBe(key(3.52));
  expect(key(1.5)).not.toBe(key(3.5));
});
