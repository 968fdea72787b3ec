import { randomLcg } from "d3";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gapMm, type Setup } from "../../../src/setup/setup.ts";
import { compare } from "../../../src/study/compare/compare.ts";
import { knownQuantities } from "../../../src/study/compare/compareQuantities.ts";
import { parseGoal } from "../../../src/study/compare/goal.ts";
import { type Design, type DesignOptions, design, designSteps } from "../../../src/study/design/design.ts";
import { freedomOf } from "../../../src/study/design/designFreedom.ts";
import { goalLike, parseDesignGoal } from "../../../src/study/design/designGoal.ts";
import type { DesignLimits } from "../../../src/study/design/designLimits.ts";
import { DesignProblem } from "../../../src/study/design/designProblem.ts";
import { dot, splineOf } from "../../../src/study/design/designSpline.ts";
import { mandrelStations } from "../../../src/study/design/designStations.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { cents, decibels } from "../../../src/study/instrument/pitch.ts";
import { designWords, freedomWords, startWords, worseWords } from "../../../src/words/design/designWords.ts";
import { demo } from "../../acoustics/setups.ts";
import { numbers } from "../../reference/table.ts";

const setup = demo();
const limits: DesignLimits = {
  knots: 6,
  holdsEntry: true,
  holdsEnd: true,
  smallestMm: 8,
  largestMm: 12.5,
  widens: true,
  leastCurvatureRadiusMm: 0,
  gapMm: null,
};

it("before the search is the leadpipe and the gap there are, not the spline that stands for them", () => {
  const goal = parseDesignGoal("f2=230, height4=30");
  const options = { goal, limits: { ...limits, gapMm: [3, 5] as const }, restarts: 1, stepsEach: 1 };
  const { targets, splineOffByMm } = design(setup, options);
  const instrument = new Instrument(setup);
  const modes = instrument.modes(instrument.gapMm);
  expect(targets[0].before).toBeCloseTo(modes[1].frequencyHz, 9);
  expect(targets[1].before).toBeCloseTo(decibels(modes[3].peakImpedance!, 1e6), 9);
  expect(splineOffByMm).toBeGreaterThan(0.01);
  expect(splineOffByMm).toBeLessThan(0.5);
});

describe("the spline", () => {
  it("as SciPy has it (tests/reference/design/spline.py)", () => {
    const controls = [8.75, 8.9, 9.4, 9.1, 10.8, 11.2, 11.68];
    const { basis } = splineOf(240, controls.length);
    for (const [x, d, slope, second] of numbers("design/spline.csv")) {
      expect(dot(basis(x), controls)).toBeCloseTo(d, 12);
      expect(dot(basis(x, 1), controls)).toBeCloseTo(slope, 12);
      expect(dot(basis(x, 2), controls)).toBeCloseTo(second, 12);
    }
  });

  it("widens and keeps within its control diameters where these do", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 5, max: 15, noNaN: true }), { minLength: 4, maxLength: 12 }),
        (any) => {
          const controls = [...any].sort((a, b) => a - b);
          const { basis } = splineOf(200, controls.length);
          const d = Array.from({ length: 41 }, (_, i) => dot(basis(5 * i), controls));
          d.forEach((value, i) => {
            if (i > 0) expect(value).toBeGreaterThanOrEqual(d[i - 1] - 1e-12);
          });
          expect(d[0]).toBeCloseTo(controls[0], 12);
          expect(d[40]).toBeCloseTo(controls[controls.length - 1], 12);
        },
      ),
    );
    expect(() => splineOf(200, 3)).toThrow(/3 knots make no cubic leadpipe: give a whole number from 4/);
  });
});

