/**
 * A laminar stream that enters a round pipe flat and grows its boundary layer along it, by the momentum integral of Schiller
 * 1922 (Z. angew. Math. Mech. 2, 96, from memory): a parabolic layer of thickness δ around a core that loses nothing,
 *
 *   u/U = 2η − η²,   η = y/δ ≤ 1;   d = δ/a;   mean over U:  m = 1 − 2d/3 + d²/6
 *   ∫u² = U²M,   M = 1 − 14d/15 + 4d²/15;     ∫u³ = U³N,   N = 1 − 38d/35 + 47d²/140         (means over the section)
 *   momentum:    d[(M − ½)/m²]/dξ = −4/(d m),   ξ = xν/(a²ū) = 4x/(D Re),   from d = 0 to 1
 *
 * The core's Bernoulli gives the pressure, 1/m² − 1, and what the stream carries more than a flat one is N/m³ − 1, both over ½ρū²;
 * the power lost on the way is their difference. Behind ξ(d = 1), 0.115 or x/(D Re) = 0.029, it is Hagen–Poiseuille's.
 *
 * Range: Re from some 100 up; laminar layers hold to Reynolds numbers by length of some 3·10⁵, longer than any throat has.
 */

/** Over ½ρū² of the pipe. */
export interface Developing {
  /** Power lost over flow, from the entry. */
  readonly loss: number;
  /** Kinetic energy carried there over that of a flat profile: 1 at the entry, 2 far on. */
  readonly kineticFactor: number;
  /** Speed of the core over the mean: 1 at the entry, 2 far on. */
  readonly coreOverMean: number;
}

const STEPS = 200;
const mean = (d: number): number => 1 - (2 * d) / 3 + (d * d) / 6;
const core = (d: number): number => (0.5 - (14 * d) / 15 + (4 * d * d) / 15) / mean(d) ** 2;
const at = (d: number): Developing => {
  const kineticFactor = (1 - (38 * d) / 35 + (47 * d * d) / 140) / mean(d) ** 3;
  return { loss: mean(d) ** -2 - kineticFactor, kineticFactor, coreOverMean: 1 / mean(d) };
};

/** ξ at d = 0, 1/STEPS, …, 1; each step with d and m at its middle. Its root is nearly straight in d. */
const ENTRANCE: readonly number[] = (() => {
  const distances = [0];
  for (let k = 0; k < STEPS; k++) {
    const middle = (k + 0.5) / STEPS;
    const fall = core(k / STEPS) - core((k + 1) / STEPS);
    distances.push(distances[k] + (fall * middle * mean(middle)) / 4);
  }
  return distances;
})();

/**
 * What the stream has lost, and carries, `distance` diameters behind a flat entry.
 * @param reynolds by the diameter, above 0
 */
export function developing(distance: number, reynolds: number): Developing {
  const xi = (4 * distance) / reynolds;
  const whole = ENTRANCE[STEPS];
  if (xi >= whole) {
    const entry = at(1);
    return { ...entry, loss: entry.loss + 16 * (xi - whole) };
  }
  let [low, high] = [0, STEPS];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (ENTRANCE[middle] <= xi) low = middle;
    else high = middle;
  }
  const [from, to] = [Math.sqrt(ENTRANCE[low]), Math.sqrt(ENTRANCE[high])];
  return at((low + (Math.sqrt(xi) - from) / (to - from)) / STEPS);
}
