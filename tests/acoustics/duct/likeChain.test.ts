import { describe, expect, it } from "vitest";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import { standIn } from "../../../src/setup/standIns.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { demo } from "../setups.ts";

describe("cones cut as those of an instrument that differs a little", () => {
  const changes = [
    ["body.diameters", 0.1],
    ["leadpipe.diameters", -0.1],
    ["mouthpiece.diameters", 0.1],
    ["air.temperature", 5],
  ] as const;

  // a bell of plane waves: nothing else is taken over. Limits a fifth of what outside values are held to
  it.each(["demo", "cornet", "horn-f", "tenor-trombone-small", "tuba"] as const)(
    "%s: resonances and peaks as with its own number of steps",
    async (name) => {
      const setup = withBell(name === "demo" ? demo() : await standIn(name), "plane");
      const like = new Instrument(setup);
      for (const [path, by] of changes) {
        const other = dimensionAt(setup, path)!.moved(by);
        const taken = new Instrument(other, { like }).modes(2);
        const own = new Instrument(other).modes(2);
        expect(own).toHaveLength(12);
        own.forEach(({ frequencyHz, peakImpedance }, i) => {
          expect(Math.abs(cents(taken[i].frequencyHz, frequencyHz))).toBeLessThan(2e-4);
          expect(Math.abs(decibels(taken[i].peakImpedance!, peakImpedance!))).toBeLessThan(2e-5);
        });
      }
    },
  );
});
