import { describe, expect, test } from "vitest";
import type { BreathEffect, PeakUnderBreath } from "../../../src/study/blown/breathEffect.ts";
import { breathLeavesOut, breathWords } from "../../../src/words/blown/breathEffect.ts";

const same = (estimate: number) => ({ lower: estimate, estimate, upper: estimate });
const peak = (n: number, part: Partial<PeakUnderBreath> = {}): PeakUnderBreath => ({
  n,
  breathDb: same(-0.1 * n),
  gapStillDb: 0.01 * n,
  gapBlownDb: same(0.02 * n),
  ...part,
});
const effect = (...peaks: PeakUnderBreath[]): BreathEffect => ({
  litresPerMinute: 20,
  gapMm: 5,
  referenceGapMm: 2.5,
  reynolds: 3100,
  peaks: [peak(1, { breathDb: same(-9), gapStillDb: 9, gapBlownDb: same(9) }), ...peaks],
});
const said = (of: BreathEffect, thresholdDb = 1) => breathWords(of, thresholdDb, "mm", "b-flat-trumpet");

describe("what is said of a breath", () => {
  test("tells of the notes played, of the largest change with its bounds, and of the gap still and blown", () => {
    const told = said(effect(peak(2), peak(6, { breathDb: { lower: -0.2, estimate: -0.8, upper: -2.5 } })));
    expect(told).toEqual({
      onPeaks:
        "A breath of 20 L/min changes the height of the peaks by −0.80 to −0.20 dB. The largest change, on G on top of the staff (6), may be " +
        "anything from −0.2 dB with the least loss to −2.5 dB with the most.",
      onGap:
        "Opening the gap by 2.50 mm (0.098 in) changes them by +0.02 to +0.06 dB in still air and by +0.04 to +0.12 dB blown " +
        "(+0.04 to +0.12 dB from the least loss to the most).",
      finding: "Too small to notice, blown as in still air. Just noticeable: 1 dB.",
      isNoticed: false,
    });
  });

  test("says on which notes a player may notice, and which are too uncertain, never more than the bounds allow", () => {
    const large = peak(4, { gapBlownDb: { lower: 1.1, estimate: 1.4, upper: 1.8 } });
    expect(said(effect(peak(2), large))).toMatchObject({ isNoticed: true });
    expect(said(effect(peak(2), large)).finding).toMatch(/^A player may notice that blown on C in the staff/);
    const wide = peak(4, { gapBlownDb: { lower: -1.5, estimate: 0.4, upper: 1.8 } });
    expect(said(effect(peak(2), wide))).toMatchObject({ isNoticed: false });
    expect(said(effect(peak(2), wide)).finding).toMatch(/^On C in the staff.* too wide to say/);
    // just noticeable is the setup's
    expect(said(effect(peak(2), wide), 3).finding).toMatch(/^Too small to notice.*3 dB/);
  });

  test("says nothing of a change of gap where there is none, and of a closing one that it closes", () => {
    expect(said({ ...effect(peak(2)), gapMm: 2.5 })).toMatchObject({ onGap: null, finding: null });
    expect(said({ ...effect(peak(2)), gapMm: 1 }).onGap).toMatch(/^Closing the gap by 1\.50 mm/);
    expect(said({ ...effect(), peaks: [] }).onPeaks).toMatch(/no peaks/);
  });

  test("says what is left out, and where the table of the layer has ended", () => {
    expect(breathLeavesOut({ reynolds: 3100 }).join(" ")).toMatch(
      /soft tone on a steady stream.*laminar stream up to Re 3200; this one leaves the shank at Re 3100\./,
    );
    expect(breathLeavesOut({ reynolds: 6412 }).join(" ")).toMatch(/Re 6400, so the last values are kept/);
  });
});
