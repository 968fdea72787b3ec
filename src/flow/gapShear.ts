/**
 * What the shear layer of a stream across the gap does to a tone. Swept by the tone, the layer rolls up and reaches the
 * leadpipe's edge some part of a period later: about St = f g/U = 0.2 it takes energy from the tone, about 0.4 to 0.5 it may
 * give some. It stands in series with the gap of still air,
 *
 *   Z = κ ρU/S,   κ(St, g/D, Re, m)
 *
 * κ from linearised Navier–Stokes equations about the laminar stream, by finite elements (tests/reference/flow/stream/gap.py): a
 * cavity of 1.15 times the bore, sharp edges, incoming profile u ∝ 1 − (r/a)^m; at St → 0 the quasi-steady value of the loss
 * the gap adds. Between the table's values: cubics through four neighbours in St, straight lines in g/D and in ln Re and ln m.
 * At Re 3200 and a gap of 0.3 bores (`--check`), elements of 0.6 of the size move κ by 0.01 or less; bores half as long again before
 * the gap and two thirds behind it by 0.03 where the profile has m = 6, and by 0.08 at St 0.02, 0.05 above, where m = 16, which is no
 * pipe's and changes on its way. As St goes to 0 κ is 0.006 and 0.010 by the steady loss.
 *
 * Corrugated pipes and single cavities of pipes whistle about St 0.4 to 0.6, counted by the cavity's length, and damp below
 * (Nakiboğlu, Belfroid, Golliard & Hirschberg 2011, J. Fluid Mech. 676; Dai & Aurégan 2018, J. Sound Vib. 418; from memory).
 *
 * Range: g/D from 0, where κ vanishes, to 0.95; Re 800 to 3200, beyond which it is kept; tones small beside the stream, |û| below
 * some tenth of U. A turbulent stream's layer is thicker than this laminar one and does less.
 */
import { FULLNESS, GAPS_OVER_DIAMETER, KAPPA, REYNOLDS, STROUHAL } from "./gapShearTable.ts";

export type Kappa = readonly [re: number, im: number];

/** One geometry and stream: κ at any Strouhal number. */
export interface GapStream {
  readonly gapOverDiameter: number;
  readonly reynolds: number;
  /** m */
  readonly fullness: number;
}

/** κ as a function of St from 0, for one stream. */
export function gapShear({ gapOverDiameter, reynolds, fullness }: GapStream): (strouhal: number) => Kappa {
  const spectrum = new Float64Array(2 * STROUHAL.length);
  // with the gap κ vanishes
  const short = Math.min(1, gapOverDiameter / GAPS_OVER_DIAMETER[0]);
  for (const [gap, ofGap] of around(GAPS_OVER_DIAMETER, gapOverDiameter, (x) => x))
    for (const [re, ofReynolds] of around(REYNOLDS, reynolds, Math.log))
      for (const [full, ofFullness] of around(FULLNESS, fullness, Math.log)) {
        const weight = short * ofGap * ofReynolds * ofFullness;
        const row = ((gap * REYNOLDS.length + re) * FULLNESS.length + full) * spectrum.length;
        for (let k = 0; k < spectrum.length; k++) spectrum[k] += weight * KAPPA[row + k];
      }
  return (strouhal) => alongStrouhal(spectrum, strouhal);
}

/** The two places x lies between, with their weights; the last one alone outside. */
function around(
  places: readonly number[],
  x: number,
  scale: (x: number) => number,
): readonly (readonly [at: number, weight: number])[] {
  const last = places.length - 1;
  if (x <= places[0]) return [[0, 1]];
  if (x >= places[last]) return [[last, 1]];
  const k = places.findLastIndex((place) => place <= x);
  const t = (scale(x) - scale(places[k])) / (scale(places[k + 1]) - scale(places[k]));
  return [
    [k, 1 - t],
    [k + 1, t],
  ];
}

/** Cubic Hermite with slopes through the neighbours on either side; behind the last it dies as St⁻². */
function alongStrouhal(spectrum: Float64Array, strouhal: number): Kappa {
  const last = STROUHAL.length - 1;
  if (strouhal >= STROUHAL[last]) {
    const left = (STROUHAL[last] / strouhal) ** 2;
    return [left * spectrum[2 * last], left * spectrum[2 * last + 1]];
  }
  const k = STROUHAL.findLastIndex((place) => place <= strouhal);
  const step = STROUHAL[k + 1] - STROUHAL[k];
  const t = (strouhal - STROUHAL[k]) / step;
  const part = (which: 0 | 1): number => {
    const y = (i: number) => spectrum[2 * i + which];
    const slope = (i: number) => {
      const [a, b] = [Math.max(0, i - 1), Math.min(last, i + 1)];
      return (y(b) - y(a)) / (STROUHAL[b] - STROUHAL[a]);
    };
    const [m0, m1] = [step * slope(k), step * slope(k + 1)];
    const rise = y(k + 1) - y(k);
    return y(k) + t * (m0 + t * (3 * rise - 2 * m0 - m1 + t * (m0 + m1 - 2 * rise)));
  };
  return [part(0), part(1)];
}

/** m of a profile whose core is that many times as fast as its mean: 2 is the parabola's. */
export const fullnessOf = (coreOverMean: number): number =>
  Math.min(FULLNESS[FULLNESS.length - 1], Math.max(FULLNESS[0], 2 / (coreOverMean - 1)));

/** Least and most of the table's profiles. */
export const FULLEST = FULLNESS[FULLNESS.length - 1];
export const LONGEST_PIPE = FULLNESS[0];
