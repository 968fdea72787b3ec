import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isDecided, isNoticeable, judge } from "../../../src/study/change/judgement.ts";

const finite = fc.double({ min: -10, max: 10, noNaN: true });
const positive = fc.double({ min: 0.01, max: 10, noNaN: true });

describe("a change held against a threshold", () => {
  it("counts from the threshold on where it is known", () => {
    expect(judge(1, 1)).toBe("more");
    expect(judge(-1, 1)).toBe("less");
    expect(judge(0.999, 1)).toBe("too-small");
    expect(judge(0, 0)).toBe("too-small");
    expect([isNoticeable(-1, 1), isNoticeable(0.5, 1)]).toEqual([true, false]);
  });

  it("has to be larger than its expanded uncertainty, which may hide it", () => {
    expect(judge(2, 1, { expanded: 1.9 })).toBe("more");
    expect(judge(2, 1, { expanded: 2 })).toBe("unknown");
    expect(judge(-0.9, 1, { expanded: 0.3 })).toBe("too-small");
    expect(judge(0.5, 1, { expanded: 1 })).toBe("unknown");
  });

  it("has to be there with everything that was tried", () => {
    expect(judge(12, 10, { tried: [10, 20] })).toBe("more");
    expect(judge(-12, 10, { tried: [-20, -10] })).toBe("less");
    expect(judge(12, 10, { tried: [7, 17] })).toBe("unknown");
    expect(judge(1, 10, { tried: [-9, 9] })).toBe("too-small");
  });

  it("goes by the estimate between bounds, unless a bound says the contrary", () => {
    expect(judge(12, 10, { bounds: [-2, 20] })).toBe("more");
    expect(judge(-12, 10, { bounds: [-20, 2] })).toBe("less");
    expect(judge(12, 10, { bounds: [-11, 20] })).toBe("unknown");
    expect(judge(9, 10, { bounds: [-9, 11] })).toBe("unknown");
    expect(judge(9, 10, { bounds: [-9, 9.5] })).toBe("too-small");
  });

  it("is the same by all three without a doubt, and turns round with its sign, whatever the numbers", () => {
    const turned = { more: "less", less: "more", "too-small": "too-small", unknown: "unknown" };
    fc.assert(
      fc.property(finite, positive, positive, (change, threshold, doubt) => {
        const known = judge(change, threshold);
        expect(judge(change, threshold, { tried: [change, change] })).toBe(known);
        expect(judge(change, threshold, { bounds: [change, change] })).toBe(known);
        const range = [change - doubt, change + doubt] as const;
        const back = [-range[1], -range[0]] as const;
        const pairs = [
          [{ expanded: doubt }, { expanded: doubt }],
          [{ tried: range }, { tried: back }],
          [{ bounds: range }, { bounds: back }],
        ] as const;
        for (const [one, other] of pairs) {
          const judgement = judge(change, threshold, one);
          expect(judge(-change, threshold, other)).toBe(turned[judgement]);
          // a doubt may take a finding back, never make or turn one
          if (isDecided(judgement)) expect(judgement).toBe(known);
        }
      }),
    );
  });
});