describe("a design's Jacobian", () => {
  it("is what finite differences of whole instruments give, gap and limits included", () => {
    const goal = parseDesignGoal("cents2=0, cents5=3@2, f4=465, spacing3=500, height6=33@0.5");
    const problem = new DesignProblem(setup, goal, {
      ...limits,
      holdsEntry: false,
      leastCurvatureRadiusMm: 3000,
      gapMm: [0.5, 6],
    });
    // bent and narrowing, so that limits are broken too
    const x = problem.start.map((value, j) => value + [0, 6, -7, 5, -2, 0][j]);
    const exact = problem.jacobian(x);
    expect(
      problem
        .residuals(x)
        .slice(5)
        .filter((by) => by > 0).length,
    ).toBeGreaterThan(2);
    expect(x.length).toBeGreaterThan(0);
    x.forEach((value, j) => {
      const at = (by: number) => problem.residuals(x.map((other, k) => (k === j ? value + by : other)));
      const [less, more] = [at(-0.02), at(0.02)];
      expect(exact.length).toBeGreaterThan(0);
      exact.forEach((row, i) => {
        const scale = Math.max(...row.map(Math.abs));
        expect(Math.abs(row[j] - (more[i] - less[i]) / 0.04)).toBeLessThan(2e-3 * scale + 1e-6);
      });
    });
  });
});

