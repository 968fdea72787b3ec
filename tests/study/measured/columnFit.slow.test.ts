import { randomLcg, randomNormal } from "d3";
import { describe, expect, it } from "vitest";
import { moistAir } from "../../../src/acoustics/medium/air.ts";
import { gapMm, type Setup } from "../../../src/setup/setup.ts";
import { withBell } from "../../../src/setup/withBell.ts";
import { withGap } from "../../../src/setup/withGap.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { columnFitSteps } from "../../../src/study/measured/columnFit.ts";
import type { ColumnFit } from "../../../src/study/measured/columnFitResult.ts";
import { type UnknownName, unknownOf } from "../../../src/study/measured/columnUnknowns.ts";
import { type Measured, overlay } from "../../../src/study/measured/measured.ts";
import { uncertainDimensions } from "../../../src/study/uncertainty/contributions.ts";
import { columnFitWords } from "../../../src/words/measured/columnFitWords.ts";
import { demo as assumedDemo } from "../../acoustics/setups.ts";
import { synthetic } from "./measurements.ts";

const curved = (setup: Setup): Setup => withBell(setup, "multimodal");

/** As if all of it were known exactly: what the measurement's noise does. With plane waves in the bell, whatever is usual. */
const demo = (): Setup => {
  const { model, ...rest } = assumedDemo();
  return { ...rest, model: { ...model, bell: "plane" }, provenance: {}, uncertainties: {} };
};

const fitted = (setup: Setup, measured: Measured, ...keys: UnknownName[]): ColumnFit =>
  fittedAt(null, setup, measured, keys);

function fittedAt(
  noise: number | null,
  setup: Setup,
  measured: Measured,
  keys: readonly UnknownName[],
): ColumnFit {
  const steps = columnFitSteps(setup, measured, keys, noise);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

const temperatureOf = ({ air }: Setup): number => {
  if (air.kind !== "conditions") throw new Error("the demo gives its air as conditions");
  return air.temperatureC;
};

const changed = (setup: Setup, values: Partial<Record<UnknownName, number>>): Setup =>
  (Object.entries(values) as [UnknownName, number][]).reduce(
    (at, [key, value]) => unknownOf(at, key).set(at, value),
    setup,
  );

/** The demo with a coarser body: many fits of it take less time. */
const light = (): Setup => {
  const { body, ...rest } = demo();
  return {
    ...rest,
    body: {
      ...body,
      profileMm: body.profileMm.filter((_, i, all) => i < 2 || i % 8 === 0 || i === all.length - 1),
    },
  };
};

// 40 fits each: a busy machine takes minutes, which is no fault
const PATIENCE_MS = 600_000;

const TRUTH = {
  gap: 3.1,
  temperature: 25.3,
  "wall-loss": 1.2,
  "leadpipe-entry": 8.82,
  "receiver-mouth": 10.9,
};

describe("a measured impedance beside the model", () => {
  it("reads a peak only where one stands clear, near its own resonance, and names the others", () => {
    const setup = demo();
    const { peaks, unread } = overlay(setup, synthetic(withGap(setup, 1), { from: 40, to: 2000, step: 0.5 }));
    const modes = new Instrument(setup, { modes: 18 }).modes(gapMm(setup));
    expect(peaks.length).toBeGreaterThanOrEqual(10);
    for (const { n, model, cents } of peaks) {
      // the peak of that resonance, not a neighbour's: within half its width
      const { peakHz, Q } = modes[n - 1];
      expect(Math.abs(model.frequencyHz / peakHz! - 1)).toBeLessThan(1 / (2 * Q));
      expect(Math.abs(cents!)).toBeLessThan(5);
    }
    const numbers = [...peaks.map(({ n }) => n), ...unread];
    expect(unread.length).toBeGreaterThan(0);
    expect(numbers).toEqual(numbers.map((_, i) => i + 1));
  });

  it("is no different from a model of itself", () => {
    const { peaks, rmsDb, rmsDegrees, unit } = overlay(demo(), synthetic(demo(), { step: 1 }));
    expect(peaks.length).toBeGreaterThanOrEqual(6);
    expect([rmsDb, rmsDegrees, unit]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9), 1]);
    for (const { cents, heightDb, quality } of peaks) {
      expect(cents).toBeCloseTo(0, 9);
      expect(heightDb).toBeCloseTo(0, 9);
      expect(quality).toBeCloseTo(1, 9);
    }
  });

  it("reads peaks as the resonances are: frequency within two cents of |Z|'s maximum, Q within 6 %", () => {
    const setup = demo();
    const { peaks } = overlay(setup, synthetic(setup, { step: 0.5 }));
    // maxima and Qs of the study, whose own checks are in tests/acoustics
    const known = new Instrument(setup).modes(gapMm(setup));
    for (const n of [3, 5]) {
      const { model } = peaks.find((peak) => peak.n === n)!;
      const { peakHz, Q } = known[n - 1];
      expect(Math.abs(1200 * Math.log2(model.frequencyHz / peakHz!))).toBeLessThan(2);
      expect(Math.abs(model.Q / Q - 1)).toBeLessThan(0.06);
    }
  });

  it("tells a flat measurement by its cents, a weak one by its dB, and not in an unknown unit", () => {
    const flat = changed(demo(), { temperature: 22 });
    const { peaks } = overlay(demo(), synthetic(flat, { step: 1 }));
    const c = (t: number) =>
      moistAir({ temperatureC: t, humidity: 0.5, co2: 0.0004, pressurePa: 101325 }).soundSpeed;
    expect(peaks.length).toBeGreaterThan(0);
    for (const { cents } of peaks) expect(Math.abs(cents! - 1200 * Math.log2(c(22) / c(27)))).toBeLessThan(1);
    const weak = overlay(demo(), synthetic(demo(), { step: 1, factor: 0.5 }));
    expect(weak.peaks.length).toBeGreaterThan(0);
    for (const { heightDb } of weak.peaks) expect(heightDb).toBeCloseTo(20 * Math.log10(0.5), 6);
    const unknown = overlay(demo(), synthetic(demo(), { step: 1, factor: 0.5, scale: "relative" }));
    expect(unknown.unit).toBeCloseTo(2, 6);
    expect(unknown.peaks.length).toBeGreaterThan(0);
    for (const { heightDb } of unknown.peaks) expect(heightDb).toBeCloseTo(0, 6);
  });
});

