/** Independent components of an uncertainty put together (JCGM 100:2008, 5.1.2 and annex G). */

export interface UncertaintyComponent {
  readonly standardUncertainty: number;
  /** Infinity for a component that is known exactly, such as the resolution of a tool. */
  readonly degreesOfFreedom: number;
}

/** The factor by which ±k·u holds the value with 95 % probability, by the degrees of freedom of u. */
export type CoverageFactor = (degreesOfFreedom: number) => number;

/** For uncertainties that are not themselves in doubt: the normal distribution's. */
export const NORMAL_COVERAGE: CoverageFactor = () => 1.959964;

/** In quadrature, each already times its sensitivity coefficient. */
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
