import { describe, expect, it } from "vitest";
import {
  farthest,
  leadInWords,
  orderHolds,
  rankingBy,
  shownOf,
  tooWide,
  WISHES,
  type Wish,
  worstBump,
} from "../../notebooks/three-leadpipes/compared.ts";
import { bumpExtentMm, drawings, tuned } from "../../notebooks/three-leadpipes/leadpipes.ts";
import type { Setup } from "../../src/setup/setup.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { cents } from "../../src/study/instrument/pitch.ts";
import type { ComparedVariant } from "../../workers/instrument/compare.ts";
import { Compare } from "../../workers/instrument/compare.ts";
import { fitted, truthMm } from "./pipeMade.ts";

async function compared(): Promise<readonly ComparedVariant[]> {
  const worker = new Compare();
  await worker.load(drawings[0].setup);
  const question = {
    variants: drawings,
    reference: 0,
    retune: tuned,
    errorExtentMm: bumpExtentMm,
    withNotes: true,
  };
  const answer = await worker.compare({ ...question, ticket: 1 }, () => {});
  if (answer === null || "refused" in answer) throw new Error("no comparison");
  return answer;
}

const shown = shownOf(await compared());

describe("three leadpipes", () => {
  it("lie as far apart as instruments of their own do, tuned alike", () => {
    const [reference, ...others] = drawings.map(({ setup, gapMm }) => ({
      instrument: new Instrument(setup),
      gapMm,
    }));
    const target = reference.instrument.modes(reference.gapMm);
    expect(others).toHaveLength(2);
    others.forEach(({ instrument, gapMm }, i) => {
      const drawMm = instrument.drawFor(tuned, target[tuned - 1].frequencyHz, gapMm);
      const shifts = instrument
        .modes(gapMm, drawMm)
        .slice(1, 10)
        .map(({ frequencyHz }, k) => cents(frequencyHz, target[k + 1].frequencyHz));
      const most = shifts.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
      expect(farthest(shown[i + 1]).cents).toBeCloseTo(most, 6);
    });
  });

  it("move by an error of the whole bore as a wider leadpipe does", () => {
    const errorMm = 0.01;
    const { setup, gapMm } = drawings[0];
    const wider: Setup = {
      ...setup,
      leadpipe: { profileMm: setup.leadpipe.profileMm.map(([x, d]) => [x, d + errorMm] as const) },
    };
    const found = tooWide(shown[0], errorMm)!;
    const at = (of: Setup) => new Instrument(of).modes(gapMm)[found.n - 1].frequencyHz;
    expect(Math.abs(cents(at(wider), at(setup)) / found.cents - 1)).toBeLessThan(0.02);
    // twice the error does twice as much, and one place less than all
    expect(worstBump(shown[0], 2 * errorMm).cents).toBeCloseTo(2 * worstBump(shown[0], errorMm).cents, 12);
    expect(Math.abs(worstBump(shown[0], errorMm).cents)).toBeLessThan(Math.abs(found.cents));
  });

  it("are ranked by each wish, the best first, and told whether that could be felt", () => {
    for (const wish of Object.keys(WISHES) as Wish[]) {
      const ranking = rankingBy(shown, wish);
      const scores = ranking.ranked.map(({ score }) => score);
      expect(scores).toEqual([...scores].sort((a, b) => a - b));
      expect(scores.length).toBe(3);
      const words = leadInWords(ranking);
      if (ranking.span < WISHES[wish].feltFrom) expect(words).toMatch(/nothing to choose/);
      else if (ranking.lead < WISHES[wish].feltFrom) expect(words).toMatch(/too small to notice/);
      else expect(words).toMatch(/more than/);
    }
    expect(rankingBy(shown, "tune").ranked[0].name).toBe("Even taper");
    expect(rankingBy(shown, "low").ranked[0].name).not.toBe("Even taper");
  });

  it("keep their order with a small error and may not with a large one", () => {
    const byTune = rankingBy(shown, "tune");
    expect(orderHolds(shown, byTune, 0.05)).toBe(true);
    expect(orderHolds(shown, byTune, 1)).toBe(false);
  });
});

describe("the pipe that was made", () => {
  it("is blamed on the gap alone with a narrow interval that misses the truth, and found out by what is left over", () => {
    const { estimates, judgement } = fitted("gap");
    const [low, high] = estimates[0].interval!;
    expect(truthMm < low || truthMm > high).toBe(true);
    expect(judgement).toBe("wrong");
  });
});
