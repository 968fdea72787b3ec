import { describe, expect, it } from "vitest";
import { levelLoss } from "../../../src/study/blown/levelLoss.ts";
import { levelSteps } from "../../../src/study/blown/levelSteps.ts";
import type { ResistanceFinding } from "../../../src/study/blown/resistanceChange.ts";
import { type ResistanceChangeLike, resistanceChangeLike } from "../../../src/study/blown/resistanceLike.ts";
import type { Basis, Evidence } from "../../../src/study/change/verdicts.ts";
import { closedSteps, type Done, type FeltQuestion, feltSteps } from "../../../src/study/feel/felt.ts";
import {
  attackEvidence,
  closedEvidence,
  resistanceEvidence,
  slotEvidence,
  tooNarrowEvidence,
  tooWideEvidence,
} from "../../../src/study/feel/feltVerdicts.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import {
  type NoteChange,
  type SlotChange,
  type SlotWidthFinding,
  slotChange,
} from "../../../src/study/feel/slotChange.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { evidenceWords } from "../../../src/words/verdicts/evidence.ts";
import { testName } from "../../../src/words/verdicts/tests.ts";
import { demo } from "../../acoustics/setups.ts";

const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
const question: FeltQuestion = { gapMm: 5.04, referenceGapMm: 2.5, litresPerMinute: 20 };

function last<T>(steps: Generator<Done, T, void>): { readonly told: Done[]; readonly value: T } {
  const told: Done[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done) return { told, value: step.value };
    told.push(step.value);
  }
}

const SIZES: Readonly<Record<SlotWidthFinding, number>> = {
  firmer: 10,
  looser: -10,
  "too-small": 0.5,
  "depends-on-lips": 3,
  "both-ways": 0,
};

/** A change of slots as the study gives it, with what one asks for. */
function slots(
  finding: SlotWidthFinding | null,
  notes: readonly (SlotWidthFinding | null)[],
  widening = 1,
): SlotChange {
  const change = (value: number) => ({ change: value, range: [value - 1, value + 1] as const });
  return {
    referenceGapMm: 2,
    chosenGapMm: 2 + widening,
    noticedCents: 3.5,
    byModel: [],
    finding,
    slotWidthCents: change(finding ? SIZES[finding] : 0.5),
    notes: notes.map(
      (one, i): NoteChange => ({
        n: i + 2,
        slotWidthCents: change(one ? SIZES[one] : 0),
        pull: change(0.01),
        margin: null,
        marginRatio: null,
        threshold: change(0.001 * i),
        finding: one,
      }),
    ),
  };
}

const small = "too-small";
const flow = resistanceChangeLike(demo(), question);
const DROPS: Readonly<Record<string, readonly [change: number, low: number, high: number]>> = {
  agrees: [20, 15, 25],
  disagrees: [-20, -25, -15],
  "too-small": [0.2, -1, 1],
  unknown: [9, -9, 11],
};
const withFlow = (finding: ResistanceFinding): ResistanceChangeLike => {
  const [change, low, high] = DROPS[finding];
  return {
    ...flow,
    finding,
    changePercent: { lower: change, estimate: change, upper: change },
    rangePercent: [low, high],
  };
};
const withThreshold = (change: SlotChange, value: number, doubt: number): SlotChange => ({
  ...change,
  notes: change.notes.map((note) => ({
    ...note,
    threshold: { change: value, range: [value - doubt, value + doubt] },
  })),
});

describe("what lips say of slots", () => {
  it("goes by the study's finding, turned round where the gap gets narrower", () => {
    expect(slotEvidence(slots("firmer", ["firmer"])).finding).toBe("agrees");
    expect(slotEvidence(slots("looser", ["looser"])).finding).toBe("disagrees");
    expect(slotEvidence(slots("firmer", ["firmer"], -1)).finding).toBe("disagrees");
    expect(slotEvidence(slots("looser", ["looser"], -1)).finding).toBe("agrees");
    expect(slotEvidence(slots(small, [small])).finding).toBe(small);
    expect(slotEvidence(slots("depends-on-lips", ["depends-on-lips"])).finding).toBe("unknown");
    expect(slotEvidence(slots("both-ways", ["firmer", "looser"])).finding).toBe("mixed");
  });

  it("is no overall change where single notes change and all together do not", () => {
    expect(slotEvidence(slots(small, [small, "firmer"])).finding).toBe("mixed");
    expect(slotEvidence(slots(small, [small, "looser"])).finding).toBe("mixed");
    expect(slotEvidence(slots(small, [small, "looser"], -1)).finding).toBe("mixed");
    expect(slotEvidence(slots("firmer", ["firmer", "looser"])).finding).toBe("mixed");
  });

  it("says which notes, the range over the lips and the threshold", () => {
    const evidence = slotEvidence(slots(small, [small, "firmer"]));
    expect(evidenceWords(evidence)).toContain(
      "(−0.5 to +1.5 over the lips tried; just noticeable: 3.5 cents; firmer: partial 3)",
    );
    expect(evidence.tests[0].changes[1]).toMatchObject({ n: 3, change: 10, range: [9, 11] });
  });

  it("sends to the blind trial where the model finds less than can be felt, and only there", () => {
    expect(evidenceWords(slotEvidence(slots(small, [small])))).toContain("only a blind trial can tell");
    expect(evidenceWords(slotEvidence(slots("firmer", ["firmer"])))).not.toContain("blind trial");
  });

  it("has words where no note can be started", () => {
    const none = { ...slots(null, []), slotWidthCents: null };
    expect(slotEvidence(none)).toMatchObject({ finding: "not-possible", tests: [] });
  });
});

