/** The gap's inertance by finite elements, as its table has it. */
import { numbersOf } from "../../tests/reference/csv.ts";
import straight from "../../tests/reference/gap/inertance.csv?raw";

/** A row of finite elements: radii and gap, mm, and the region's inertance over density, 1/mm. */
export interface GapRow {
  readonly shankExitMm: number;
  readonly nearMm: number;
  readonly farMm: number;
  readonly leadpipeMm: number;
  readonly gapMm: number;
  readonly inertance: number;
}

export const straightRows: readonly GapRow[] = numbersOf(straight).map(
  ([shankExitMm, cavityMm, leadpipeMm, gapMm, inertance]) => ({
    shankExitMm,
    nearMm: cavityMm,
    farMm: cavityMm,
    leadpipeMm,
    gapMm,
    inertance,
  }),
);
