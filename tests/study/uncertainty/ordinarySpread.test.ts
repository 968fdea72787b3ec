import { describe, expect, test } from "vitest";
import { profileFlaws, profileLengthMm } from "../../../src/setup/geometry.ts";
import type { Provenance, Setup } from "../../../src/setup/setup.ts";
import { ordinarySpread } from "../../../src/study/uncertainty/ordinarySpread.ts";
import { demo } from "../../acoustics/setups.ts";

const marked = (provenance: Record<string, Provenance>): Setup => ({
  ...demo(),
  uncertainties: {},
  provenance,
});
const whole = marked({ mouthpiece: "assumed", receiver: "assumed", leadpipe: "assumed", body: "assumed" });
const pathsOf = (setup: Setup) => ordinarySpread(setup).map(({ path }) => path);

describe("how instruments of a kind differ", () => {
  test("is told of what is assumed, and of nothing else", () => {
    expect(pathsOf(marked({}))).toEqual([]);
    expect(pathsOf(marked({ receiver: "assumed", "receiver.depth": "measured" }))).toEqual([
      "receiver.mouthDiameter",
      "receiver.taper",
    ]);
    expect(pathsOf(marked({ leadpipe: "assumed", body: "measured" }))).toEqual([
      "leadpipe.curve[0]",
      "leadpipe.curve[1]",
      "leadpipe.curve[2]",
      "leadpipe.length",
    ]);
    // the setup's own word goes before
    const known = { "receiver.taper": { standard: 0.01, degreesOfFreedom: Infinity } };
    expect(pathsOf({ ...marked({ receiver: "assumed" }), uncertainties: known })).not.toContain(
      "receiver.taper",
    );
  });

  test("leaves a bore that can be made, as smooth as it was, three standard deviations either way", () => {
    const spreads = ordinarySpread(whole);
    expect(spreads).toHaveLength(17);
    for (const { moved, standard } of spreads)
      for (const by of [-3 * standard, 3 * standard]) {
        const { mouthpiece, leadpipe, body } = moved(whole, by);
        for (const [part, like] of [
          [mouthpiece, whole.mouthpiece],
          [leadpipe, whole.leadpipe],
          [body, whole.body],
        ] as const) {
          expect(profileFlaws(part.profileMm)).toEqual([]);
          // neighbouring points go the same way
          const shares = part.profileMm.map(([, dMm], i) => dMm / like.profileMm[i][1]);
          for (let i = 1; i < shares.length; i++)
            expect(Math.abs(shares[i] - shares[i - 1])).toBeLessThan(0.12);
        }
      }
  });

  test("changes what it names by what it says", () => {
    const moved = (path: string, by: number) => {
      const spread = ordinarySpread(whole).find((one) => one.path === path)!;
      return spread.moved(whole, by);
    };
    const last = <T>(list: readonly T[]) => list[list.length - 1];
    const { mouthpiece, body } = whole;
    const throat = (setup: Setup) => Math.min(...setup.mouthpiece.profileMm.map(([, dMm]) => dMm));
    expect(throat(moved("mouthpiece.throat", 0.05)) - throat(whole)).toBeCloseTo(0.05, 9);
    expect(moved("mouthpiece.throat", 0.05).mouthpiece.profileMm[0]).toEqual(mouthpiece.profileMm[0]);
    expect(last(moved("mouthpiece.throat", 0.05).mouthpiece.profileMm)).toEqual(last(mouthpiece.profileMm));
    const deeper = moved("mouthpiece.cupLength", 0.5).mouthpiece;
    expect(deeper.cupDepthMm! - mouthpiece.cupDepthMm!).toBeCloseTo(0.5, 9);
    expect(profileLengthMm(deeper.profileMm) - profileLengthMm(mouthpiece.profileMm)).toBeCloseTo(0.5, 9);
    const wider = moved("body.curve[0]", 0.02).body.profileMm;
    expect(last(wider)[1] / last(body.profileMm)[1]).toBeCloseTo(1.02, 9);
    const tilted = moved("body.curve[1]", 0.02).body.profileMm;
    expect(tilted[0][1] / body.profileMm[0][1]).toBeCloseTo(1.02, 9);
    expect(last(tilted)[1] / last(body.profileMm)[1]).toBeCloseTo(0.98, 9);
    const longer = moved("body.length", 5).body;
    expect(profileLengthMm(longer.profileMm) - profileLengthMm(body.profileMm)).toBeCloseTo(5, 9);
  });
});
