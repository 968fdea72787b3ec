/** From standard uncertainties to an interval (JCGM 100:2008, annex G). */
import tQuantile from "@stdlib/stats-base-dists-t-quantile";

export interface UncertaintyComponent {
  readonly standardUncertainty: number;
  /** Infinity for a component that is known exactly, such as the resolution of a tool. */
  readonly degreesOfFreedom: number;
}

/** Independent components in quadrature (JCGM 100:2008, 5.1.2, all sensitivity coefficients ±1). */
export const combinedUncertainty = (components: readonly UncertaintyComponent[]): number =>
  Math.hypot(...components.map((component) => component.standardUncertainty));

/**
 * Effective degrees of freedom by Welch–Satterthwaite, ν = u⁴ / Σ uᵢ⁴/νᵢ (JCGM 100:2008, G.2b). Not rounded; Infinity
 * when no component with an uncertainty has finitely many.
 */
export function effectiveDegreesOfFreedom(components: readonly UncertaintyComponent[]): number {
  const combined = combinedUncertainty(components);
  if (combined === 0) return Number.POSITIVE_INFINITY;
  const sum = components.reduce(
    (total, { standardUncertainty, degreesOfFreedom }) =>
      total + (standardUncertainty / combined) ** 4 / degreesOfFreedom,
    0,
  );
  return 1 / sum;
}

/** The factor k by which ±k·u holds the value with this probability: Student's t (JCGM 100:2008, G.3.2). */
export function coverageFactor(degreesOfFreedom: number, confidence = 0.95): number {
  // Beyond a million, t is the normal distribution to six figures, and the quantile loses its footing.
  return tQuantile((1 + confidence) / 2, Math.min(degreesOfFreedom, 1e6));
}
