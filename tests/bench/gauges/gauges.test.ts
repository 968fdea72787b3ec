import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plugGauge } from "../../../src/bench/gauges/plugGauge.ts";
import { ringGauge } from "../../../src/bench/gauges/ringGauge.ts";
import { leadpipeTube, mandrelTube, straightened } from "../../../src/bench/gauges/taperedTube.ts";
import { taperForms } from "../../../src/bench/gauges/taperForms.ts";
import { boreDiameterMm } from "../../../src/setup/bore/boreDiameter.ts";

const receiver = { mouthDiameterMm: 10.8, taper: 0.05, depthMm: 24.5 };
const usual = { wallMm: 0.5, springBackMm: 0, overrunMm: 10, toleranceMm: 0.02 };

describe("a stepped depth plug", () => {
  const plug = plugGauge({ receiver, leadpipeBoreMm: 8.75, stepMm: 0.5 });

  it("has a nose between the leadpipe's bore and the receiver where it lands, by hand", () => {
    // 10.8 − 0.05·25.5 = 9.525, less 0.15 of clearance: 9.375, in twentieths 9.35; (9.35 − 8.75)/2 = 0.3 of lip
    expect(plug).toMatchObject({ noseDiameterMm: expect.closeTo(9.35, 9), lipMm: expect.closeTo(0.3, 9) });
  });

  it("has shoulders about the depth, each lower than the one before it", () => {
    if ("kind" in plug) throw new Error(plug.kind);
    expect(plug.shoulders.map(({ lengthMm }) => lengthMm)).toEqual([23.5, 24, 24.5, 25, 25.5]);
    const heights = [plug.noseDiameterMm, ...plug.shoulders.map(({ diameterMm }) => diameterMm)];
    for (let i = 1; i < heights.length; i++) expect(heights[i]).toBeLessThan(heights[i - 1]);
    expect(plug.overallMm).toBeGreaterThan(25.5 + 20);
  });

  it("is refused where there is no lip, or too narrow a one", () => {
    expect(plugGauge({ receiver, leadpipeBoreMm: 9.575, stepMm: 0.5 })).toMatchObject({
      kind: "no-lip",
      lipMm: expect.closeTo(0, 9),
    });
    expect(plugGauge({ receiver, leadpipeBoreMm: 9.2, stepMm: 0.5 })).toMatchObject({
      kind: "no-lip",
      lipMm: expect.closeTo(0.1875, 9),
    });
  });

  it("is refused with steps that begin before the nose", () => {
    for (const stepMm of [0, -1, 9, Number.NaN])
      expect(plugGauge({ receiver, leadpipeBoreMm: 8.75, stepMm })).toMatchObject({ kind: "steps-too-long" });
  });

  it("goes into its receiver and covers its lip, whatever the receiver", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 6, max: 14, noNaN: true }),
        fc.double({ min: 0, max: 0.08, noNaN: true }),
        fc.double({ min: 15, max: 60, noNaN: true }),
        fc.double({ min: 3, max: 12, noNaN: true }),
        (mouthDiameterMm, taper, depthMm, leadpipeBoreMm) => {
          const made = plugGauge({
            receiver: { mouthDiameterMm, taper, depthMm },
            leadpipeBoreMm,
            stepMm: 0.5,
          });
          if ("kind" in made) return;
          expect(made.noseDiameterMm).toBeLessThan(mouthDiameterMm - taper * (depthMm + 1));
          expect(made.noseDiameterMm).toBeGreaterThan(leadpipeBoreMm);
          for (const { diameterMm } of made.shoulders)
            expect(diameterMm).toBeGreaterThan(0.49 * made.noseDiameterMm);
        },
      ),
    );
  });
});

describe("a ring for the shank", () => {
  const question = { receiver, limitsMm: [2.25, 2.75] as const, everyMm: 0.5, insertionMm: 22 };
  const ring = ringGauge(question);

  it("is bored as the receiver and as long as it is deep", () => {
    expect(ring).toMatchObject({
      lengthMm: 24.5,
      faceBoreMm: 10.8,
      farBoreMm: expect.closeTo(9.575, 9),
      masterInsertionMm: 22,
    });
  });

  it("says that 0.01 mm of bore is 0.2 mm of insertion at 1:20: common practice", () => {
    expect(ring).toMatchObject({ insertionPerHundredthMm: expect.closeTo(0.2, 9) });
  });

  it("marks gaps past the wider limit, all of them in its window", () => {
    if ("kind" in ring) throw new Error(ring.kind);
    expect(ring.marksMm[0]).toBe(0);
    expect(Math.max(...ring.marksMm)).toBeGreaterThanOrEqual(2.75);
    expect(Math.max(...ring.marksMm, ...ring.limitsMm)).toBeLessThan(ring.windowLengthMm);
    expect(ring.windowLengthMm).toBeLessThan(ring.lengthMm);
  });

  it("is refused without a taper, with limits off it, and with marks nobody can read", () => {
    expect(ringGauge({ ...question, receiver: { ...receiver, taper: 0 } })).toEqual({ kind: "no-taper" });
    for (const limitsMm of [
      [2.75, 2.25],
      [-1, 2],
      [2, 24],
    ] as const)
      expect(ringGauge({ ...question, limitsMm })).toMatchObject({ kind: "limits-out-of-reach" });
    expect(ringGauge({ ...question, everyMm: 0 })).toMatchObject({ kind: "marks-too-close" });
  });
});

