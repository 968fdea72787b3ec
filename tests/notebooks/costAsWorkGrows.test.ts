// @vitest-environment jsdom
import { describe, expect, it } from "vitest";
import { exponent, KINDS, timed, withSections } from "../../notebooks/how-far-to-trust-this/cost.ts";
import { costPlot, costTable } from "../../notebooks/how-far-to-trust-this/costPlot.ts";
import { demo } from "../../notebooks/paper/demo.ts";
import { profileLengthMm } from "../../src/setup/geometry.ts";

describe("what the work costs as it grows", () => {
  it.each(KINDS)("$name comes to as many $of as it is asked for", ({ work, sizes, of }) => {
    const two = of.startsWith("sections") ? sizes.slice(-2) : sizes.slice(0, 2);
    const [less, more] = two.map((size) => work(size)());
    if (of.startsWith("sections")) {
      // mouthpiece, leadpipe and gap are cut as they are in any bore, the steep end of the flare a little finer
      expect((more - less) / (two[1] - two[0])).toBeCloseTo(1, 2);
      expect(less).toBeGreaterThanOrEqual(two[0]);
    } else expect([less, more]).toEqual(two);
    for (let i = 1; i < sizes.length; i++) expect(sizes[i]).toBe(2 * sizes[i - 1]);
  });

  it("a bore table of many sections is the same bore", () => {
    const { profileMm } = withSections(400).body;
    expect(profileMm).toHaveLength(401);
    expect(profileLengthMm(profileMm)).toBeCloseTo(profileLengthMm(demo.body.profileMm), 9);
    expect(profileMm[0]).toEqual(demo.body.profileMm[0]);
    expect(profileMm[400][1]).toBeCloseTo(demo.body.profileMm.at(-1)![1], 9);
  });

  it("the exponent is that of the power the times follow", () => {
    const sizes = [2, 4, 8, 16];
    expect(exponent({ sizes, seconds: sizes.map((size) => 0.003 * size) })).toBeCloseTo(1, 12);
    expect(exponent({ sizes, seconds: sizes.map((size) => size ** 2) })).toBeCloseTo(2, 12);
    // of what is timed so far
    expect(exponent({ sizes, seconds: [3, 6] })).toBeCloseTo(1, 12);
  });

  it("the shortest of three runs counts, each of so many calls that the clock can tell it", () => {
    let ms = 0;
    let calls = 0;
    // two ms a call, and once three ms more for something else
    const work = () => {
      calls++;
      ms += calls === 9 ? 5 : 2;
      return calls;
    };
    expect(timed(work, () => ms)).toBe(0.002);
    // runs of one call, of two, of four, and two more of four
    expect(calls).toBe(1 + 2 + 4 + 4 + 4);
  });

  it("is drawn with a line a kind and told in figures and words", () => {
    const cost = (name: string, power: number) => ({
      name,
      of: "things",
      sizes: [1, 2, 4, 8],
      seconds: [1, 2, 4, 8].map((size) => 0.01 * size ** power),
    });
    const costs = [cost("straight", 1), cost("steep", 2), { ...cost("begun", 1), seconds: [1] }];
    const { svg } = costPlot(costs, { width: 640, height: 380, unit: "mm" });
    // the two that have more than one time, and what is straight
    expect(svg.querySelectorAll("path[stroke-width]")).toHaveLength(3);
    expect(svg.querySelector("desc")!.textContent).toBe(
      "straight: 1 to 8 things, time as size to the power 1.00. steep: 1 to 8 things, time as size to the power 2.00.",
    );
    expect(costTable(costs).rows).toEqual([
      ["straight", "things", 1, 8, "10", "80", "1.00"],
      ["steep", "things", 1, 8, "10", "640", "2.00"],
    ]);
  });
});
