import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { resonancesOf } from "../../../src/acoustics/resonance/resonances.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { anySetup, demo } from "../../acoustics/setups.ts";

describe("the resonances at the setup's own gap, kept from when the instrument was made", () => {
  it("are those of its column, also where a longer look was taken", async () => {
    const stands = await Promise.all((["euphonium", "horn-f", "cornet"] as const).map(standIn));
    // walls that swallow the lowest resonances: a longer look, and one given up after three
    const lossy = [12, 16, 20].map((wallLossFactor) => {
      const setup = withBell(demo(), "plane");
      return { ...setup, model: { ...setup.model, wallLossFactor } };
    });
    let longer = 0;
    for (const setup of [demo(), ...stands, ...lossy, ...fc.sample(anySetup, { numRuns: 10, seed: 20 })]) {
      const instrument = new Instrument(setup);
      const { column, gapMm, modeCount } = instrument;
      const { line, highest } = column;
      if (highest > 1.1 * (modeCount + 2) * (line.soundSpeed / (2 * line.length))) longer++;
      const kept = instrument.resonances(gapMm);
      const asked = resonancesOf(column, line.gap(gapMm / 1000), modeCount);
      expect(kept).toHaveLength(asked.length);
      expect(asked.length).toBeGreaterThan(2);
      asked.forEach(({ frequency, Q, peak }, i) => {
        expect(kept[i].frequency / frequency).toBeCloseTo(1, 9);
        expect(kept[i].Q / Q).toBeCloseTo(1, 6);
        expect(kept[i].peak?.frequency).toBe(peak?.frequency);
      });
    }
    expect(longer).toBeGreaterThan(0);
  });

  it("a gap between two questions for it does not change them", () => {
    const instrument = new Instrument(demo());
    const first = instrument.modes(instrument.gapMm);
    const other = instrument.modes(instrument.gapMm + 1);
    expect(other[3].frequencyHz).not.toBe(first[3].frequencyHz);
    instrument.modes(instrument.gapMm).forEach(({ frequencyHz }, i) => {
      expect(frequencyHz / first[i].frequencyHz).toBeCloseTo(1, 9);
    });
  });
});
