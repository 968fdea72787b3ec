import { describe, expect, it } from "vitest";
import { NORMAL_COVERAGE } from "../../../src/bench/measure/combinedUncertainty.ts";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import { dimensionAt } from "../../../src/setup/dimension/dimension.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { withGap } from "../../../src/setup/withGap.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { changeUncertainty } from "../../../src/study/uncertainty/changeUncertainty.ts";
import { Contributions } from "../../../src/study/uncertainty/contributions.ts";
import {
  type MonteCarlo,
  type MonteCarloOptions,
  monteCarloSteps,
} from "../../../src/study/uncertainty/monteCarlo.ts";
import { evidenceWords } from "../../../src/words/verdicts/evidence.ts";
import { demo as assumedDemo } from "../../acoustics/setups.ts";

/** The demo with its stated uncertainties alone: what is assumed would come on top. */
const demo = (): Setup => ({ ...assumedDemo(), provenance: {} });
const exact = Infinity;
const knownTo = (uncertainties: Record<string, number>, degreesOfFreedom = exact): Setup => ({
  ...demo(),
  uncertainties: Object.fromEntries(
    Object.entries(uncertainties).map(([path, standard]) => [path, { standard, degreesOfFreedom }]),
  ),
});

function firstOrder(setup: Setup, referenceGapMm: number, gapMm: number, retune: number | null = null) {
  const contributions = new Contributions(new Instrument(setup));
  const at = (one: number) => contributions.at(one);
  const { dimensions } = contributions;
  return changeUncertainty(dimensions, at(referenceGapMm), at(gapMm), NORMAL_COVERAGE, retune);
}

