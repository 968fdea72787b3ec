import { chiSquareTail, fQuantile, tQuantile } from "../../src/statistics/distributions.ts";
import { wilsonInterval } from "../../src/statistics/wilsonInterval.ts";
import { splineOf } from "../../src/study/design/designSpline.ts";
import { friedman } from "../../src/trial/friedman.ts";
import { permutationTest } from "../../src/trial/permutation.ts";
import { repeatability } from "../../src/trial/repeatability.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import spline from "../../tests/reference/design/spline.csv?raw";
import chiSquare from "../../tests/reference/statistics/chi-square.csv?raw";
import studentT from "../../tests/reference/statistics/student-t.csv?raw";
import wilson from "../../tests/reference/statistics/wilson.csv?raw";
import trial from "../../tests/reference/trial/analysis.json" with { type: "json" };
import { absolute, type Check, relative } from "./check.ts";

const part = "statistics and shapes";

export const statisticsAndShapes: readonly Check[] = [
  {
    name: "Wilson's interval of a share",
    part,
    source: "SciPy binomtest",
    table: "statistics/wilson.csv",
    unit: "1",
    samples: () =>
      numbersOf(wilson).flatMap(([count, of, low, high]) => {
        const interval = wilsonInterval(count, of);
        return [low, high].map((end, i) => absolute(`${count} of ${of}`, interval[i], end, 5e-13));
      }),
  },
  {
    name: "Friedman's test of a blind trial, χ² and p",
    part,
    source: "SciPy friedmanchisquare",
    table: "trial/analysis.json",
    unit: "1",
    samples: () =>
      trial.sets.flatMap(({ blocks, chiSquare, p }, i) => {
        const own = friedman(blocks);
        return [
          absolute(`set ${i + 1}, χ²`, own.chiSquare, chiSquare, 5e-11),
          absolute(`set ${i + 1}, p`, own.p, p, 5e-11),
        ];
      }),
  },
  {
    name: "The same by counting every order, p",
    part,
    source: "Python itertools, all orders counted",
    table: "trial/analysis.json",
    unit: "1",
    samples: () =>
      trial.sets.flatMap(({ blocks, exactP }, i) =>
        exactP === null ? [] : [absolute(`set ${i + 1}`, permutationTest(blocks).p, exactP, 5e-13)],
      ),
  },
  {
    name: "Agreement of a player with himself: standard deviation, correlation",
    part,
    source: "SciPy, analysis of variance",
    table: "trial/analysis.json",
    unit: "1",
    samples: () =>
      trial.sets.flatMap(({ blocks, repeatability: known }, i) => {
        const own = repeatability(blocks);
        return [
          absolute(`set ${i + 1}, deviation`, own.standardDeviation, known.standardDeviation, 5e-11),
          absolute(`set ${i + 1}, correlation`, own.correlation ?? Number.NaN, known.correlation, 5e-11),
        ];
      }),
  },
  {
    name: "Quantiles of the F distribution",
    part,
    source: "SciPy",
    table: "trial/analysis.json",
    unit: "1",
    samples: () =>
      (trial.fDistribution as readonly number[][]).map(([probability, d1, d2, quantile]) =>
        relative(`${probability}, ${d1} and ${d2}`, fQuantile(probability, d1, d2), quantile, 5e-9),
      ),
  },
  {
    name: "Quantiles of Student's t",
    part,
    source: "mpmath",
    table: "statistics/student-t.csv",
    unit: "1",
    samples: () =>
      numbersOf(studentT).map(([probability, degrees, quantile]) =>
        relative(`${probability}, ${degrees}`, tQuantile(probability, degrees), quantile, 1e-9),
      ),
  },
  {
    name: "Upper tails of χ²",
    part,
    source: "mpmath",
    table: "statistics/chi-square.csv",
    unit: "1",
    samples: () =>
      numbersOf(chiSquare).map(([value, degrees, tail]) =>
        relative(`${value}, ${degrees}`, chiSquareTail(value, degrees), tail, 1e-12),
      ),
  },
  {
    name: "The leadpipe's spline: diameter, slope, curvature",
    part,
    source: "SciPy BSpline",
    table: "design/spline.csv",
    unit: "1",
    samples: () => {
      const controls = [8.75, 8.9, 9.4, 9.1, 10.8, 11.2, 11.68];
      const { basis } = splineOf(240, controls.length);
      return numbersOf(spline).flatMap(([x, ...printed]) =>
        printed.map((value, order) => {
          const ours = basis(x, order).reduce((sum, b, i) => sum + b * controls[i], 0);
          return absolute(`${["diameter", "slope", "curvature"][order]} at ${x} mm`, ours, value, 5e-13);
        }),
      );
    },
  },
];
