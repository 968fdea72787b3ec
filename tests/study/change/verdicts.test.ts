import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/setup/setup.ts";
import { modeChanges } from "../../../src/study/change/modeChanges.ts";
import {
  atOtherThresholds,
  type Change,
  findingAt,
  judgedTest,
  type Test,
  verdicts,
} from "../../../src/study/change/verdicts.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { inContext } from "../../../src/study/instrument/modeTable.ts";
import { evidenceWords } from "../../../src/words/verdicts/evidence.ts";
import { demo } from "../../acoustics/setups.ts";

function judge(setup: Setup, referenceGapMm: number, chosenGapMm: number) {
  const instrument = new Instrument(setup);
  const reference = inContext(instrument.modes(referenceGapMm));
  const all = verdicts({
    referenceGapMm,
    chosenGapMm,
    chosen: modeChanges(instrument.modes(chosenGapMm), reference),
    closed: modeChanges(instrument.modes(0), reference),
    thresholds: setup.thresholds,
    uncertainty: null,
    closedUncertainty: null,
  });
  return Object.fromEntries(all.map((verdict) => [verdict.claim, verdict]));
}

/** The demo with a receiver twice as wide: a gap that is a chamber. */
const chambered = (): Setup => ({
  ...demo(),
  receiver: { mouthDiameterMm: 26, taper: 0, depthMm: 40 },
  mouthpiece: { ...demo().mouthpiece, insertionMm: 37.5, shankEndDiameterMm: 25, shankTaper: 0 },
});

describe("verdicts", () => {
  it("finds a tenth of an inch too small to notice on the demo, with the number and the threshold", () => {
    const { slots, resistance, tenth } = judge(demo(), 2.5, 5.04);
    expect(slots.finding).toBe("too-small");
    expect(evidenceWords(slots)).toMatch(/Peak height −0\.\d\d to \+0\.\d\d dB \(just noticeable: 1 dB\)/);
    // no peak says how hard an instrument blows
    expect(resistance.finding).toBeNull();
    expect(tenth.finding).toBe("not-for-a-model");
  });

  it("changes with the instrument: nothing in it is written down", () => {
    expect(judge(demo(), 2.5, 22.5).slots.finding).toBe("mixed");
    expect(judge(chambered(), 2.5, 22.5).slots.finding).toBe("mixed");
    // one spacing of eight goes the rule's way: no overall change
    const wide = judge(demo(), 2.5, 10).slots;
    expect(wide.finding).toBe("mixed");
    expect(evidenceWords(wide, "b-flat-trumpet")).toMatch(
      /\+4\.\d cents \(just noticeable: 3\.5 cents; noticed: C in the staff \(4\)\)/,
    );
  });

  it("turns round with the direction: narrower is the rule the other way", () => {
    const wider = judge(chambered(), 2.5, 22.5).slots;
    const narrower = judge(chambered(), 22.5, 2.5).slots;
    expect(narrower.finding).toBe(wider.finding);
    expect(narrower.tests[0].asked).toBe(-1);
    expect(narrower.tests[0].changes).toHaveLength(9);
    narrower.tests[0].changes.forEach(({ change }, i) => {
      expect(change).toBeCloseTo(-wider.tests[0].changes[i].change, 9);
    });
  });

  it("holds a change against the person's own thresholds", () => {
    const keen = { ...demo(), thresholds: { ...demo().thresholds, cents: 0.001, decibels: 0.0001 } };
    expect(["agrees", "disagrees", "mixed"]).toContain(judge(keen, 2.5, 5).slots.finding);
  });

  it("has nothing to say between a gap and itself", () => {
    expect(judge(demo(), 2.5, 2.5).slots.finding).toBe("same-gap");
  });
});

const test = (asked: Test["asked"], ...changes: [change: number, expanded: number | null][]): Test =>
  judgedTest({
    quantity: "peak-height",
    of: "resonance",
    changes: changes.map(([change, expanded], i): Change => ({ n: i + 2, change, expanded })),
    doubt: "expanded",
    unit: "dB",
    threshold: 1,
    asked,
  });
const found = (...args: Parameters<typeof test>) => test(...args).finding;

describe("what notes say together", () => {
  it("agrees where all together go the rule's way and none noticeably the other", () => {
    expect(found(1, [2, 0.1], [0.5, 0.1])).toBe("agrees");
    expect(found(-1, [2, 0.1], [0.5, 0.1])).toBe("disagrees");
    expect(found(1, [5, 0.1], [-1.5, 0.1])).toBe("mixed");
    // a rise and a fall that would cancel in a mean
    expect(found(1, [2, null], [-2, null])).toBe("mixed");
  });

  it("is no overall change where one of nine goes the rule's way", () => {
    const others = Array.from({ length: 8 }, (): [number, number] => [0.1, 0.01]);
    expect(found(1, [2, 0.1], ...others)).toBe("mixed");
    expect(found(-1, [2, 0.1], ...others)).toBe("mixed");
  });

  it("calls small what is small, and owns up to what the uncertainty hides", () => {
    expect(found(1, [0.5, 0.1], [-0.9, 0.3])).toBe("too-small");
    expect(found(1, [0.5, null])).toBe("too-small");
    expect(found(1, [0.5, 1.2])).toBe("unknown");
    expect(found(1, [2, 2.5], [0.1, 0.1])).toBe("unknown");
  });

  it("of a claim that something changes asks for half of the notes, whichever way", () => {
    expect(found(0, [2, 0.1], [-2, 0.1])).toBe("agrees");
    expect(found(0, [2, 0.1], [0.1, 0.1], [0.1, 0.1])).toBe("mixed");
    expect(found(0, [0.2, 0.1], [0.1, 0.1])).toBe("too-small");
  });

  it("says what half and twice the threshold would find", () => {
    const one = test(1, [0.8, 0.1], [0.7, 0.1]);
    expect([findingAt(one, 0.5), one.finding, findingAt(one, 2)]).toEqual([
      "agrees",
      "too-small",
      "too-small",
    ]);
    expect(atOtherThresholds({ tests: [one] })).toEqual({ half: "agrees", twice: "too-small" });
    expect(atOtherThresholds({ tests: [] })).toBeNull();
  });

  it("is never decided by a change within its own uncertainty, whatever the numbers", () => {
    const finite = fc.double({ min: -10, max: 10, noNaN: true });
    const positive = fc.double({ min: 0, max: 10, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(finite, positive), { minLength: 1 }), (values) => {
        const finding = found(1, ...values);
        const isDecided = (change: number, expanded: number) =>
          Math.abs(change) >= 1 && Math.abs(change) > expanded;
        if (!values.some(([change, expanded]) => isDecided(change, expanded)))
          expect(finding === "mixed").toBe(false);
        if (finding === "agrees") {
          expect(values.reduce((sum, [change]) => sum + change, 0) / values.length).toBeGreaterThanOrEqual(1);
          expect(values.some(([change, expanded]) => change < 0 && isDecided(change, expanded))).toBe(false);
        }
      }),
    );
  });
});

describe("an exploration", () => {
  it("answers with the same numbers as the studies, the reference computed once", () => {
    const exploration = new Exploration(demo());
    const first = exploration.explore(4, 2.5, 4);
    const again = exploration.explore(5, 2.5, 4);
    expect(again.reference).toBe(first.reference);
    const modes = new Instrument(demo()).modes(4);
    expect(first.chosen.modes).toHaveLength(12);
    first.chosen.modes.forEach((mode, i) => {
      expect(mode.frequencyHz / modes[i].frequencyHz).toBeCloseTo(1, 9);
    });
    expect(first.wave.n).toBe(4);
  });
});
