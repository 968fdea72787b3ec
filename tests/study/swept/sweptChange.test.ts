/** Shifts from sweeps before and after, with what a warming room, a leak and too few takes do to them. */
import { describe, expect, it } from "vitest";
import { sweepPlan } from "../../../src/study/swept/plan.ts";
import { airCents, type SweptChange, sweptChange } from "../../../src/study/swept/sweptChange.ts";
import { doubtWords, scatterWords } from "../../../src/words/swept/sweptWords.ts";
import { AFTER_MM, BEFORE_MM, HZ, takesOf, type World } from "./takes.ts";

const shifts = HZ.map((_, k) => -1 - 0.4 * k);
const change = (world: World): SweptChange => sweptChange(takesOf(world))!;
const kinds = ({ doubts }: SweptChange) => doubts.map(({ kind }) => kind);

describe("the speed of sound", () => {
  it("rises by a cent and a half in half a degree", () => {
    // c ∝ √T: 600 log₂(293.65/293.15)
    expect(airCents(20, 20.5)).toBeCloseTo(1.476, 2);
  });
});

describe("what sweeps tell", () => {
  it("is every shift, within its interval and no wider than the takes ask for", () => {
    const swept = change({ order: "ABABAB", shifts });
    expect(swept).toMatchObject({ beforeMm: BEFORE_MM, afterMm: AFTER_MM, basis: "repeated", doubts: [] });
    expect(swept.resonances).toHaveLength(HZ.length);
    swept.resonances.forEach(({ shift, hz }, k) => {
      expect(hz).toBeCloseTo(HZ[k], 1);
      expect(Math.abs(shift.value - shifts[k])).toBeLessThan(shift.expanded);
      expect(shift.expanded).toBeLessThan(0.6);
    });
  });

  it("has intervals that hold the truth as often as they say, with air that wanders and a thermometer that errs", () => {
    let [held, all] = [0, 0];
    for (let seed = 1; seed <= 60; seed++) {
      const wander = (take: number) => Math.sin(100 * seed + 7 * take);
      const swept = change({
        order: "ABABAB",
        shifts,
        seed,
        scatter: 0.2,
        trueC: (take) => 20 + 0.4 * wander(take),
        // read with an error whose 95 % is the 0.1 K that was declared
        readC: (take) => 20 + 0.4 * wander(take) + 0.07 * Math.sin(31 * seed + 5 * take),
      });
      swept.resonances.forEach(({ shift }, k) => {
        all++;
        if (Math.abs(shift.value - shifts[k]) <= shift.expanded) held++;
      });
    }
    expect(all).toBe(60 * HZ.length);
    // counted by whole runs, since resonances of one run share their air
    expect(held / all).toBeGreaterThan(0.93);
  });

  it("is freed of air that warmed as the thermometer said", () => {
    const trueC = (take: number) => 19 + 0.3 * take;
    const swept = change({ order: "ABABAB", shifts, trueC });
    expect(kinds(swept)).toEqual([]);
    swept.resonances.forEach(({ shift }, k) => {
      expect(Math.abs(shift.value - shifts[k])).toBeLessThan(0.3);
    });
    // uncorrected, three tenths of a degree would be nine tenths of a cent
    expect(airCents(19, 19.3)).toBeGreaterThan(0.85);
  });

  it("knows how resonances moved against one another better than how all of them did", () => {
    const wander = (take: number) => 20 + 0.3 * Math.sin(9 * take);
    const { resonances } = change({ order: "ABABAB", shifts, trueC: wander, readC: () => 20 });
    for (const [k, { shift, ownExpanded }] of resonances.entries()) {
      expect(ownExpanded).toBeLessThan(shift.expanded / 3);
      const apart = shift.value - resonances[0].shift.value - (shifts[k] - shifts[0]);
      expect(Math.abs(apart)).toBeLessThanOrEqual(Math.hypot(ownExpanded, resonances[0].ownExpanded));
    }
  });

  it("drifts where the thermometer does not say so: it is said, and the intervals hold the truth all the same", () => {
    const warming: Partial<World> = { shifts, trueC: (take) => 20 + 0.25 * take, readC: () => 20 };
    for (const order of ["ABABAB", "AAABBB"]) {
      const swept = change({ order, ...warming });
      expect(kinds(swept)).toContain("drift");
      swept.resonances.forEach(({ shift }, k) => {
        expect(Math.abs(shift.value - shifts[k])).toBeLessThan(shift.expanded);
      });
    }
    const words = change({ order: "ABABAB", ...warming })
      .doubts.map(doubtWords)
      .join(" ");
    expect(words).toMatch(
      /Takes of the same gap differ by 2\.9 cents on all notes, as if the air had changed by [01]\.\d °C/,
    );
  });

  it("is doubted where all of one were taken before the other, though nothing drifted", () => {
    expect(kinds(change({ order: "AAABBB" }))).toEqual(["one after the other"]);
    expect(kinds(change({ order: "ABAB" }))).toEqual([]);
  });

  it("says which take is unlike its like, as by a leak at the seal", () => {
    const swept = change({ order: "ABABAB", shifts, leaky: [2] });
    expect(swept.doubts).toContainEqual({ kind: "unlike", take: 2, side: "before" });
    expect(swept.doubts.filter(({ kind }) => kind === "unlike")).toHaveLength(1);
    swept.resonances.forEach(({ shift }, k) => {
      expect(Math.abs(shift.value - shifts[k])).toBeLessThan(shift.expanded);
    });
    expect(swept.doubts.map(doubtWords).join()).toMatch(/Take 3 \(before\) differs from the others/);
  });

  it("says that one of the two leaks where all takes of it do", () => {
    const swept = change({ order: "ABABAB", shifts, leaky: [1, 3, 5] });
    expect(kinds(swept)).toEqual(["leak"]);
    expect(swept.doubts.map(doubtWords).join()).toMatch(
      /Q of the low notes changed by −\d+ %, more than a gap can do/,
    );
  });

  it("of single takes is known to be of single takes", () => {
    const swept = change({ order: "AB", shifts });
    expect(swept.basis).toBe("once");
    expect(swept.scatter).toMatchObject({ common: null, own: null });
    expect(kinds(swept)).toContain("once");
    expect(scatterWords(swept)).toMatch(/Nothing was repeated/);
    // the temperature is in it: 0.1 K each at 95 %, root of two times 3 cents a kelvin
    for (const { shift } of swept.resonances) expect(shift.expanded).toBeGreaterThan(0.4);
  });

  it("leaves open what single takes cannot be compared by: echoes, and a clock that is not known", () => {
    const swept = change({ order: "ABAB", change: { warnings: ["restless"], clockPpm: null } });
    expect(kinds(swept)).toEqual(["restless", "unclocked"]);
  });

  it("compares the takes at the gap of each side's last one", () => {
    const other = takesOf({ order: "A", change: { gapMm: 1, id: "other" } });
    const swept = sweptChange([...other, ...takesOf({ order: "ABAB", shifts })])!;
    expect(swept.takes.map(({ id }) => id)).toEqual(["0", "1", "2", "3"]);
    expect(sweptChange(other)).toBeNull();
  });

  it("follows a resonance that one take has missed, and none that one side never had", () => {
    const takes = takesOf({ order: "ABAB", shifts });
    const without = (k: number, take: number) =>
      takes.map((one, i) =>
        i === take ? { ...one, resonances: one.resonances.filter((_, j) => j !== k) } : one,
      );
    expect(sweptChange(without(4, 2))!.resonances).toHaveLength(HZ.length);
    const never = takes.map((one) =>
      one.side === "after" ? { ...one, resonances: one.resonances.slice(1) } : one,
    );
    expect(sweptChange(never)!.resonances).toHaveLength(HZ.length - 1);
  });
});

describe("the plan", () => {
  it("goes from one to the other and back", () => {
    const order: string[] = [];
    const takes: { side: "before" | "after" }[] = [];
    for (let i = 0; i < 6; i++) {
      const { next } = sweepPlan(takes, true);
      order.push(next === "before" ? "A" : "B");
      takes.push({ side: next });
    }
    expect(order.join("")).toBe("ABABAB");
    expect(sweepPlan(takes, true).isDone).toBe(true);
  });

  it("takes all of before first where nothing can be changed back", () => {
    const before = { side: "before" } as const;
    expect(sweepPlan([before, before], false).next).toBe("before");
    expect(sweepPlan([before, before, before], false).next).toBe("after");
    expect(sweepPlan([before, { side: "after" }], false).next).toBe("after");
  });
});
