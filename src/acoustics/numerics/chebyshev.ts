/**
 * Smooth complex functions of frequency from few exact values: Chebyshev interpolation (Trefethen 2013, Approximation
 * Theory and Approximation Practice, chapters 2 to 8). The two-ports of a horn are smooth and band-limited in frequency
 * (their fastest phase is kL), so the series falls off faster than any power once past that phase; and being a polynomial
 * it continues them to the complex frequencies of resonances.
 */

/** Coefficients below this part of the largest are dropped, and the series must have fallen this far. */
const NOISE = 1e-12;
const RESOLVED = 1e-9;
/** Three times what the longest bore asks for; a series that has not fallen by then never will. */
const MOST_NODES = 1024;
/** How far rounding may have grown where the series is still trusted off the real axis. */
const GROWTH = 1e6;

/** Several complex functions sampled together. */
export type Sample = (x: number, out: Float64Array) => void;

/** Complex functions on a range of frequencies as Chebyshev series, good to a stated tolerance and off the real axis as well. */
export class Interpolant {
  /** Exact evaluations spent. */
  readonly nodes: number;
  /** Whether the series has fallen as far as was asked. */
  readonly isResolved: boolean;
  readonly #middle: number;
  readonly #half: number;
  /** For every function its complex coefficients, re and im alternating, c₀ halved. */
  readonly #series: readonly Float64Array[];

  /**
   * @param sample writes `functions` complex numbers for a real x
   * @param nodes a guess of how many samples are needed; doubled until the series has fallen to its noise
   * @param resolved how far it must have fallen, as a part of the largest coefficient
   * @param most samples that it may cost
   */
  constructor(
    readonly low: number,
    readonly high: number,
    functions: number,
    nodes: number,
    sample: Sample,
    resolved = RESOLVED,
    most = MOST_NODES,
  ) {
    this.#middle = (low + high) / 2;
    this.#half = (high - low) / 2;
    let n = nodes;
    let values = sampleAt(n, (k) => Math.cos((Math.PI * k) / n));
    let series = transform(values, n, functions);
    const isFallen = () => series.every((one) => hasFallen(one, resolved));
    while (2 * n <= most && !isFallen()) {
      // the nodes of 2n between the ones known
      const between = sampleAt(n - 1, (k) => Math.cos((Math.PI * (2 * k + 1)) / (2 * n)));
      values = Array.from({ length: 2 * n + 1 }, (_, k) => (k & 1 ? between[(k - 1) / 2] : values[k / 2]));
      n *= 2;
      series = transform(values, n, functions);
    }
    this.nodes = n + 1;
    this.isResolved = isFallen();
    this.#series = series.map(chop);

    function sampleAt(last: number, cosine: (k: number) => number): Float64Array[] {
      return Array.from({ length: last + 1 }, (_, k) => {
        const out = new Float64Array(2 * functions);
        sample((low + high) / 2 + ((high - low) / 2) * cosine(k), out);
        return out;
      });
    }
  }

  /** Off the real interval errors grow like ρⁿ on the Bernstein ellipse through x; inside the one of `GROWTH` all is well. */
  isAccurateAt(xRe: number, xIm: number): boolean {
    const re = (xRe - this.#middle) / this.#half;
    const im = xIm / this.#half;
    return Math.hypot(re - 1, im) + Math.hypot(re + 1, im) <= this.#radius + 1 / this.#radius;
  }

  /** The upper edge of that ellipse, from its right end (t = 0) to its left (t = π). */
  edge(t: number): [re: number, im: number] {
    const r = this.#radius;
    return [
      this.#middle + this.#half * 0.5 * (r + 1 / r) * Math.cos(t),
      this.#half * 0.5 * (r - 1 / r) * Math.sin(t),
    ];
  }

  /** ρ of the trusted ellipse. */
  get #radius(): number {
    return GROWTH ** (1 / this.nodes);
  }

  /**
   * The first `count` functions at complex x, by Clenshaw's recurrence.
   * @param out two doubles a function
   */
  evaluate(xRe: number, xIm: number, out: Float64Array, count = this.#series.length): void {
    const tRe = (2 * (xRe - this.#middle)) / this.#half;
    const tIm = (2 * xIm) / this.#half;
    for (let f = 0, at = 0; f < count; f++) {
      const series = this.#series[f];
      let bRe = 0;
      let bIm = 0;
      let cRe = 0;
      let cIm = 0;
      // what is known a step earlier is added first: it does not hold up the step
      if (xIm === 0)
        for (let k = series.length - 2; k >= 2; k -= 2) {
          const re = series[k] - cRe + tRe * bRe;
          const im = series[k + 1] - cIm + tRe * bIm;
          cRe = bRe;
          cIm = bIm;
          bRe = re;
          bIm = im;
        }
      else
        for (let k = series.length - 2; k >= 2; k -= 2) {
          const re = series[k] - cRe + (tRe * bRe - tIm * bIm);
          const im = series[k + 1] - cIm + (tRe * bIm + tIm * bRe);
          cRe = bRe;
          cIm = bIm;
          bRe = re;
          bIm = im;
        }
      out[at++] = 0.5 * (tRe * bRe - tIm * bIm) - cRe + series[0];
      out[at++] = 0.5 * (tRe * bIm + tIm * bRe) - cIm + series[1];
    }
  }
}

/** Values at cos(πk/n), k = 0 … n, to coefficients: the discrete cosine transform, written out. */
function transform(values: readonly Float64Array[], n: number, functions: number): Float64Array[] {
  const cosines = Float64Array.from({ length: 2 * n }, (_, k) => Math.cos((Math.PI * k) / n));
  const valuesRe = new Float64Array(n + 1);
  const valuesIm = new Float64Array(n + 1);
  return Array.from({ length: functions }, (_, f) => {
    for (let k = 0; k <= n; k++) {
      const w = k === 0 || k === n ? 0.5 : 1;
      valuesRe[k] = w * values[k][2 * f];
      valuesIm[k] = w * values[k][2 * f + 1];
    }
    const series = new Float64Array(2 * (n + 1));
    for (let j = 0; j <= n; j++) {
      let re = 0;
      let im = 0;
      // jk modulo 2n
      for (let k = 0, at = 0; k <= n; k++, at += j) {
        if (at >= 2 * n) at -= 2 * n;
        re += cosines[at] * valuesRe[k];
        im += cosines[at] * valuesIm[k];
      }
      const scale = j === 0 || j === n ? 1 / n : 2 / n;
      series[2 * j] = re * scale;
      series[2 * j + 1] = im * scale;
    }
    return series;
  });
}

const sizeAt = (series: Float64Array, j: number): number => Math.hypot(series[2 * j], series[2 * j + 1]);

function largest(series: Float64Array): number {
  let size = 0;
  for (let j = 0; 2 * j < series.length; j++) size = Math.max(size, sizeAt(series, j));
  return size;
}

function hasFallen(series: Float64Array, resolved: number): boolean {
  const n = series.length / 2;
  const limit = resolved * largest(series);
  return [1, 2, 3, 4].every((back) => sizeAt(series, n - back) <= limit);
}

function chop(series: Float64Array): Float64Array {
  const limit = NOISE * largest(series);
  let n = series.length / 2;
  while (n > 2 && sizeAt(series, n - 1) <= limit) n--;
  return series.slice(0, 2 * n);
}
