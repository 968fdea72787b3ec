/** The gap's inertance beside the simpler answers it must go over to. */
import { cavityInertance, regionInertance } from "../../src/acoustics/gap/gap.ts";
import { stepInertance } from "../../src/acoustics/gap/junction.ts";
import { straightRows } from "../how-far-to-trust-this/gapRows.ts";

/** Radii of the cross-check's commonest shape, mm; its finite elements reach from 0.05 to 12 mm. */
export const shape = { shankExitMm: 4.25, cavityMm: 5, leadpipeMm: 4.4 };

const metre = 1000;

export interface GapPoint {
  readonly gapMm: number;
  /** Inertance over density beyond the plane flow's, 1/m. */
  readonly excess: number;
}

/** Of the cavity alone, as if its flow were plane: ℓ/S, 1/m. */
export const planePart = (gapMm: number): number => gapMm / metre / (Math.PI * (shape.cavityMm / metre) ** 2);

const cavity = (gapMm: number) => ({
  shankExit: shape.shankExitMm / metre,
  cavityAtShank: shape.cavityMm / metre,
  cavityAtLeadpipe: shape.cavityMm / metre,
  leadpipe: shape.leadpipeMm / metre,
  gap: gapMm / metre,
});

/** What both steps and their meeting add to the plane flow's inertance, 1/m. */
export const excessAt = (gapMm: number): number => regionInertance(cavity(gapMm)) - planePart(gapMm);

/** The steps' own and mutual inertance over density, 1/m. */
export const stepsAt = (gapMm: number) => {
  const [atShank, mutual, atLeadpipe] = cavityInertance(cavity(gapMm));
  return { atShank, mutual, atLeadpipe };
};

/** The same by finite elements, for the gaps of this shape in the table. */
export const finiteElements: readonly GapPoint[] = straightRows
  .filter(
    ({ shankExitMm, nearMm, leadpipeMm }) =>
      shankExitMm === shape.shankExitMm && nearMm === shape.cavityMm && leadpipeMm === shape.leadpipeMm,
  )
  .map(({ gapMm, inertance }) => ({ gapMm, excess: inertance * metre - planePart(gapMm) }));

/** Gap closed: the one step from shank to leadpipe. */
export const oneStep = stepInertance(shape.shankExitMm / metre, shape.leadpipeMm / metre);
/** Gap wide: a step up and a step down that know nothing of each other. */
export const twoSteps =
  stepInertance(shape.shankExitMm / metre, shape.cavityMm / metre) +
  stepInertance(shape.cavityMm / metre, shape.leadpipeMm / metre);

/** Gaps of the curve, evenly in their logarithm, mm. */
export const curveGapsMm = Array.from({ length: 80 }, (_, i) => 0.01 * 2000 ** (i / 79));