describe("a fit to a measured impedance", () => {
  it("finds all five unknowns from a clean measurement, in a known unit or not, with a phase or without", () => {
    const truth = changed(demo(), TRUTH);
    for (const [scale, factor, form] of [
      ["absolute", 1, "real-imaginary"],
      ["relative", 3e-7, "real-imaginary"],
      ["absolute", 1, "magnitude"],
      ["relative", 3e-7, "magnitude"],
    ] as const) {
      const found = fitted(
        demo(),
        synthetic(truth, { scale, factor, form }),
        ...(Object.keys(TRUTH) as UnknownName[]),
      );
      expect(found.converged).toBe(true);
      expect(found.scatterDb).toBeLessThan(1e-4);
      expect(found.estimates.length).toBeGreaterThan(0);
      for (const { unknown, value } of found.estimates) expect(value).toBeCloseTo(TRUTH[unknown.key], 3);
      expect(gapMm(found.setup)).toBeCloseTo(TRUTH.gap, 3);
      expect(found.scatterDegrees === null).toBe(form === "magnitude");
      expect(found.notes.some(({ kind }) => kind === "no-phase")).toBe(form === "magnitude");
    }
  });

  it("is less sure of a gap without a phase than with it", () => {
    const width = (form: "magnitude" | "real-imaginary") => {
      const measured = synthetic(withGap(demo(), 3.1), { noise: 0.01, form });
      return fitted(demo(), measured, "gap").estimates[0].standard!;
    };
    expect(width("magnitude") / width("real-imaginary")).toBeGreaterThan(1.2);
  });

  it("that stops at its last step is not converged, and gives no interval", () => {
    const measured = synthetic(changed(demo(), TRUTH), { step: 4 });
    const steps = columnFitSteps(demo(), measured, ["gap", "temperature"], null, 1);
    expect(steps.next().done).toBe(false);
    const fit = steps.next().value as ColumnFit;
    expect(fit.converged).toBe(false);
    expect(fit.estimates.map(({ interval }) => interval)).toEqual([null, null]);
    expect(columnFitWords(fit)[0]).toMatch(/^Not converged: the fit stopped at its last step/);
    expect(fit.notes.some(({ kind }) => kind === "cannot-tell")).toBe(false);
  });

  const noises = [0.0005, 0.002, 0.01, 0.03, 0.1, 0.2];
  it.each([
    ["the right model", (setup: Setup) => setup, "real-imaginary"],
    ["the right model, without a phase", (setup: Setup) => setup, "magnitude"],
    ["a wrong bell", curved, "real-imaginary"],
    ["a wrong bell, without a phase", curved, "magnitude"],
    ["rougher walls", (setup: Setup) => changed(setup, { "wall-loss": 1.05 }), "real-imaginary"],
    [
      "a warmer room, and declared so",
      (setup: Setup) => changed(setup, { temperature: 27.3 }),
      "real-imaginary",
    ],
  ] as const)(
    "never earns fewer doubts, nor a narrower interval, by more noise: %s",
    (name, of, form) => {
      const setup: Setup = {
        ...demo(),
        uncertainties: name.includes("declared")
          ? { "air.temperature": { standard: 0.25, degreesOfFreedom: Infinity } }
          : {},
      };
      const found = noises.map((noise) => {
        // the same noise with both signs: what it adds to an error of the model by chance drops out
        const fits = [1, 2].flatMap((seed) =>
          [noise, -noise].map((size) =>
            fitted(setup, synthetic(of(withGap(demo(), 3.1)), { noise: size, seed, to: 500, form }), "gap"),
          ),
        );
        const mean = (value: (fit: ColumnFit) => number) =>
          fits.reduce((sum, fit) => sum + value(fit), 0) / fits.length;
        return {
          noise,
          doubts: mean(({ notes }) => notes.length),
          // one that is not told is as wide as can be
          width: mean(({ estimates: [{ unknown, interval }] }) =>
            interval ? interval[1] - interval[0] : unknown.high - unknown.low,
          ),
        };
      });
      found.slice(1).forEach((one, i) => {
        expect(one.doubts, JSON.stringify(found)).toBeGreaterThanOrEqual(found[i].doubts);
        expect(one.width, JSON.stringify(found)).toBeGreaterThanOrEqual(found[i].width);
      });
      // and the most noise is no reason to be content
      expect(found[found.length - 1].doubts).toBeGreaterThan(1);
      expect(found[found.length - 1].width).toBeGreaterThan(found[0].width);
    },
    PATIENCE_MS,
  );

  it(
    "holds the truth in its 95 % intervals in 95 % of 40 noisy measurements, and its u is their scatter",
    () => {
      const keys = ["gap", "temperature", "wall-loss"] as const;
      const truth = changed(light(), { gap: 3.1, temperature: 25.3, "wall-loss": 1.2 });
      const trials = 40;
      const held = new Map<string, number>(keys.map((key) => [key, 0]));
      const squares = new Map<string, number>(keys.map((key) => [key, 0]));
      for (let seed = 1; seed <= trials; seed++) {
        const measured = synthetic(truth, { from: 100, to: 500, step: 2, noise: 0.02, seed });
        for (const { unknown, value, standard, interval } of fitted(light(), measured, ...keys).estimates) {
          const true_ = TRUTH[unknown.key];
          if (true_ >= interval![0] && true_ <= interval![1])
            held.set(unknown.key, held.get(unknown.key)! + 1);
          squares.set(unknown.key, squares.get(unknown.key)! + ((value - true_) / standard!) ** 2 / trials);
        }
      }
      for (const key of keys) {
        // binomial of 40 and 0.95: 32 or fewer happens less than once in a thousand times
        expect(held.get(key)).toBeGreaterThanOrEqual(33);
        // χ² of 40 over 40: 0.4 to 1.85 leaves out less than one in a thousand
        expect(squares.get(key)).toBeGreaterThan(0.4);
        expect(squares.get(key)).toBeLessThan(1.85);
      }
    },
    PATIENCE_MS,
  );

  it("says when two unknowns cannot be told apart", () => {
    const measured = synthetic(withGap(demo(), 3), { from: 90, to: 260, noise: 0.01 });
    const fit = fitted(demo(), measured, "gap", "leadpipe-entry", "temperature");
    const { correlation, estimates } = fit;
    expect(Math.max(...correlation!.flatMap((row, i) => row.slice(0, i).map(Math.abs)))).toBeGreaterThan(
      0.98,
    );
    expect(columnFitWords(fit).join(" ")).toMatch(
      / cannot be told apart here \(correlation [-+]?0\.99?\d*\): only one combination/,
    );
    expect(estimates.length).toBeGreaterThan(0);
    for (const { standard } of estimates) expect(standard).toBeGreaterThan(0);
  });

  it("says when an unknown runs to the end of its range, and when the model does not fit", () => {
    const measured = synthetic(changed(demo(), { "wall-loss": 1.1, temperature: 20 }), { noise: 0.002 });
    const fit = fitted(demo(), measured, "leadpipe-entry");
    const { lag1Autocorrelation, estimates } = fit;
    expect(estimates[0].atBound || lag1Autocorrelation > 0.5).toBe(true);
    expect(columnFitWords(fit).join(" ")).toMatch(/runs together over neighbouring frequencies/);
    const closed = fitted(demo(), synthetic(changed(demo(), { temperature: 29 })), "gap");
    expect(closed.estimates[0]).toMatchObject({ value: 0, atBound: true });
    expect(columnFitWords(closed).join(" ")).toMatch(/gap stands at the end of its range, 0 mm/);
  });

  it(
    "is sound in all of 40 noisy measurements of the right model, by its noise as stated or as it jumps",
    () => {
      const truth = changed(light(), { gap: 3.1, "wall-loss": 1.2 });
      for (let seed = 1; seed <= 20; seed++)
        for (const stated of [null, 0.02]) {
          const measured = synthetic(truth, { from: 100, to: 500, step: 2, noise: 0.02, seed });
          const fit = fittedAt(stated, light(), measured, ["gap", "wall-loss"]);
          const { judgement, residual } = fit;
          const words = columnFitWords(fit);
          expect({ seed, judgement, words: words.length }).toEqual({ seed, judgement: "sound", words: 2 });
          expect(words[0]).toMatch(
            /^The bell is one of plane waves, .* This measurement fits plane waves better/,
          );
          // 2 % of noise would hide what moves the gap by more than a tenth of a millimetre
          expect(words[1]).toMatch(/would hide an error of the model that moves gap by ±0\.\d+ mm/);
          expect(residual.isStated).toBe(stated !== null);
          // 400 residuals: their own standard deviation is 4 %, that of the jumps 6 %
          expect(residual.noiseDb).toBeGreaterThan(0.8 * 0.02 * 8.686);
          expect(residual.noiseDb).toBeLessThan(1.2 * 0.02 * 8.686);
          expect(Math.abs(residual.chiSquare - 1)).toBeLessThan(0.4);
        }
    },
    PATIENCE_MS,
  );

  it.each([
    [
      0.002,
      900,
      "wrong",
      /^Not to be trusted: what is left over, [\d.]+ dB, is 1\d times the measurement's noise/,
    ],
    [0.01, 900, "wrong", /^Not to be trusted/],
    [0.01, 500, "wrong", /^Not to be trusted/],
    [0.05, 900, "wrong", /^Doubtful: .* more than chance makes it/],
    // the gap has taken up nearly all of the bell's error: only the other bell tells
    [
      0.05,
      500,
      "wrong",
      /^The bell is one of plane waves, .* This measurement shows it: .* gap by about −2\.\d mm/,
    ],
  ] as const)(
    "says what is wrong where a wrong bell moves the gap by 2 mm: noise %s, to %i Hz: %s",
    (noise, to, judgement, words) => {
      const { model, ...rest } = demo();
      const curved: Setup = { ...rest, model: { ...model, bell: "multimodal" } };
      const measured = synthetic(withGap(curved, 3.1), { noise, to });
      const wrong = fitted(demo(), measured, "gap");
      const [{ value, interval }] = wrong.estimates;
      expect(value - 3.1).toBeGreaterThan(2);
      expect(interval![0]).toBeGreaterThan(3.1);
      expect(wrong.judgement).toBe(judgement);
      expect(columnFitWords(wrong)[0]).toMatch(words);
      const right = fitted(curved, measured, "gap");
      const { judgement: ofRight, notes } = right;
      expect([ofRight, notes.map(({ kind }) => kind)]).toEqual([
        "sound",
        noise > 0.01 || to < 900 ? ["noise-hides"] : [],
      ]);
      // and by how much the other bell would move the gap was foreseen
      expect(wrong.curved!.moves[0]).toBeGreaterThan(1.15 * (right.estimates[0].value - value));
      expect(wrong.curved!.moves[0]).toBeLessThan(0.85 * (right.estimates[0].value - value));
      expect(Math.abs(right.estimates[0].value - 3.1)).toBeLessThan(4 * right.estimates[0].standard!);
    },
  );

  it("is not to be trusted where what is left over is far above the noise as it is stated", () => {
    const measured = synthetic(withGap(demo(), 3.1), { noise: 0.02 });
    expect(fittedAt(0.02, demo(), measured, ["gap"]).judgement).toBe("sound");
    const fit = fittedAt(0.005, demo(), measured, ["gap"]);
    const { judgement, residual } = fit;
    expect(judgement).toBe("wrong");
    expect(residual.chiSquare).toBeGreaterThan(12);
    expect(columnFitWords(fit)[0]).toMatch(/is 4(\.\d)? times the measurement's noise, 0\.043 dB as stated/);
  });

  it(
    "widens its intervals where neighbouring frequencies err together, and so still holds the truth",
    () => {
      const truth = withGap(demo(), 3.1);
      let held = 0;
      for (let seed = 1; seed <= 40; seed++) {
        const measured = synthetic(truth, {
          from: 100,
          to: 500,
          step: 2,
          noise: 0.02,
          lag1Autocorrelation: 0.8,
          seed,
        });
        const { estimates, lag1Autocorrelation, degreesOfFreedom } = fitted(demo(), measured, "gap");
        expect(lag1Autocorrelation).toBeGreaterThan(0.5);
        expect(degreesOfFreedom).toBeLessThan(130);
        if (estimates[0].interval![0] <= 3.1 && estimates[0].interval![1] >= 3.1) held++;
      }
      // binomial of 40 and 0.95: 32 or fewer happens less than once in a thousand times
      expect(held).toBeGreaterThanOrEqual(33);
    },
    PATIENCE_MS,
  );

  it("finds as effective temperature of a warm breath what the wave's travelling time has, within 1.5 °C", () => {
    const cold = demo();
    if (cold.air.kind !== "conditions") throw new Error("the demo gives its air as conditions");
    const [room, breath, reach, length] = [22, 35, 400, 1384];
    const warm: Setup = {
      ...cold,
      air: { ...cold.air, temperatureC: room, breath: { temperatureC: breath, reachMm: reach } },
    };
    const found = fitted(
      { ...cold, air: { ...cold.air, temperatureC: room } },
      synthetic(warm),
      "temperature",
    );
    const mean = room + ((breath - room) * reach * (1 - Math.exp(-length / reach))) / length;
    expect(Math.abs(found.estimates[0].value - mean)).toBeLessThan(1.5);
    expect(columnFitWords(found).join(" ")).toMatch(/The temperature is an effective one/);
  });

  it("names the price of half a degree that was not fitted, and is not sure of a gap because of it", () => {
    const known = demo();
    const unsure: Setup = {
      ...known,
      uncertainties: { "air.temperature": { standard: 0.25, degreesOfFreedom: Infinity } },
    };
    // half a degree warmer than the setup has it
    const truth = changed(withGap(known, 3.7), { temperature: temperatureOf(known) + 0.5 });
    const measured = synthetic(truth, { noise: 0.01, to: 500 });
    const sure = fitted(known, measured, "gap").estimates[0];
    expect(sure.interval![1] < 3.7 || sure.interval![0] > 3.7).toBe(true);
    const fit = fitted(unsure, measured, "gap");
    const [{ interval, held, value }] = fit.estimates;
    expect(value).toBeCloseTo(sure.value, 6);
    expect(interval![0]).toBeLessThan(3.7);
    expect(interval![1]).toBeGreaterThan(3.7);
    expect(held.map(({ path }) => path)).toEqual(["air.temperature"]);
    expect(columnFitWords(fit).join(" ")).toMatch(
      /gap: most of its interval comes from .* temperature, ±0\.49 °C, moves it by ±[\d.]+ mm\. Measure these, or fit them too\./,
    );
    // fitted too, it costs nothing of itself
    const both = fitted(unsure, measured, "gap", "temperature");
    expect(both.estimates[0].held).toEqual([]);
  });

  it.each(["real-imaginary", "magnitude"] as const)(
    "holds the truth in its intervals as often as they say, where all that the setup declares is off at once: %s",
    (form) => {
      const declared: Setup = {
        ...light(),
        uncertainties: {
          "air.temperature": { standard: 0.4, degreesOfFreedom: Infinity },
          "body.diameters": { standard: 0.02, degreesOfFreedom: Infinity },
          "receiver.mouthDiameter": { standard: 0.03, degreesOfFreedom: Infinity },
          "receiver.depth": { standard: 0.05, degreesOfFreedom: Infinity },
          "leadpipe.profile[0][1]": { standard: 0.02, degreesOfFreedom: Infinity },
        },
      };
      const dimensions = uncertainDimensions(declared);
      expect(dimensions.length).toBe(5);
      const normal = randomNormal.source(randomLcg(0.62))();
      let [held, squares] = [0, 0];
      for (let seed = 1; seed <= 40; seed++) {
        const real = dimensions.reduce(
          (one, { moved, standard }) => moved(one, standard * normal()),
          withGap(declared, 3.1),
        );
        // the gap is what was asked for, however deep the receiver is
        const measured = synthetic(withGap(real, 3.1), {
          from: 100,
          to: 500,
          step: 4,
          noise: 0.01,
          seed,
          form,
        });
        const [{ value, standard, interval }] = fitted(declared, measured, "gap").estimates;
        if (interval![0] <= 3.1 && 3.1 <= interval![1]) held++;
        squares += ((value - 3.1) / standard!) ** 2 / 40;
      }
      // as above: binomial of 40, and χ² of 40 over 40
      expect(held).toBeGreaterThanOrEqual(33);
      expect(squares).toBeGreaterThan(0.4);
      expect(squares).toBeLessThan(1.85);
    },
    PATIENCE_MS,
  );

  it("says that it cannot tell, and gives no interval, where the gap could be nearly anything", () => {
    const fit = fitted(
      assumedDemo(),
      synthetic(withGap(demo(), 3.1), { noise: 0.3, from: 90, to: 200 }),
      "gap",
      "leadpipe-entry",
    );
    const [{ interval, standard }] = fit.estimates;
    expect([interval, standard]).toEqual([null, null]);
    expect(columnFitWords(fit).join(" ")).toMatch(
      /leadpipe start diameter: this measurement cannot tell it\./,
    );
  });

  it("can be left after any step, and tells how far it is", () => {
    const steps = columnFitSteps(demo(), synthetic(withGap(demo(), 3), { step: 5 }), ["gap"]);
    const first = steps.next().value as { iteration: number; scatterDb: number };
    expect(first.iteration).toBe(1);
    expect(first.scatterDb).toBeGreaterThan(0);
    expect(steps.return(undefined as never).done).toBe(true);
  });

  it("refuses what cannot be fitted, in words", () => {
    const measured = synthetic(demo(), { step: 10 });
    expect(() => fitted(demo(), measured)).toThrow(/name each unknown to fit once/);
    expect(() => fitted(demo(), measured, "gap", "gap")).toThrow(/once/);
    const constants: Setup = {
      ...demo(),
      air: {
        kind: "constants",
        density: 1.17,
        soundSpeed: 348,
        viscosity: 1.84e-5,
        heatRatio: 1.4,
        prandtl: 0.71,
      },
    };
    expect(() => fitted(constants, measured, "temperature")).toThrow(/give its temperature, or leave it out/);
  });
});