describe("what stream and lips say of resistance", () => {
  it("always says which resistance is meant", () => {
    const evidence = resistanceEvidence(flow, slots(small, [small, small]));
    expect(evidenceWords(evidence)).toMatch(
      /Backpressure: pressure drop [+−]\d.* % at 20 L\/min .* Starting pressures .* %/,
    );
    // the demo is assumed: the stream is told over instruments like it, the lips were tried on the drawing
    expect(evidenceWords(evidence)).toContain("% between the bounds, on instruments like it)");
    expect(evidenceWords(evidence)).not.toContain("drawing only");
    const basis = { ...evidence.basis, areLipsOfDrawingOnly: true } as Basis;
    expect(evidenceWords({ ...evidence, basis })).toContain("% over the lips tried, on this drawing only).");
    expect(evidence.tests.map((test) => testName(test).split(":")[0])).toEqual([
      "backpressure",
      "starting pressure of each note",
    ]);
  });

  it("takes both together: what decides, else what hides, else too small", () => {
    const still = withThreshold(slots(small, [small]), 0, 0.01);
    expect(resistanceEvidence(withFlow(small), still).finding).toBe(small);
    expect(resistanceEvidence(withFlow("agrees"), still).finding).toBe("agrees");
    expect(resistanceEvidence(withFlow("unknown"), still).finding).toBe("unknown");
    expect(resistanceEvidence(withFlow(small), withThreshold(still, 0.2, 0.05)).finding).toBe("agrees");
    expect(resistanceEvidence(withFlow(small), withThreshold(still, -0.2, 0.05)).finding).toBe("disagrees");
    expect(resistanceEvidence(withFlow("disagrees"), withThreshold(still, 0.2, 0.05)).finding).toBe("mixed");
    expect(resistanceEvidence(withFlow(small), withThreshold(still, 0.12, 0.05)).finding).toBe("unknown");
  });

  it("without a gap asks for less, and says which bore would do the same, in both units", () => {
    const change = resistanceChangeLike(demo(), { gapMm: 0, referenceGapMm: 2.5 });
    const evidence = closedEvidence(change, slots(small, [small], -1));
    expect(evidence.tests.every(({ asked }) => asked === -1)).toBe(true);
    expect(evidenceWords(evidence)).toMatch(/as if the leadpipe were \d\.\d\d mm \(\d\.\d{3} in\) wider/);
  });
});

describe("the steps", () => {
  it("come to what the studies say, telling of every set of lips", () => {
    const { told, value } = last(feltSteps(instrument, question));
    const change = slotChange(instrument, 5.04, { referenceGapMm: 2.5 });
    // the demo is assumed, and lips are tried on the drawing alone
    const drawn = (evidence: Evidence) => ({
      ...evidence,
      basis: { ...evidence.basis, areLipsOfDrawingOnly: true },
    });
    expect(value).toEqual({
      slots: drawn(slotEvidence(change)),
      resistance: drawn(resistanceEvidence(flow, change)),
      tooWide: drawn(tooWideEvidence(change, demo().thresholds)),
      tooNarrow: drawn(tooNarrowEvidence(change, demo().thresholds)),
      attack: drawn(attackEvidence(change, demo().thresholds)),
      change,
    });
    const whole = new Instrument({ ...demo(), provenance: {} }, { modes: MODAL_COUNT });
    expect(last(feltSteps(whole, question)).value.slots).toEqual(slotEvidence(change));
    expect(told).toEqual(told.map((_, i) => ({ done: i + 1, of: told.length })));
    expect(told.length).toBeGreaterThan(10);
  });

  it("have nothing to do between a gap and itself, and say where a gap never closes", () => {
    const same = last(feltSteps(instrument, { ...question, gapMm: 2.5 }));
    expect(same).toMatchObject({ told: [], value: { slots: { finding: "same-gap" }, change: null } });
    const tight = { ...demo(), receiver: { ...demo().receiver, taper: 0.12 } };
    const never = last(closedSteps(new Instrument(tight, { modes: MODAL_COUNT }), question));
    expect(never.value.finding).toBe("not-possible");
  });

  it("give the same peaks as all levels at once", () => {
    const few = new Instrument(demo(), { modes: 4 });
    const { told, value } = last(levelSteps(few, [2.5, 4], [120, 150]));
    expect(value).toEqual(levelLoss(few, { gapsMm: [2.5, 4], levelsDb: [120, 150] }));
    expect(told.at(-1)).toEqual({ done: 4, of: 4 });
  });
});