describe("tapers", () => {
  it("are told in every form: Morse No. 1 is 0.5986 in/ft and 1:20.047 (ISO 296)", () => {
    const { ratio, perFoot, perInch } = taperForms(1 / 20.047);
    expect(ratio).toBeCloseTo(20.047, 9);
    expect(perFoot).toBeCloseTo(0.5986, 4);
    expect(perInch).toBeCloseTo(0.049883, 6);
  });

  it("are set at half their angle: 1:20 is a cone of 2° 51' 51.1\" (ISO 1119)", () => {
    expect(2 * taperForms(0.05).halfAngleDegrees).toBeCloseTo(2 + 51 / 60 + 51.0925 / 3600, 6);
  });
});

describe("a leadpipe and its mandrel", () => {
  const profileMm = [
    [5, 8.75],
    [37, 8.9],
    [100, 9.83],
    [245, 11.68],
  ] as const;

  it("counts from the start of the leadpipe, segment by segment", () => {
    const made = leadpipeTube({ ...usual, profileMm });
    if ("kind" in made) throw new Error(made.kind);
    expect(made.segments.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 32],
      [32, 95],
      [95, 240],
    ]);
    expect(made.segments[0].taper).toBeCloseTo(0.15 / 32, 12);
    expect(made.turnsAtMm).toBeUndefined();
  });

  it("makes the mandrel smaller by the spring-back, and longer at both ends on the same taper", () => {
    const made = mandrelTube({ ...usual, profileMm, springBackMm: 0.03 });
    if ("kind" in made) throw new Error(made.kind);
    const { segments } = made;
    expect([segments[0].fromMm, segments[segments.length - 1].toMm]).toEqual([-10, 250]);
    expect(segments[1].fromDiameterMm).toBeCloseTo(8.72, 12);
    expect(segments[0].taper).toBeCloseTo(segments[1].taper!, 12);
    expect(segments[segments.length - 1].toDiameterMm).toBeCloseTo(11.65 + (10 * 1.85) / 145, 12);
  });

  it("keeps a step a step, and says where a mandrel cannot come out", () => {
    const made = leadpipeTube({
      ...usual,
      profileMm: [
        [0, 9],
        [20, 8.6],
        [20, 8.8],
        [200, 11],
      ],
    });
    if ("kind" in made) throw new Error(made.kind);
    expect(made.segments.map(({ taper }) => taper === undefined)).toEqual([false, true, false]);
    expect(made.turnsAtMm).toBe(20);
  });

  it("refuses what no lathe can make, by name", () => {
    const ask = (changed: object) => mandrelTube({ ...usual, profileMm, ...changed });
    expect(ask({ wallMm: 0 })).toEqual({ kind: "out-of-range", what: "wall" });
    expect(ask({ springBackMm: 2 })).toEqual({ kind: "out-of-range", what: "spring-back" });
    expect(ask({ overrunMm: -1 })).toEqual({ kind: "out-of-range", what: "overrun" });
    expect(ask({ toleranceMm: Number.NaN })).toEqual({ kind: "out-of-range", what: "tolerance" });
    expect(
      mandrelTube({
        ...usual,
        profileMm: [
          [0, 0.2],
          [10, 5],
        ] as const,
        overrunMm: 100,
      }),
    ).toMatchObject({ kind: "nothing-left" });
  });

  it("straightens a curve into few segments that stay within what they may", () => {
    const curve = Array.from({ length: 241 }, (_, i) => [i, 8.75 + 2.93 * (i / 240) ** 1.4] as const);
    const { kept, departureMm } = straightened(curve, 0.005);
    expect(kept.length).toBeLessThan(20);
    expect(departureMm).toBeLessThanOrEqual(0.005);
    const off = curve.map(([at, diameter]) => Math.abs(boreDiameterMm(kept, at) - diameter));
    expect(Math.max(...off)).toBeCloseTo(departureMm, 9);
  });
});
