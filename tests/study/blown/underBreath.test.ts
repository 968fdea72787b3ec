import { describe, expect, it } from "vitest";
import { NORMAL_COVERAGE } from "../../../src/bench/measure/combinedUncertainty.ts";
import { breathOf } from "../../../src/study/blown/breath.ts";
import { type ExploredUnderBreath, UnderBreath } from "../../../src/study/blown/underBreath.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../../acoustics/setups.ts";

const setup = demo();
const study = () => new UnderBreath(setup, NORMAL_COVERAGE);
/** Pictured and judged, the gaps being 5 and 2.5 mm. */
const explore = async (subject: UnderBreath, litresPerMinute: number): Promise<ExploredUnderBreath> => ({
  ...(await subject.picture(litresPerMinute, 5, 2.5, 4)),
  ...(await subject.judge(litresPerMinute, 5, 2.5, 4)),
});

describe("an instrument explored under a breath", () => {
  it("is in still air what it is without one, to the last bit", async () => {
    const explored = await explore(study(), 0);
    expect(explored).toEqual(new Exploration(setup).explore(5, 2.5, 4, 4));
    expect(explored.stillCurve).toBeUndefined();
  });

  it("has the blown curve and peaks, and still air's curve of the same gap beside them", async () => {
    const subject = study();
    const explored = await explore(subject, 20);
    expect(explored).toMatchObject(
      new Exploration(setup, undefined, breathOf(setup, 20)).explore(5, 2.5, 4, 4),
    );
    expect(explored.stillCurve).toEqual(new Exploration(setup).atGap(5).curve);
    expect(explored.stillCurve!.magnitude).not.toEqual(explored.chosen.curve.magnitude);
    // back in still air nothing of the breath is left
    expect(await explore(subject, 0)).toEqual(new Exploration(setup).explore(5, 2.5, 4, 4));
  });

  it("says of every peak what the breath and the change of gap do, by each of the breath's figures", async () => {
    const effect = await study().effect(20, 5, 2.5);
    const height = (figure: "lower" | "estimate" | "upper" | null, gapMm: number, n: number) =>
      new Instrument(setup, { breath: figure && breathOf(setup, 20, figure) }).modes(gapMm)[n - 1]
        .peakImpedance!;
    expect(effect.peaks.map(({ n }) => n)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    const sixth = effect.peaks[5];
    expect(sixth.gapStillDb).toBeCloseTo(decibels(height(null, 5, 6), height(null, 2.5, 6)), 6);
    for (const figure of ["lower", "estimate", "upper"] as const) {
      expect(sixth.breathDb[figure]).toBeCloseTo(decibels(height(figure, 5, 6), height(null, 5, 6)), 5);
      expect(sixth.gapBlownDb[figure]).toBeCloseTo(decibels(height(figure, 5, 6), height(figure, 2.5, 6)), 5);
    }
    expect(sixth.breathDb.upper).toBeLessThan(-1);
    // 20 L/min through the demo's shank of 8.5 mm or so, air of 15 mm²/s
    expect(effect.reynolds).toBeGreaterThan(2500);
    expect(effect.reynolds).toBeLessThan(4000);
  });

  it("refuses a breath that no air flows at", async () => {
    await expect(study().picture(900, 5, 2.5, 4)).rejects.toThrow(/too fast/);
    await expect(study().judge(900, 5, 2.5, 4)).rejects.toThrow(/too fast/);
  });
});