describe("design", () => {
  it("recovers a known bore from its own resonances and heights", () => {
    const known = new DesignProblem(setup, parseDesignGoal("f2=233"), limits);
    const variables = known.start.map((value, j) => value + [3, -2.5, 2, -3][j]);
    const wanted = known.controlsOf(variables);
    const goal = goalLike(new Instrument(known.setupOf(variables)).modes(2.5), [2, 10]);
    const found = design(setup, { goal, limits, restarts: 2 });
    // 0.02 mm: what remains is the flattest direction over the residual's last step
    expect(found.knots.length).toBeGreaterThan(0);
    found.knots.forEach(({ diameterMm }, k) => {
      expect(Math.abs(diameterMm - wanted[k])).toBeLessThan(0.02);
    });
    expect(found.missBefore).toBeGreaterThan(0.5);
    expect(found.missAfter).toBeLessThan(1e-2);
    expect(found.narrowsByMm).toBeLessThan(1e-3);
  });

  it("says where many bores serve equally, and shows two", () => {
    const wide: DesignLimits = { ...limits, knots: 10 };
    // what a bore does that stays within the limits
    const known = new DesignProblem(setup, parseDesignGoal("f2=233"), wide);
    const variables = known.start.map((value, j) => value + (j % 2 ? -1 : 1));
    const goal = goalLike(new Instrument(known.setupOf(variables)).modes(2.5), [2, 5], 0);
    const found = design(setup, { goal, limits: wide, restarts: 4, seed: 3 });
    const good = found.starts.filter(({ miss }) => miss < 0.05);
    expect(good.length).toBeGreaterThan(1);
    const apart = good.flatMap(({ diametersMm }) =>
      good.map((other) => Math.max(...diametersMm.map((d, k) => Math.abs(d - other.diametersMm[k])))),
    );
    // more than what counts as settled
    expect(Math.max(...apart)).toBeGreaterThan(0.1);
    const freedom = freedomOf(found.problem, found.variables);
    const { directions, settled } = freedom;
    expect(directions.length).toBe(8);
    // four targets cannot settle eight diameters
    expect(directions.filter(({ reachMm }) => reachMm === Infinity).length).toBeGreaterThanOrEqual(4);
    expect(settled).toBeLessThan(4);
    expect(freedomWords(freedom)).toMatch(
      /^The goal does not settle the bore: \d of 8 .*Many bores serve equally; this is one of them\.$/,
    );
    const [{ changeMm }] = directions;
    expect(Math.hypot(...changeMm)).toBeCloseTo(1, 9);
    // one step along the loosest direction leaves the targets where they are
    const loosest = directions[directions.length - 1];
    const moved = found.variables.map((value, j) => value + loosest.changeMm[j + 1]);
    const drift = found.problem
      .residuals(moved)
      .slice(0, 4)
      .map((by, i) => by - found.problem.residuals(found.variables)[i]);
    expect(Math.max(...drift.map(Math.abs))).toBeLessThan(0.05);
  });

  it("keeps to its limits, and the gap may be chosen", () => {
    const goal = parseDesignGoal(
      '{"targets":[{"quantity":"cents","n":2,"target":4},{"quantity":"cents","n":6,"target":-3}]}',
    );
    const kept: DesignLimits = { ...limits, leastCurvatureRadiusMm: 4000, gapMm: [1, 4] };
    const { problem, variables, knots, gapMm, narrowsByMm, missAfter, missBefore } = design(setup, {
      goal,
      limits: kept,
      restarts: 1,
    });
    expect(missAfter).toBeLessThan(missBefore);
    expect(gapMm).toBeGreaterThanOrEqual(1);
    expect(gapMm).toBeLessThanOrEqual(4);
    expect(narrowsByMm).toBeLessThan(0.01);
    expect(knots.length).toBeGreaterThan(0);
    for (const { diameterMm } of knots) {
      expect(diameterMm).toBeGreaterThanOrEqual(8);
      expect(diameterMm).toBeLessThanOrEqual(12.5);
    }
    const controls = problem.controlsOf(variables);
    expect(problem.spline.breaksMm.length).toBeGreaterThan(0);
    for (const x of problem.spline.breaksMm)
      expect(Math.abs(dot(problem.spline.basis(x, 2), controls)) / 2).toBeLessThan(1.05 / 4000);
  });

  it("says of a start that stops at its last step that it has not converged, and of one that was stopped that it was", () => {
    const goal = parseDesignGoal("cents2=0, cents3=0, cents4=0, cents5=0, cents6=0, height4=34");
    const short = design(setup, { goal, limits, restarts: 2, stepsEach: 2 });
    expect(short.starts.map(({ ended, steps }) => [ended, steps])).toEqual([
      ["not-converged", 2],
      ["not-converged", 2],
    ]);
    expect(startWords(short)[1]).toMatch(/^Start 2 has not converged: .* after its last step, the 2nd\.$/);
    expect(designWords(short, "mm")[0]).toMatch(/^This leadpipe is start \d's, which has not converged/);
    const long = design(setup, { goal: parseDesignGoal("f2=231"), limits, restarts: 1, stepsEach: 200 });
    expect(long.starts.map(({ ended }) => ended)).toEqual(["converged"]);
    expect(designWords(long, "mm").join(" ")).not.toMatch(/converged/);
    const steps = designSteps(setup, { goal, limits, restarts: 3 });
    steps.next();
    const stopped = steps.next(true);
    expect(stopped.done).toBe(true);
    expect((stopped.value as Design).starts.map(({ ended }) => ended)).toEqual(["stopped"]);
  });

  it("says first which targets were made worse, and when nothing nearer was found", () => {
    // one note pulled far off by what the other is worth
    const goal = parseDesignGoal("f2=226@50, f3=349");
    const found = design(setup, { goal, limits, restarts: 1 });
    const [pulled, paid] = found.targets;
    expect([pulled.isWorse, paid.isWorse]).toEqual([false, true]);
    expect(Math.abs(paid.missedBy!)).toBeGreaterThan(Math.abs(paid.missedBefore!));
    expect(worseWords(found)).toMatch(/^Made worse: f3, [+−][\d.]+ off before and [+−][\d.]+ now\.$/);
    const same = goalLike(new Instrument(setup).modes(new Instrument(setup).gapMm), [2, 10]);
    expect(worseWords(design(setup, { goal: same, limits, restarts: 1, stepsEach: 1 }))).toMatch(
      /^Nothing was found that comes nearer to the goal than your leadpipe does\./,
    );
    expect(worseWords(design(setup, { goal: parseDesignGoal("f2=231"), limits, restarts: 1 }))).toBeNull();
  });

  it("weighs as compare does: the miss before is the score of the same weights, and 2 counts as twice", () => {
    const missOf = (text: string) =>
      design(setup, { goal: parseDesignGoal(text), limits, restarts: 1, stepsEach: 1 }).missBefore;
    const variants = [{ name: "present", setup, gapMm: gapMm(setup) }];
    const scoreOf = (text: string) =>
      compare(variants, { goal: parseGoal(text, knownQuantities(12)) }).variants[0].score!;
    expect(missOf("cents2=0, cents5=0@2, cents6=0@0.5")).toBeCloseTo(scoreOf("2:1, 5:2, 6:0.5"), 6);
    // twice as often, not four times
    const [two, five] = [missOf("cents2=0"), missOf("cents5=0")];
    expect(missOf("cents2=0, cents5=0@2")).toBeCloseTo(Math.sqrt((two ** 2 + 2 * five ** 2) / 3), 9);
  });

  it("goes a step at a time, the same for the same seed", () => {
    const options: DesignOptions = {
      goal: parseDesignGoal("cents2=0, cents3=0"),
      limits,
      restarts: 2,
      seed: 5,
      stepsEach: 4,
    };
    const steps = [...designSteps(setup, options)];
    expect(steps.length).toBeGreaterThan(2);
    expect(steps.length).toBeLessThanOrEqual(8);
    expect([...designSteps(setup, options)]).toEqual(steps);
    steps.forEach(({ best }, i) => {
      if (i > 0) expect(best).toBeLessThanOrEqual(steps[i - 1].best);
    });
  });

  it("refuses what cannot be designed, in words", () => {
    const goal = parseDesignGoal("cents2=0");
    const refused: [Partial<DesignLimits>, RegExp][] = [
      [{ knots: 2 }, /2 knots make no cubic leadpipe/],
      [{ smallestMm: 9 }, /entry is held at 8.75 mm, outside 9 to 12.5 mm/],
      [{ smallestMm: 12, largestMm: 9 }, /no leadpipe is between 12 and 9 mm wide/],
      [{ leastCurvatureRadiusMm: -1 }, /radius of curvature of -1 mm/],
      [{ gapMm: [5, 1] }, /gap cannot go from 5 to 1 mm: give the smaller one first/],
      [{ gapMm: [0, 90] }, /90.000 mm is no gap of this receiver/],
    ];
    for (const [change, words] of refused)
      expect(() => design(setup, { goal, limits: { ...limits, ...change } })).toThrow(words);
    const goals: [string, RegExp][] = [
      ["cents=0", /"cents=0" is no target; give a list such as cents2=0/],
      ["sents2=0", /"sents" is not known; known are f, cents, height, spacing/],
      ["cents2=x", /give the value it should have/],
      ["cents2=0@-1", /weight: give one above 0/],
      ["cents2=0, cents2=1", /cents2 stands in the goal twice/],
      [
        '{"targets":[{"quantity":"cents","note":2,"target":0}]}',
        /"note" is no part of a target; give .*"n": 2/,
      ],
      ["{", /not JSON/],
      ['{"targets":[]}', /at least one/],
      ['{"goals":[]}', /"goals" is no part of a goal/],
      ['{"targets":[{"quantity":"f","n":99,"target":1}]}', /"targets\[0\]": n: give the resonance's number/],
    ];
    for (const [text, words] of goals) expect(() => parseDesignGoal(text)).toThrow(words);
  });
});

describe("a mandrel's stations", () => {
  it("have tolerances that together stay below what was stated, whichever way they are used", () => {
    const instrument = new Instrument(setup);
    const stations = mandrelStations(instrument, 2.5, { everyMm: 10, part: 0.5 });
    expect(stations.length).toBe(25);
    expect([stations[0].positionMm, stations[24].positionMm]).toEqual([0, 240]);
    const turned = (off: (i: number) => number): Setup => ({
      ...setup,
      leadpipe: {
        profileMm: stations.map(({ positionMm, diameterMm, toleranceMm }, i) => [
          positionMm,
          diameterMm + off(i) * toleranceMm,
        ]),
      },
    });
    const reference = new Instrument(turned(() => 0)).modes(2.5);
    const random = randomLcg(2);
    for (let trial = 0; trial < 6; trial++) {
      const signs = stations.map(() => (random() < 0.5 ? -1 : 1));
      const modes = new Instrument(turned((i) => (trial === 0 ? 1 : signs[i]))).modes(2.5);
      for (let n = 2; n <= 10; n++) {
        const [from, to] = [reference[n - 1], modes[n - 1]];
        expect(Math.abs(cents(to.frequencyHz, from.frequencyHz))).toBeLessThan(0.55 * setup.thresholds.cents);
        expect(Math.abs(decibels(to.peakImpedance!, from.peakImpedance!))).toBeLessThan(
          0.55 * setup.thresholds.decibels,
        );
      }
    }
    expect(() => mandrelStations(instrument, 2.5, { part: 2 })).toThrow(/part of 2 cannot be used/);
    expect(() => mandrelStations(instrument, 2.5, { everyMm: 900 })).toThrow(
      /stations every 900 mm cannot be/,
    );
  });
});
