import { regionInertance } from "../../src/acoustics/gap/gap.ts";
import { stepInertance } from "../../src/acoustics/gap/junction.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import offAxis from "../../tests/reference/gap/off-axis.csv?raw";
import region from "../../tests/reference/gap/region.csv?raw";
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

/** The shape of `gap/off-axis.py`, radii in mm. */
const offAxisShape = { shankExitMm: 4.2, nearMm: 4.85, farMm: 4.85, leadpipeMm: 4.375 };

/** A shank whose exit stands off the axis: what the model leaves out. `asGapMm`: so much more gap would do the same. */
export const offAxisRows = numbersOf(offAxis).map(([gapMm, offAxisMm, inertance, asGapMm]) => ({
  gapMm,
  offAxisMm,
  inertance,
  asGapMm,
}));

/** Of a gap of 2.5 mm with the exit 0.2 mm off its axis: inertance more, %, and the gap that would do the same, mm. */
export function offAxisEffect(): { readonly percent: number; readonly asGapMm: number } {
  const at = (off: number) => offAxisRows.find(({ gapMm, offAxisMm }) => gapMm === 2.5 && offAxisMm === off)!;
  const { inertance, asGapMm } = at(0.2);
  return { percent: 100 * (inertance / at(0).inertance - 1), asGapMm };
}

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
    table: "gap/inertance.csv",
    unit: "1",
    heard,
    samples: () => straightRows.map((row) => sample(row, 5e-4)),
  },
  {
    name: "The same in other shapes and at the usual taper of 0.05",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap/region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm > 0 && !isSteep(row), 4e-4),
  },
  {
    name: "The same where the cavity is steep or no wider than the leadpipe",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap/region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm > 0 && isSteep(row), 1.5e-3),
  },
  {
    name: "Gap closed: one step from shank to leadpipe",
    part,
    source: "finite elements (FreeFEM), bracketed to 5e-6",
    table: "gap/region.csv",
    unit: "1",
    heard,
    samples: ofRegion((row) => row.gapMm === 0, 3e-3),
  },
  {
    name: "A gap on its axis, by the sums that serve for one off it",
    part,
    source: "mode matching with Graf's addition theorem, NumPy and SciPy",
    table: "gap/off-axis.csv",
    unit: "1",
    heard,
    samples: () =>
      offAxisRows
        .filter(({ offAxisMm }) => offAxisMm === 0)
        .map(({ gapMm, inertance }) => sample({ ...offAxisShape, gapMm, inertance }, 5e-4)),
  },
];
