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
  readonly #functions: number;
  /** For every two functions their complex coefficients, c₀ halved: re and im of the one, then of the other. */
  readonly #pairs: readonly Float64Array[];

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
    this.#functions = functions;
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
    this.#pairs = inPairs(series.map(chop));

    function sampleAt(last: number, cosine: (k: number) => number): Float64Array[] {
      const row = 2 * functions;
      // one block for all: each array of its own would cost more than what is written into it
      const block = new Float64Array(row * (last + 1));
      return Array.from({ length: last + 1 }, (_, k) => {
        const out = block.subarray(row * k, row * (k + 1));
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
   * The first `count` functions at complex x, by Clenshaw's recurrence: two at once, since a step of one has to wait for the
   * step before.
   * @param out two doubles a function
   */
  evaluate(xRe: number, xIm: number, out: Float64Array, count = this.#functions): void {
    const tRe = (2 * (xRe - this.#middle)) / this.#half;
    const tIm = (2 * xIm) / this.#half;
    for (let f = 0; f < count; f += 2) {
      const c = this.#pairs[f / 2];
      // the recurrence's last value and the one before, of either function
      let aRe = 0;
      let aIm = 0;
      let bRe = 0;
      let bIm = 0;
      let aReBefore = 0;
      let aImBefore = 0;
      let bReBefore = 0;
      let bImBefore = 0;
      // what is known a step earlier is added first: it does not hold up the step
      if (xIm === 0)
        for (let k = c.length - 4; k >= 4; k -= 4) {
          const aReNext = c[k] - aReBefore + tRe * aRe;
          const aImNext = c[k + 1] - aImBefore + tRe * aIm;
          const bReNext = c[k + 2] - bReBefore + tRe * bRe;
          const bImNext = c[k + 3] - bImBefore + tRe * bIm;
          aReBefore = aRe;
          aImBefore = aIm;
          bReBefore = bRe;
          bImBefore = bIm;
          aRe = aReNext;
          aIm = aImNext;
          bRe = bReNext;
          bIm = bImNext;
        }
      else
        for (let k = c.length - 4; k >= 4; k -= 4) {
          const aReNext = c[k] - aReBefore + (tRe * aRe - tIm * aIm);
          const aImNext = c[k + 1] - aImBefore + (tRe * aIm + tIm * aRe);
          const bReNext = c[k + 2] - bReBefore + (tRe * bRe - tIm * bIm);
          const bImNext = c[k + 3] - bImBefore + (tRe * bIm + tIm * bRe);
          aReBefore = aRe;
          aImBefore = aIm;
          bReBefore = bRe;
          bImBefore = bIm;
          aRe = aReNext;
          aIm = aImNext;
          bRe = bReNext;
          bIm = bImNext;
        }
      out[2 * f] = 0.5 * (tRe * aRe - tIm * aIm) - aReBefore + c[0];
      out[2 * f + 1] = 0.5 * (tRe * aIm + tIm * aRe) - aImBefore + c[1];
      if (f + 1 === count) return;
      out[2 * f + 2] = 0.5 * (tRe * bRe - tIm * bIm) - bReBefore + c[2];
      out[2 * f + 3] = 0.5 * (tRe * bIm + tIm * bRe) - bImBefore + c[3];
    }
  }
}

/** Two series in one, as long as the longer; the last of an odd number with zeros. */
function inPairs(series: readonly Float64Array[]): Float64Array[] {
  return Array.from({ length: Math.ceil(series.length / 2) }, (_, i) => {
    const [a, b] = [series[2 * i], series[2 * i + 1] ?? new Float64Array(2)];
    const pair = new Float64Array(2 * Math.max(a.length, b.length));
    for (let k = 0; k < a.length; k++) pair[2 * k - (k & 1)] = a[k];
    for (let k = 0; k < b.length; k++) pair[2 * k - (k & 1) + 2] = b[k];
    return pair;
  });
}

/**
 * Values at cos(πk/n), k = 0 … n, to coefficients: the discrete cosine transform, written out. Its cosines are even about the
 * middle where the order is even, odd where it is odd, so the values are folded there first.
 */
function transform(values: readonly Float64Array[], n: number, functions: number): Float64Array[] {
  const cosines = Float64Array.from({ length: 2 * n }, (_, k) => Math.cos((Math.PI * k) / n));
  const folded = Math.floor(n / 2) + 1;
  const sums = new Float64Array(2 * folded);
  const differences = new Float64Array(2 * folded);
  return Array.from({ length: functions }, (_, f) => {
    for (let k = 0; k < folded; k++)
      for (const part of [0, 1]) {
        const w = k === 0 ? 0.5 : 1;
        const value = w * values[k][2 * f + part];
        const mirrored = 2 * k === n ? 0 : w * values[n - k][2 * f + part];
        sums[2 * k + part] = value + mirrored;
        differences[2 * k + part] = value - mirrored;
      }
    const series = new Float64Array(2 * (n + 1));
    for (let j = 0; j <= n; j++) {
      const half = j & 1 ? differences : sums;
      let re = 0;
      let im = 0;
      // jk modulo 2n
      for (let k = 0, at = 0; k < folded; k++, at += j) {
        if (at >= 2 * n) at -= 2 * n;
        re += cosines[at] * half[2 * k];
        im += cosines[at] * half[2 * k + 1];
      }
      const scale = j === 0 || j === n ? 1 / n : 2 / n;
      series[2 * j] = re * scale;
      series[2 * j + 1] = im * scale;
    }
    return series;
  });
}

/** |c_j|² */
const squareAt = (series: Float64Array, j: number): number => series[2 * j] ** 2 + series[2 * j + 1] ** 2;

function largestSquare(series: Float64Array): number {
  let square = 0;
  for (let j = 0; 2 * j < series.length; j++) square = Math.max(square, squareAt(series, j));
  return square;
}

function hasFallen(series: Float64Array, resolved: number): boolean {
  const n = series.length / 2;
  const limit = resolved ** 2 * largestSquare(series);
  return [1, 2, 3, 4].every((back) => squareAt(series, n - back) <= limit);
}

function chop(series: Float64Array): Float64Array {
  const limit = NOISE ** 2 * largestSquare(series);
  let n = series.length / 2;
  while (n > 2 && squareAt(series, n - 1) <= limit) n--;
  return series.slice(0, 2 * n);
}
