/** Lips on the column that came with values from SciPy and LAPACK: what is drawn beside them. */
import { Stability } from "../../src/lips/stability.ts";
import { Thresholds } from "../../src/lips/threshold.ts";
import time from "../../tests/reference/lips/in-time.json" with { type: "json" };
import stability from "../../tests/reference/lips/stability.json" with { type: "json" };
import { outcomeOf } from "../how-far-to-trust-this/check.ts";
import { blown, column, lowestOf, theLips, valveNamed } from "../how-far-to-trust-this/theLips.ts";

const usual = "usual";

/** Largest deviations, by the same checks as in the notebook on trust: over all lips, not only those drawn. */
export const worstOf = (words: string): number =>
  outcomeOf(theLips.find(({ name }) => name.includes(words))!).worst.off;

/** Lowest pressure that starts anything: a line of ours, SciPy's values where it has some. */
export function startingPressures() {
  const search = new Thresholds(valveNamed(usual), column);
  const lipHz = Array.from({ length: 240 }, (_, i) => 75 * (1150 / 75) ** (i / 239));
  return {
    lipHz,
    pascals: lipHz.map((hz) => lowestOf(search, hz)?.mouthPressure ?? Number.NaN),
    outside: stability.thresholds.flatMap(({ lips, lipHz: at, pressure }) =>
      lips === usual && pressure !== null ? [{ lipHz: at, pascals: pressure }] : [],
    ),
  };
}

export interface Eigenvalue {
  /** 1/s; above 0 it grows. */
  readonly rate: number;
  readonly hz: number;
}

/** What oscillates, and what cannot: eigenvalues of one case, ours and LAPACK's. */
export function eigenvaluesAt(lipHz: number, mouthPressure: number) {
  const one = stability.cases.find(
    (found) => found.lips === usual && found.lipHz === lipHz && found.mouthPressure === mouthPressure,
  )!;
  const ours = new Stability(valveNamed(usual), column).eigenvalues(lipHz, mouthPressure);
  return { ours: upper(ours), outside: upper(one.eigenvalues) };
}

/** Of every pair the one with a positive frequency. */
function upper(pairs: ArrayLike<number>): readonly Eigenvalue[] {
  const found: Eigenvalue[] = [];
  for (let k = 0; k < pairs.length; k += 2)
    if (pairs[k + 1] > 1) found.push({ rate: pairs[k], hz: pairs[k + 1] / (2 * Math.PI) });
  return found.sort((a, b) => a.hz - b.hz);
}

/** Lip frequencies of the attacks in time with the usual lips, Hz. */
export const attacks = time.cases.flatMap(({ lips, lipHz }) => (lips === usual ? [lipHz] : []));

/** First 40 ms in the cup, Pa: ours against time, SciPy's at every millisecond. */
export function attackAt(lipHz: number) {
  const one = time.cases.find((found) => found.lips === usual && found.lipHz === lipHz)!;
  const rate = 192_000;
  const { pressures } = blown({ ...one, seconds: 0.04 }, rate);
  const thinned = Array.from({ length: 400 }, (_, i) => Math.round((i * (pressures.length - 1)) / 399));
  return {
    mouthPressure: one.mouthPressure,
    milliseconds: thinned.map((i) => (1000 * i) / rate),
    pascals: thinned.map((i) => pressures[i]),
    outside: one.pressureEveryMs,
  };
}
