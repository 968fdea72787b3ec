import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../../src/setup/file/readSetup.ts";
import { gapMm, type Setup } from "../../../src/setup/setup.ts";
import { flowPath } from "../../../src/study/blown/flowPath.ts";
import { resistance, resistanceCurve } from "../../../src/study/blown/resistance.ts";
import { findingOf, resistanceChange } from "../../../src/study/blown/resistanceChange.ts";
import { anySetup, demo } from "../../acoustics/setups.ts";
import { numbers } from "../../reference/table.ts";
import { exampleFile } from "../../setup/example.ts";

const example = (air?: object): Setup => readSetup({ ...exampleFile(), ...(air ? { air } : {}) });
const FIGURES = ["lower", "estimate", "upper"] as const;

describe("resistance of an instrument", () => {
  it("equals, part by part, what the handbook's terms add up to outside the project", () => {
    const setup = example({
      density: 1.17,
      soundSpeed: 347,
      viscosity: 1.85e-5,
      heatRatio: 1.4,
      prandtl: 0.71,
    });
    const rows = numbers("flow/path.csv");
    expect(rows.length).toBe(4);
    for (const [litres, cup, throat, backbore, lower, upper, leadpipe, body, bell] of rows) {
      const { parts, gap, throatEdge, dropPa } = resistance(setup, { litresPerMinute: litres });
      const drops = Object.fromEntries(parts.map(({ part, dropPa }) => [part, dropPa]));
      for (const [part, outside] of Object.entries({ cup, throat, backbore, leadpipe, body, bell }))
        expect(Math.abs(drops[part] / outside - 1), part).toBeLessThan(1e-3);
      expect(gap.dropPa.lower / lower).toBeCloseTo(1, 9);
      expect(gap.dropPa.upper / upper).toBeCloseTo(1, 9);
      expect(drops.gap).toBe(gap.dropPa.estimate);
      const rest = cup + throat + backbore + leadpipe + body + bell;
      const sharper = throatEdge.dropPa.upper - throatEdge.dropPa.estimate;
      expect(dropPa.upper / (rest + sharper + upper)).toBeCloseTo(1, 3);
    }
  });

  it("splits the mouthpiece at its throat: the stated cup depth, as far as the bore stays narrow", () => {
    const { pipes } = flowPath(demo());
    const length = (part: "cup" | "throat" | "backbore") =>
      1000 * pipes[part].reduce((sum, cone) => sum + cone.length, 0);
    expect(length("cup")).toBeCloseTo(10.04, 9);
    expect(length("throat")).toBeCloseTo(6.2, 9);
    expect(length("backbore")).toBeCloseTo(86 - 16.24, 9);
    // a stated depth inside a cone cuts it, and one past the throat leaves none
    const at = (cupDepthMm: number) =>
      flowPath({ ...demo(), mouthpiece: { ...demo().mouthpiece, cupDepthMm } }).pipes;
    expect(at(9.9).cup.at(-1)!.radiusOut).toBeCloseTo(at(9.9).throat[0].radiusIn, 12);
    expect(at(40).throat).toEqual([]);
    // without a throat or a backbore there is nothing to lose in them
    const { parts } = resistance({
      ...demo(),
      mouthpiece: {
        profileMm: [
          [0, 16],
          [80, 8.4],
        ],
        insertionMm: 22,
      },
    });
    expect(parts[1]).toMatchObject({ part: "throat", entryMm: 8.4, dropPa: 0 });
    expect(parts[2]).toMatchObject({ part: "backbore", entryMm: 8.4, dropPa: 0 });
  });

  it("adds up, keeps its bounds in order and rises with flow, for any instrument", () => {
    fc.assert(
      fc.property(anySetup, fc.double({ min: 0.01, max: 20, noNaN: true }), (setup, litresPerMinute) => {
        const here = resistance(setup, { litresPerMinute });
        const more = resistance(setup, { litresPerMinute: 1.02 * litresPerMinute });
        const { dropPa, parts, gap } = here;
        expect(parts.reduce((sum, part) => sum + part.dropPa, 0) / dropPa.estimate).toBeCloseTo(1, 9);
        expect(parts.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 9);
        expect(parts).toHaveLength(7);
        for (const part of parts) {
          expect(part.frictionPa).toBeGreaterThanOrEqual(0);
          expect(part.areaChangePa).toBeGreaterThanOrEqual(-1e-12);
          expect(part.reynolds[0]).toBeLessThanOrEqual(part.reynolds[1]);
        }
        expect(dropPa.lower).toBeGreaterThan(0);
        expect(dropPa.estimate).toBeGreaterThanOrEqual(dropPa.lower);
        expect(dropPa.upper).toBeGreaterThanOrEqual(dropPa.estimate * (1 - 1e-12));
        expect(gap.share.upper).toBeLessThan(1);
        // whatever the throat's edge takes
        expect(gap.share.lower).toBeLessThanOrEqual(gap.share.estimate);
        expect(gap.share.estimate).toBeLessThanOrEqual(gap.share.upper);
        for (const figure of FIGURES) expect(more.dropPa[figure]).toBeGreaterThan(dropPa[figure]);
      }),
      { numRuns: 60 },
    );
  });

  it("has pascals, and pascals over cubic metres a second", () => {
    const { dropPa, resistance: R, mach } = resistance(demo(), { litresPerMinute: 30 });
    expect(R!.estimate).toBeCloseTo(dropPa.estimate / 5e-4, 6);
    // 30 L/min through 3.7 mm
    expect(mach).toBeCloseTo(5e-4 / (Math.PI * 0.00185 ** 2) / 347.7, 2);
  });

  it("answers the extremes steadily, or says what would do", () => {
    for (const gap of [0, 12]) {
      const none = resistance(demo(), { gapMm: gap, litresPerMinute: 0 });
      expect(none.dropPa).toEqual({ lower: 0, estimate: 0, upper: 0 });
      expect(none.resistance).toBeNull();
      const crawl = resistance(demo(), { gapMm: gap, litresPerMinute: 1e-9 });
      expect(crawl.resistance!.estimate).toBeGreaterThan(0);
      expect(Number.isFinite(crawl.resistance!.estimate)).toBe(true);
    }
    expect(() => resistance(demo(), { litresPerMinute: 1e9 })).toThrow(/too fast for a bore of 3\.70 mm/);
    const [, most] = /above ([\d.]+) L/.exec(
      String(catching(() => resistance(demo(), { litresPerMinute: 500 }))),
    )!;
    expect(resistance(demo(), { litresPerMinute: Number(most) - 1 }).mach).toBeLessThan(0.5);
    for (const litresPerMinute of [-1, Number.NaN, Infinity])
      expect(() => resistance(demo(), { litresPerMinute })).toThrow(/give 0 or more/);
    expect(() => resistance(demo(), { gapMm: 30 })).toThrow(/24\.5/);
  });

  it("is a curve: laminar at first, nearly the square of the flow later", () => {
    const [soft, twice, loud, louder] = resistanceCurve(demo(), [1e-3, 2e-3, 30, 60]);
    expect(twice.dropPa.estimate / soft.dropPa.estimate).toBeCloseTo(2, 1);
    const power = Math.log2(louder.dropPa.estimate / loud.dropPa.estimate);
    expect(power).toBeGreaterThan(1.75);
    expect(power).toBeLessThan(2);
  });

  it("names the edge the stream meets", () => {
    const withMouth = (mm: number) => ({
      ...demo(),
      leadpipe: { profileMm: [[0, mm], ...demo().leadpipe.profileMm.slice(1)] as [number, number][] },
    });
    expect(resistance(withMouth(8)).gap.edge).toBe("faces the air flow");
    expect(resistance(withMouth(8.4)).gap.edge).toBe("is flush");
    expect(resistance(withMouth(8.75)).gap.edge).toBe("stands outside the air flow");
  });
});

