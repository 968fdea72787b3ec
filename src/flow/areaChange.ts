/**
 * Loss of total pressure where the bore changes its area, from the speed u₁ at which a run of widening or narrowing began
 * to the speed u₂ where it has come to:
 *
 *   sudden widening     ½ρ (u₁ − u₂)²                                  Borda–Carnot; exact for a uniform jet
 *   sudden narrowing    ½ρu₂² · ½ (1 − S₂/S₁)^(3/4)                    Idelchik, Handbook of Hydraulic Resistance, diagram 4-9
 *
 * A cone of total angle θ loses a fraction of that:
 *
 *   widening            min(1, 3.2 tan(θ/2)^(5/4))                     Idelchik, diagram 5-2, friction apart; his table from
 *                                                                      40° up goes to 1.15 and back to 1
 *   narrowing           min(1.6 sin(θ/2), √sin(θ/2))                   ratio of gradual to sudden contraction, Crane TP 410
 *
 * Range: turbulent flow, Re above some 10⁴; slower streams lose more than this at every edge, so what depends on the edges is
 * an underestimate below.
 */

/**
 * Loss, Pa, of a sudden change between two speeds, m/s.
 * @param density kg/m³
 */
export function suddenLoss(before: number, after: number, density: number): number {
  return after <= before
    ? 0.5 * density * (before - after) ** 2
    : 0.25 * density * after * after * (1 - before / after) ** 0.75;
}

/** Part of the sudden loss that a cone has, from the tangent of half its angle (infinite: a step). */
export function partOfSudden(halfAngleTangent: number, widening: boolean): number {
  if (halfAngleTangent === Infinity) return 1;
  if (widening) return Math.min(1, 3.2 * halfAngleTangent ** 1.25);
  const sine = halfAngleTangent / Math.hypot(1, halfAngleTangent);
  return Math.min(1.6 * sine, Math.sqrt(sine));
}
