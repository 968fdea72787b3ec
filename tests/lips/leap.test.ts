import { describe, expect, it } from "vitest";
import { Leap } from "../../src/lips/leap.ts";
import { type Blowing, Oscillator } from "../../src/lips/oscillator.ts";
import { slotOf } from "../../src/lips/slot.ts";
import { Stability } from "../../src/lips/stability.ts";
import { Thresholds } from "../../src/lips/threshold.ts";
import { COLUMN, USUAL } from "./columns.ts";

const RATE = 24000;
const thresholds = new Thresholds(USUAL, COLUMN);
const stability = new Stability(USUAL, COLUMN);
const slot = (n: number, times: number) =>
  slotOf(stability, thresholds, n, times * thresholds.lowest(n)!.mouthPressure)!;
const middle = (n: number): Blowing => {
  const { mouthPressure, centreHz } = slot(n, 1.5);
  return { mouthPressure, lipHz: centreHz };
};
const make = (blowing: Blowing) => () => new Oscillator(RATE, USUAL, COLUMN, blowing);

describe("leap", () => {
  it("aimed well lands on its note, aimed at a neighbour's slot on that one, and alike for the same aim", () => {
    const leap = new Leap(make(middle(4)), 4, middle(8), { transition: 0.05, settle: 0.6 }, COLUMN);
    for (const phase of [0, 0.3, 0.9]) expect(leap.land(0, phase)).toBe(8);
    const toNeighbour = 1200 * Math.log2(slot(7, 1.5).centreHz / middle(8).lipHz);
    expect(leap.land(toNeighbour, 0.5)).toBe(7);
    expect(leap.land(0, 0.3)).toBe(8);
    // far below, the lips stop
    expect(leap.land(-1100, 0)).not.toBe(8);
  });

  it("refuses a first note that does not sound as it is blown, and times that cannot be", () => {
    const faint = { ...middle(4), mouthPressure: 500 };
    const times = { transition: 0.05, settle: 0.5 };
    expect(() => new Leap(make(faint), 4, middle(8), times, COLUMN)).toThrow(
      /note 4 does not sound steadily at 500 Pa with the lips at .* Hz: blow harder/,
    );
    expect(() => new Leap(make(middle(4)), 4, middle(8), { ...times, transition: -1 }, COLUMN)).toThrow(
      /transition of -1 s/,
    );
  });
});