function drawn(setup: Setup, options: MonteCarloOptions): MonteCarlo {
  const steps = monteCarloSteps(setup, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

describe("uncertainty by first order", () => {
  it("of a gap known to u: the shift's slope times u, at each gap anew", () => {
    const setup = knownTo({ "mouthpiece.insertion": 0.05 });
    const slope = (gapMm: number) => {
      const { rows } = gapSweep(new Instrument(setup), {
        gapsMm: [gapMm - 0.05, gapMm + 0.05],
        referenceGapMm: 2.5,
      });
      return rows[1].modes.map(({ shiftCents }, i) => (shiftCents - rows[0].modes[i].shiftCents) / 0.1);
    };
    const [atReference, atChosen] = [slope(2.5), slope(5.04)];
    firstOrder(setup, 2.5, 5.04).modes.forEach(({ shiftCents }, i) => {
      const expected = 0.05 * Math.hypot(atReference[i], atChosen[i]);
      expect(shiftCents.standard / expected).toBeCloseTo(1, 2);
      expect(shiftCents.expanded).toBeCloseTo(1.959964 * shiftCents.standard, 12);
    });
  });

  it("of what both gaps share: no more than the two gaps' answers differ by", () => {
    const setup = knownTo({ "leadpipe.diameters": 0.05 });
    const sweep = (wider: number) => {
      const leadpipe = { profileMm: setup.leadpipe.profileMm.map(([x, d]) => [x, d + wider] as const) };
      const instrument = new Instrument({ ...setup, leadpipe });
      return gapSweep(instrument, { gapsMm: [5.04], referenceGapMm: 2.5 }).rows[0].modes;
    };
    const [less, more] = [sweep(-0.05), sweep(0.05)];
    firstOrder(setup, 2.5, 5.04).modes.forEach(({ shiftCents, heightDb, spacingCents }, i) => {
      const moves = (of: "shiftCents" | "heightDb" | "spacingChangeCents") =>
        Math.abs(more[i][of]! - less[i][of]!) / 2;
      expect(shiftCents.standard).toBeCloseTo(moves("shiftCents"), 4);
      expect(heightDb!.standard).toBeCloseTo(moves("heightDb"), 4);
      if (spacingCents) expect(spacingCents.standard).toBeCloseTo(moves("spacingChangeCents"), 4);
    });
  });

  it("of a deeper receiver: both gaps are wider by it", () => {
    const setup = knownTo({ "receiver.depth": 0.04 });
    const shift = (deeperMm: number) => {
      const deeper = {
        ...setup,
        receiver: { ...setup.receiver, depthMm: setup.receiver.depthMm + deeperMm },
      };
      return gapSweep(new Instrument(deeper), {
        gapsMm: [5.04 + deeperMm],
        referenceGapMm: 1.5 + deeperMm,
      }).rows[0].modes.map(({ shiftCents }) => shiftCents);
    };
    const [less, more] = [shift(-0.04), shift(0.04)];
    firstOrder(setup, 1.5, 5.04).modes.forEach(({ shiftCents }, i) => {
      expect(shiftCents.standard).toBeCloseTo(Math.abs(more[i] - less[i]) / 2, 4);
    });
  });

  it("of what remains after retuning: nothing for the note tuned back, and as the retuned sweep moves", () => {
    const setup = knownTo({ "mouthpiece.insertion": 0.05 });
    const { modes } = firstOrder(setup, 2.5, 5.04, 4);
    expect(modes[3].retunedCents!.standard).toBeCloseTo(0, 9);
    const sweep = (referenceGapMm: number, gapMm: number) =>
      gapSweep(new Instrument(setup), { gapsMm: [gapMm], referenceGapMm, retune: 4 }).rows[0].modes;
    const byChosen = [sweep(2.5, 4.99), sweep(2.5, 5.09)];
    const byReference = [sweep(2.45, 5.04), sweep(2.55, 5.04)];
    expect(modes.length).toBeGreaterThan(0);
    modes.forEach(({ retunedCents }, i) => {
      const change = ([less, more]: (typeof byChosen)[number][]) =>
        (more[i].shiftCents - less[i].shiftCents) / 2;
      const expected = Math.hypot(change(byChosen), change(byReference));
      expect(retunedCents!.standard).toBeCloseTo(expected, 3);
    });
  });

  it("shares add up to the whole, and a dimension that touches no air has none", () => {
    const setup = knownTo({
      "receiver.depth": 0.02,
      "mouthpiece.insertion": 0.03,
      "receiver.taper": 0.001,
      "mouthpiece.shankTaper": 0.001,
      "body.diameters": 0.05,
      "air.humidity": 0.1,
      "model.wallLossFactor": 0.1,
    });
    const { sources, modes } = firstOrder(setup, 2.5, 5.04);
    expect(sources.map(({ name }) => name)).toEqual([
      "receiver depth",
      "insertion at the reference gap",
      "insertion at the chosen gap",
      "receiver taper",
      "body diameters",
      "humidity",
      "wall-loss factor",
    ]);
    expect(modes.length).toBeGreaterThan(0);
    for (const { shiftCents, heightDb } of modes)
      for (const { shares } of [shiftCents, heightDb!])
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  it("of few readings: a wider interval, by Student's t", () => {
    const setup = knownTo({ "mouthpiece.insertion": 0.05 }, 2);
    const contributions = new Contributions(new Instrument(setup));
    const [from, to] = [contributions.at(2.5), contributions.at(5.04)];
    const { modes } = changeUncertainty(contributions.dimensions, from, to, coverageFactor);
    expect(modes.length).toBeGreaterThan(0);
    for (const { shiftCents } of modes) {
      // two components of two degrees each: between two and four together
      expect(shiftCents.degreesOfFreedom).toBeGreaterThan(2);
      expect(shiftCents.degreesOfFreedom).toBeLessThanOrEqual(4 + 1e-9);
      expect(shiftCents.expanded / shiftCents.standard).toBeGreaterThan(2.77);
    }
  });

  it("is nothing where all is taken as exact, and where the shank touches the leadpipe it does not ask for less", () => {
    expect(firstOrder(knownTo({}), 2.5, 5).modes[0].shiftCents).toEqual({
      standard: 0,
      degreesOfFreedom: Infinity,
      expanded: 0,
      shares: [],
    });
    const touching = firstOrder(knownTo({ "receiver.depth": 0.02, "mouthpiece.insertion": 0.03 }), 0, 2.5);
    expect(touching.modes.length).toBeGreaterThan(0);
    for (const { shiftCents } of touching.modes) expect(shiftCents.standard).toBeGreaterThan(0);
  });
});

describe("uncertainty by drawing instruments", () => {
  it("agrees with the first order on the demo, within what so few draws can tell", {
    timeout: 120_000,
  }, () => {
    const setup = demo();
    const trials = 150;
    const { modes } = firstOrder(setup, 2.5, 5.04);
    const nominal = gapSweep(new Instrument(setup), { gapsMm: [5.04], referenceGapMm: 2.5 }).rows[0].modes;
    const monte = drawn(setup, { gapMm: 5.04, referenceGapMm: 2.5, trials });
    expect(monte).toMatchObject({ drawn: trials, leftOut: 0 });
    // relative error of a standard deviation from N draws: 1/√(2(N−1)); four of them, for 35 quantities at once
    const spread = 4 / Math.sqrt(2 * (trials - 1));
    let compared = 0;
    expect(modes.length).toBeGreaterThan(0);
    modes.forEach((mode, i) => {
      for (const quantity of ["shiftCents", "heightDb", "spacingCents"] as const) {
        const byOrder = mode[quantity];
        const byDraw = monte.modes[i][quantity];
        if (!byOrder || !byDraw) continue;
        compared++;
        expect(Math.abs(byDraw.standard / byOrder.standard - 1)).toBeLessThan(spread);
        const value = {
          shiftCents: nominal[i].shiftCents,
          heightDb: nominal[i].heightDb!,
          spacingCents: nominal[i].spacingChangeCents!,
        }[quantity];
        expect(Math.abs(byDraw.mean - value)).toBeLessThan((4 * byOrder.standard) / Math.sqrt(trials));
      }
    });
    expect(compared).toBe(35);
  });

  it("draws the same for a seed, and leaves out what is no instrument", { timeout: 60_000 }, () => {
    const setup = withGap(knownTo({ "mouthpiece.insertion": 0.1 }), 0.05);
    const options = { gapMm: 3, referenceGapMm: 0.05, trials: 40, seed: 7 };
    const first = drawn(setup, options);
    expect(drawn(setup, options)).toEqual(first);
    expect(drawn(setup, { ...options, seed: 8 })).not.toEqual(first);
    // about three in ten of the draws would put the shank past the leadpipe
    expect(first.leftOut).toBeGreaterThan(4);
    expect(first.leftOut + first.drawn).toBe(40);
  });

  it("leaves out bores and receivers that cannot be", { timeout: 60_000 }, () => {
    const thin = dimensionAt(demo(), "receiver.taper")!.moved(-0.05);
    const taperless = {
      ...thin,
      uncertainties: { "receiver.taper": { standard: 0.01, degreesOfFreedom: Infinity } },
    };
    const { drawn: kept, leftOut } = drawn(taperless, { gapMm: 4, referenceGapMm: 3, trials: 30 });
    // a receiver that widens inwards is none: half of the draws
    expect(leftOut).toBeGreaterThan(5);
    expect(kept).toBeGreaterThan(5);
  });

  it("draws wider from few degrees of freedom", { timeout: 60_000 }, () => {
    const options = { gapMm: 6, referenceGapMm: 4, trials: 120 };
    const few = drawn(knownTo({ "mouthpiece.insertion": 0.02 }, 3), options).modes[3].shiftCents!;
    const many = drawn(knownTo({ "mouthpiece.insertion": 0.02 }), options).modes[3].shiftCents!;
    // the variance of t is ν/(ν − 2) = 3
    expect(few.standard / many.standard).toBeGreaterThan(1.2);
  });

  it("refuses what cannot be drawn, in words", () => {
    const draw = (options: Partial<MonteCarloOptions>) => () =>
      drawn(demo(), { gapMm: 3, referenceGapMm: 2, trials: 10, ...options });
    expect(draw({ trials: 1 })).toThrow("give a whole number from 2 to 100000");
    expect(draw({ gapMm: -1 })).toThrow("no gap of this receiver");
  });
});

describe("an exploration's uncertainty", () => {
  it("comes with the second answer, so that the first curve does not wait, and reaches every verdict", () => {
    const exploration = new Exploration(demo());
    expect(exploration.explore(5, 2.5, 4, 4).uncertainty).toBeNull();
    const { uncertainty, verdicts } = exploration.explore(5, 2.5, 4, 4);
    expect(uncertainty?.modes).toHaveLength(12);
    for (const claim of ["slots", "noGap"]) {
      const verdict = verdicts.find((one) => one.claim === claim)!;
      expect(verdict.tests.length).toBeGreaterThan(0);
      for (const { changes } of verdict.tests) {
        expect(changes.length).toBeGreaterThan(0);
        for (const { expanded } of changes) expect(expanded).toBeGreaterThan(0);
      }
      expect(evidenceWords(verdict)).toMatch(/known to ±0\.\d+, just noticeable/);
    }
  });

  it("takes a verdict back that rests on a badly known gap", () => {
    const keen = { ...demo(), thresholds: { ...demo().thresholds, cents: 0.5, decibels: 0.05 } };
    const slots = (setup: Setup) => {
      const exploration = new Exploration(setup);
      exploration.explore(5, 2.5, 4);
      return exploration.explore(5, 2.5, 4).verdicts[0].finding;
    };
    expect(slots(keen)).toBe("mixed");
    const uncertainties = { "mouthpiece.insertion": { standard: 2, degreesOfFreedom: Infinity } };
    expect(slots({ ...keen, uncertainties })).toBe("unknown");
  });
});
