import { describe, expect, it } from "vitest";
import { noteAt } from "../../src/lips/note.ts";
import { slotOf } from "../../src/lips/slot.ts";
import { Stability } from "../../src/lips/stability.ts";
import { Thresholds } from "../../src/lips/threshold.ts";
import { COLUMN, valveNamed } from "./columns.ts";

const valve = valveNamed("usual");
const stability = new Stability(valve, COLUMN);
const thresholds = new Thresholds(valve, COLUMN);

describe("slot", () => {
  it("the note grows fastest everywhere inside and not just outside", () => {
    for (let n = 2; n <= 10; n++)
      for (const times of [1.05, 1.3, 2.5]) {
        const mouthPressure = times * thresholds.lowest(n)!.mouthPressure;
        const slot = slotOf(stability, thresholds, n, mouthPressure)!;
        const holds = (cents: number, from: number) => {
          const { rate, frequencyHz } = stability.fastest(from * 2 ** (cents / 1200), mouthPressure);
          return rate > 0 && noteAt(COLUMN, frequencyHz) === n;
        };
        const [low, high] = slot.lipHz;
        expect(slot.slotWidthCents).toBeCloseTo(1200 * Math.log2(high / low), 9);
        expect(holds(-0.01, low)).toBe(false);
        expect(holds(0.01, high)).toBe(false);
        for (let cents = 0; cents < slot.slotWidthCents; cents += 3) expect(holds(cents, low)).toBe(true);
      }
  });

  it("closes as the pressure falls to the threshold, as its square root", () => {
    for (const n of [2, 5, 8]) {
      const { mouthPressure } = thresholds.lowest(n)!;
      const hold = (over: number) =>
        slotOf(stability, thresholds, n, (1 + over) * mouthPressure)!.slotWidthCents;
      // the threshold against lip frequency is a parabola at its lowest point
      expect(hold(4e-4) / hold(1e-4)).toBeCloseTo(2, 1);
      expect(slotOf(stability, thresholds, n, 0.999 * mouthPressure)).toBe(null);
    }
  });

  it("pull is the slope of playing frequency, and margin the runner-up's threshold", () => {
    const n = 6;
    const slot = slotOf(stability, thresholds, n, 1.3 * thresholds.lowest(n)!.mouthPressure)!;
    const logAt = (cents: number) =>
      Math.log(stability.fastest(slot.centreHz * 2 ** (cents / 1200), slot.mouthPressure).frequencyHz);
    expect(slot.pull).toBeCloseTo((logAt(10) - logAt(-10)) / (Math.log(2) / 60), 3);
    const own = thresholds.at(n, slot.centreHz)!.mouthPressure;
    const runner = thresholds.at(slot.runnerUp!, slot.centreHz)!.mouthPressure;
    expect(slot.margin).toBeCloseTo(runner / own, 12);
    for (let other = 1; other <= thresholds.notes; other++)
      if (other !== n)
        expect(thresholds.at(other, slot.centreHz)?.mouthPressure ?? Infinity).toBeGreaterThanOrEqual(runner);
  });

  it("refuses a note there is none of", () => {
    for (const n of [0, 12, 2.5, Number.NaN])
      expect(() => slotOf(stability, thresholds, n, 5000)).toThrow(
        /has no slot on 12 resonances: give 1 to 11/,
      );
  });
});
