/**
 * What a fit's residuals are made of: noise that jumps from one frequency to the next, and whatever runs on over neighbouring
 * ones, as the error of a model does.
 *
 * The noise alone is had from second differences, which a smooth error leaves out (Gasser, Sroka & Jennen-Steinmetz 1986,
 * Biometrika 73, 625, from memory):
 *
 *   σ² = Σ (rᵢ₋₁ − 2rᵢ + rᵢ₊₁)²/(6(n − 2))
 *
 * and what runs on from the autocorrelations ρ_k: (ρ₁ + … + ρ_K)√(m/K) is a standard normal number for noise alone (Box &
 * Pierce's statistic without its squares, so that only running together counts). A mean over neighbours that err together is
 * worth less than their number, by
 *
 *   S/γ₀ = 1 + 2 Σ (1 − k/(K + 1)) ρ_k
 *
 * (Newey & West 1987, Econometrica 55, 703), which noise on top cannot make smaller: it adds to γ₀ and, in the mean, to nothing
 * else. That is why no lag is left out for being small.
 */

export interface ResidualNoise {
  /** Standard deviation of what jumps, σ. */
  readonly jumps: number;
  /** ρ₁; what chance alone makes of it is no correlation. */
  readonly lag1Autocorrelation: number;
  /** How far the residuals run together, in standard deviations of what chance makes. */
  readonly score: number;
  /** S/γ₀, at least 1. */
  readonly inflation: number;
  readonly degreesOfFreedom: number;
  /** Root mean square of the largest smooth error that may be among them, seen or hidden by the noise, in nepers. */
  readonly smoothAtMost: number;
}

/** Standard deviations from which running together is no chance: at 4, one fit of the right model in ten thousand. */
export const NO_CHANCE = 4;
/** Lags that are added up: an error of the model may be as wide as a few frequencies or as many. */
const LAGS = [1, 2, 4, 8, 16, 32];
const MOST_LAGS = 32;
/** Lags over which an error of the model holds on at least. Own choice. */
const SMOOTH_LAGS = 8;
/** Of a part's frequencies, the lags that they tell. */
const TOLD = 6;

/**
 * @param residuals one part of the impedance after the other
 * @param parts how many parts there are: two, or the magnitude alone
 * @param fitted how many variables were fitted
 */
export function residualNoise(residuals: Float64Array, parts: number, fitted: number): ResidualNoise {
  const rows = residuals.length;
  const count = rows / parts;
  const lags = Math.max(1, Math.min(MOST_LAGS, Math.floor(count / TOLD)));
  const rho = autocorrelations(residuals, count, Math.min(MOST_LAGS, count - 1));
  const variance = residuals.reduce((sum, r) => sum + r * r, 0) / rows;
  const sum = (upTo: number) => rho.slice(0, upTo).reduce((all, value) => all + value, 0);
  const longRun = rho
    .slice(0, lags)
    .reduce((all, value, i) => all + 2 * (1 - (i + 1) / (lags + 1)) * value, 1);
  const inflation = Math.max(1, longRun);
  const smoothLags = Math.min(SMOOTH_LAGS, lags);
  const smoothShare = Math.max(0, sum(smoothLags) / smoothLags) + NO_CHANCE / Math.sqrt(rows * smoothLags);
  const rho1 = rho[0] ?? 0;
  return {
    jumps: jumps(residuals, count, parts),
    lag1Autocorrelation: rho1 < 2 / Math.sqrt(rows) ? 0 : Math.min(rho1, 0.999),
    score: Math.max(
      0,
      ...LAGS.filter((lag) => lag <= rho.length).map((lag) => sum(lag) * Math.sqrt(rows / lag)),
    ),
    inflation,
    // Welch and Satterthwaite's, of the noise and of what runs on
    degreesOfFreedom: Math.max(
      1,
      inflation ** 2 / ((inflation - 1) ** 2 / Math.max(1, rows / lags) + 1 / Math.max(1, rows - fitted)),
    ),
    smoothAtMost: Math.sqrt(variance * Math.min(1, smoothShare)),
  };
}

/** ρ₁, ρ₂ … within each part; nothing where there are no residuals. */
function autocorrelations(residuals: Float64Array, count: number, most: number): number[] {
  const squares = residuals.reduce((sum, r) => sum + r * r, 0);
  return Array.from({ length: most }, (_, k) => {
    let products = 0;
    for (let row = k + 1; row < residuals.length; row++)
      if (row % count > k) products += residuals[row] * residuals[row - k - 1];
    return squares > 0 ? products / squares : 0;
  });
}

function jumps(residuals: Float64Array, count: number, parts: number): number {
  let squares = 0;
  for (let i = 1; i < residuals.length - 1; i++)
    if (i % count !== 0 && (i + 1) % count !== 0)
      squares += (residuals[i - 1] - 2 * residuals[i] + residuals[i + 1]) ** 2;
  return Math.sqrt(squares / (6 * (residuals.length - 2 * parts)));
}