function catching(work: () => unknown): unknown {
  try {
    return work();
  } catch (error) {
    return error;
  }
}

describe("a change of gap", () => {
  it("is too small to notice in the demo: even its bounds stay below 4 % of the least the whole may be", () => {
    const change = resistanceChange(demo(), { gapMm: 5.04 });
    expect(change.finding).toBe("too-small");
    expect(change.rangePercent.length).toBeGreaterThan(0);
    for (const bound of change.rangePercent) expect(Math.abs(bound)).toBeLessThan(4);
    for (const figure of FIGURES) {
      expect(change.changePercent[figure]).toBeGreaterThanOrEqual(change.rangePercent[0]);
      expect(change.changePercent[figure]).toBeLessThanOrEqual(change.rangePercent[1]);
    }
    expect(change.changePa.estimate).toBeCloseTo(
      change.chosen.dropPa.estimate - change.reference.dropPa.estimate,
      12,
    );
  });

  it("agrees or disagrees only where no figure between the bounds could be felt the other way", () => {
    const against = (gap: number, referenceGapMm: number, thresholdPercent: number) =>
      resistanceChange(demo(), { gapMm: gap, referenceGapMm, thresholdPercent }).finding;
    expect(against(2.5, 2.5, 10)).toBe("same-gap");
    expect(against(8, 2.5, 10)).toBe("too-small");
    expect(against(8, 2.5, 0.2)).toBe("unknown");
    // from no gap, where there is no doubt, to one, for someone who felt a thousandth
    expect(against(8, 0, 0.1)).toBe("agrees");
    expect(against(0, 8, 0.1)).toBe("agrees");
    expect(findingOf(1, 12, [-2, 20], 10)).toBe("agrees");
    expect(findingOf(1, -12, [-20, 2], 10)).toBe("disagrees");
    expect(findingOf(-1, 12, [-2, 20], 10)).toBe("disagrees");
    expect(findingOf(1, 12, [-11, 20], 10)).toBe("unknown");
    expect(findingOf(1, 9, [-9, 11], 10)).toBe("unknown");
    expect(findingOf(1, 9, [-9, 9.5], 10)).toBe("too-small");
  });

  it("has an equivalent bore that really changes the leadpipe's loss as much", () => {
    const change = resistanceChange(demo(), { gapMm: 8 });
    const wider = change.equivalentBoreMm.estimate!;
    // more loss from the gap is a narrower leadpipe
    expect(change.changePa.estimate).toBeGreaterThan(0);
    expect(wider).toBeLessThan(0);
    const leadpipe = { profileMm: demo().leadpipe.profileMm.map(([x, d]) => [x, d + wider] as const) };
    const loss = (setup: Setup) => resistance(setup).parts.find(({ part }) => part === "leadpipe")!.dropPa;
    expect(loss({ ...demo(), leadpipe }) - loss(demo())).toBeCloseTo(change.changePa.estimate, 6);
  });

  it("has none where no leadpipe is worth as much, and a zero one for no change", () => {
    const short = {
      ...demo(),
      leadpipe: {
        profileMm: [
          [0, 8.75],
          [0.1, 8.75],
        ] as [number, number][],
      },
    };
    expect(resistanceChange(short, { gapMm: 0, referenceGapMm: 12 }).equivalentBoreMm.upper).toBeNull();
    expect(resistanceChange(demo(), { gapMm: gapMm(demo()) }).equivalentBoreMm.estimate).toBe(0);
    expect(() => resistanceChange(demo(), { gapMm: 1, thresholdPercent: 0 })).toThrow(/such as 10/);
  });
});
