import { regionInertance } from "../../src/acoustics/gap/gap.ts";
import { stepInertance } from "../../src/acoustics/gap/junction.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import region from "../../tests/reference/gap-region.csv?raw";
import { type Check, relative, type Sample } from "./check.ts";
import { type GapRow, straightRows } from "./gapRows.ts";
import { ofInertance } from "./heard.ts";

const part = "gap";
const millimetre = 1e-3;

const regionRows: readonly GapRow[] = numbersOf(region).map(
  ([shankExitMm, nearMm, farMm, leadpipeMm, gapMm, inertance]) => ({
    shankExitMm,
    nearMm,
    farMm,
    leadpipeMm,
    gapMm,
    inertance,
  }),
);

/** The same by mode matching, 1/mm. */
export const inertanceOf = ({
  shankExitMm,
  nearMm,
  farMm,
  leadpipeMm,
  gapMm,
}: Omit<GapRow, "inertance">): number =>
  millimetre *
  (gapMm === 0
    ? stepInertance(shankExitMm * millimetre, leadpipeMm * millimetre)
    : regionInertance({
        shankExit: shankExitMm * millimetre,
        cavityAtShank: nearMm * millimetre,
        cavityAtLeadpipe: farMm * millimetre,
        leadpipe: leadpipeMm * millimetre,
        gap: gapMm * millimetre,
      }));

/** Both are over density, 1/mm. */
const heard = ({ ours, theirs }: Sample) => ofInertance(Math.abs(ours - theirs) / millimetre);

const sample = (row: GapRow, asked: number): Sample =>
  relative(`gap ${row.gapMm} mm, cavity ${2 * row.nearMm} mm`, inertanceOf(row), row.inertance, asked);

/** First order in the wall's slope: less good for twice the usual taper, and where the taper swallows a step. */
const isSteep = ({ nearMm, farMm, leadpipeMm, gapMm }: GapRow): boolean =>
  Math.abs(nearMm - farMm) / gapMm > 0.026 || farMm <= leadpipeMm;

const ofRegion = (rows: (row: GapRow) => boolean, asked: number) => () =>
  regionRows.filter(rows).map((row) => sample(row, asked));

export const theGap: readonly Check[] = [
  {
    name: "Inertance of the gap, straight cavity, 0.05 to 12 mm",
    part,
    source: "finite elements (FreeFEM, axisymmetric P2)",
    table: "gap-inertance.csv",
    unit: "1",
    heard,
    samples: () => straightRows.map((row) => sample(row, 5e-4)),
  },
  {
    name: "The same in other shapes and at the usual taper of 0.05",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap-region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm > 0 && !isSteep(row), 4e-4),
  },
  {
    name: "The same where the cavity is steep or no wider than the leadpipe",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap-region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm > 0 && isSteep(row), 1.5e-3),
  },
  {
    name: "Gap closed: one step from shank to leadpipe",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap-region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm === 0, 3e-3),
  },
];
