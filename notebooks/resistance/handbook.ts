/** Friction, contractions and diffusers beside the handbook's values: the rows of the tables with what is computed here. */
import { frictionFactor } from "../../src/flow/friction.ts";
import { numbersOf } from "../../tests/reference/csv.ts";
import contractionTable from "../../tests/reference/flow/contraction.csv?raw";
import diffuserTable from "../../tests/reference/flow/diffuser.csv?raw";
import frictionTable from "../../tests/reference/flow/friction.csv?raw";
import { outcomeOf } from "../how-far-to-trust-this/check.ts";
import { theFlow } from "../how-far-to-trust-this/theFlow.ts";

const outcome = (table: string) => outcomeOf(theFlow.find((check) => check.table === table)!);

/** Largest deviations, by the same checks as in the notebook on trust; a fraction of the value or of ½ρu². */
export const worst = {
  friction: outcome("flow/friction.csv").worst,
  contraction: outcome("flow/contraction.csv").worst,
  diffuser: outcome("flow/diffuser.csv").worst,
} as const;

/** One printed value and ours. */
export interface Held {
  readonly at: number;
  readonly printed: number;
  readonly ours: number;
}

export interface HeldSeries {
  readonly name: string;
  readonly rows: readonly Held[];
}

const shownRoughnesses = [0, 0.001, 0.01, 0.05];

/** Darcy's factor against Reynolds number, one series a relative roughness. */
export const frictionSeries: readonly HeldSeries[] = shownRoughnesses.map((roughness) => ({
  name: roughness === 0 ? "smooth" : `roughness ${roughness}`,
  rows: numbersOf(frictionTable)
    .filter(([reynolds, of]) => of === roughness && reynolds >= 640)
    .map(([at, , printed]) => ({ at, printed, ours: frictionFactor(at, roughness) })),
}));

/** Between the rows of the table, for a line. */
export const frictionLine = (roughness: number): { readonly xs: number[]; readonly ys: number[] } => {
  const xs = Array.from({ length: 160 }, (_, i) => 640 * (1e6 / 640) ** (i / 159));
  return { xs, ys: xs.map((reynolds) => frictionFactor(reynolds, roughness)) };
};

/** Loss over ½ρu² before a diffuser against its angle, one series an area ratio. */
export const diffuserSeries: readonly HeldSeries[] = held(diffuserTable, "flow/diffuser.csv", (ratio) =>
  ratio === 0 ? "into a room" : `ratio 1 : ${Number((1 / ratio).toFixed(1))}`,
);

/** Loss over ½ρu² behind a sudden contraction against its area ratio. */
export const contractionSeries: HeldSeries = {
  name: "sudden contraction",
  rows: samplesOf(contractionTable, "flow/contraction.csv", ([, ratio]) => ratio !== 1)
    .filter(({ row: [angle] }) => angle === 180)
    .map(({ row: [, ratio, printed], ours }) => ({ at: ratio, printed, ours })),
};

function held(table: string, file: string, nameOf: (ratio: number) => string): HeldSeries[] {
  const all = samplesOf(table, file);
  return [0, 0.25, 0.5].map((ratio) => ({
    name: nameOf(ratio),
    rows: all
      .filter(({ row }) => row[1] === ratio)
      .map(({ row: [at, , printed], ours }) => ({ at, printed, ours })),
  }));
}

/** The checks' samples are in the order of the table's rows. */
function samplesOf(table: string, file: string, counts: (row: readonly number[]) => boolean = () => true) {
  const { samples } = outcome(file);
  return numbersOf(table)
    .filter(counts)
    .map((row, i) => ({ row, ours: samples[i].ours }));
}
