/** The gap's cavity on its own, between three straight coaxial bores: what a finite-element check can be held against. */

import { cavityCompliance, regionInertance } from "../../acoustics/gap/gap.ts";
import type { Air } from "../../acoustics/medium/air.ts";
import { moistAir } from "../../acoustics/medium/air.ts";

export interface CavityDimensions {
  readonly shankExitMm: number;
  readonly cavityMm: number;
  readonly leadpipeMm: number;
  readonly gapMm: number;
}

/** Room air where no setup gives one: 22 °C, half humid. */
export const ROOM: Air = moistAir({ temperatureC: 22, humidity: 0.5, co2: 0.0004, pressurePa: 101325 });

/**
 * Inertance of the whole region over density, 1/m: both steps and the plane flow between; compliance V/(ρc²), m³/Pa.
 * @param dimensions inner diameters and the gap, mm
 */
export function cavityElements(dimensions: CavityDimensions, air = ROOM) {
  const { shankExitMm, cavityMm, leadpipeMm, gapMm } = dimensions;
  const radius = (diameterMm: number) => diameterMm / 2000;
  const cavity = {
    shankExit: radius(shankExitMm),
    cavityAtShank: radius(cavityMm),
    cavityAtLeadpipe: radius(cavityMm),
    leadpipe: radius(leadpipeMm),
    gap: gapMm / 1000,
  };
  return { inertanceOverDensity: regionInertance(cavity), compliance: cavityCompliance(cavity, air) };
}
