import { describe, expect, it } from "vitest";
import type { Setup } from "../../src/setup/setup.ts";
import { Exploration } from "../../src/study/exploration.ts";
import { Instrument } from "../../src/study/instrument.ts";
import { inContext } from "../../src/study/modeTable.ts";
import { verdicts } from "../../src/study/verdicts.ts";
import { demo } from "../acoustics/setups.ts";

function judge(setup: Setup, referenceGapMm: number, chosenGapMm: number) {
  const instrument = new Instrument(setup);
  const at = (gapMm: number) => inContext(instrument.modes(gapMm));
  const all = verdicts({
    referenceGapMm,
    chosenGapMm,
    reference: at(referenceGapMm),
    chosen: at(chosenGapMm),
    closed: at(0),
    thresholds: setup.thresholds,
  });
  return Object.fromEntries(all.map((verdict) => [verdict.claim, verdict]));
}

/** The demo with a receiver twice as wide: a gap that is a chamber. */
const chambered = (): Setup => ({
  ...demo(),
  receiver: { mouthDiameterMm: 26, taper: 0, depthMm: 40 },
  mouthpiece: { ...demo().mouthpiece, insertionMm: 37.5, shankEndDiameterMm: 25, shankTaper: 0 },
});

/** A long gap in a receiver a little wider than the bore, for someone who feels a tenth of a decibel and no pitch. */
const lined = (): Setup => ({
  ...demo(),
  receiver: { mouthDiameterMm: 14, taper: 0, depthMm: 60 },
  mouthpiece: { ...demo().mouthpiece, insertionMm: 57.5, shankEndDiameterMm: 11, shankTaper: 0 },
  thresholds: { cents: 50, decibels: 0.1 },
});

describe("verdicts", () => {
  it("finds a tenth of an inch too small to feel on the demo, with the number and the threshold", () => {
    const { slots, resistance, tenth } = judge(demo(), 2.5, 5.04);
    expect(slots.finding).toBe("too small to feel");
    expect(slots.model).toMatch(/Peak height [+−]0\.\d\d dB \(felt from 1 dB\)/);
    expect(resistance.finding).toBe("not modelled yet");
    expect(tenth.finding).toBe("not a question a model can answer");
  });

  it("changes with the instrument: nothing in it is written down", () => {
    expect(judge(demo(), 2.5, 22.5).slots.finding).toBe("too small to feel");
    expect(judge(chambered(), 2.5, 22.5).slots.finding).toBe("agrees");
    expect(judge(lined(), 2.5, 40).slots.finding).toBe("disagrees");
  });

  it("turns round with the direction: narrower is the rule the other way", () => {
    const wider = judge(chambered(), 2.5, 22.5).slots;
    const narrower = judge(chambered(), 22.5, 2.5).slots;
    expect(narrower.finding).toBe(wider.finding);
    expect(narrower.tests[0].asked).toBe(-1);
    expect(narrower.tests[0].change).toBeCloseTo(-wider.tests[0].change, 9);
  });

  it("holds a change against the person's own thresholds", () => {
    const keen = { ...demo(), thresholds: { cents: 0.001, decibels: 0.0001 } };
    expect(["agrees", "disagrees"]).toContain(judge(keen, 2.5, 5).slots.finding);
  });

  it("has nothing to say between a gap and itself", () => {
    expect(judge(demo(), 2.5, 2.5).slots.finding).toBe("same gap");
  });
});

describe("an exploration", () => {
  it("answers with the same numbers as the studies, the reference computed once", () => {
    const exploration = new Exploration(demo());
    const first = exploration.explore(4, 2.5, 4);
    const again = exploration.explore(5, 2.5, 4);
    expect(again.reference).toBe(first.reference);
    const modes = new Instrument(demo()).modes(4);
    first.chosen.modes.forEach((mode, i) => {
      expect(mode.frequencyHz / modes[i].frequencyHz).toBeCloseTo(1, 9);
    });
    expect(first.wave.n).toBe(4);
  });
});
