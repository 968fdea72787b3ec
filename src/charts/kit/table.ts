/** The table of a drawing: a column is its name and what it says of a row. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../units/length.ts";
import { partialName } from "../../words/instruments.ts";
import type { Table } from "./drawing.ts";
import { inUnit } from "./numbers.ts";

type Cell = string | number | null | undefined;
export type Column<Row> = readonly [name: string, of: (row: Row, i: number) => Cell];

/** What is missing is an empty string. */
export const tableOf = <Row>(rows: readonly Row[], columns: readonly Column<Row>[]): Table => ({
  columns: columns.map(([name]) => name),
  rows: rows.map((row, i) => columns.map(([, of]) => of(row, i) ?? "")),
});

/** A length in the unit that is asked for, which its name carries. */
export const lengthColumn = <Row>(
  name: string,
  unit: LengthUnit,
  ofMm: (row: Row) => number | null | undefined,
): Column<Row> => [
  `${name} (${unit})`,
  (row) => {
    const mm = ofMm(row);
    return mm == null ? mm : inUnit(mm, unit);
  },
];

/** Which note a row is of: the number of its partial, and what players of the instrument call it. */
export const noteColumns = <Row>(
  of: (row: Row) => number | null,
  instrument: InstrumentKind | undefined,
): Column<Row>[] => [
  ["partial", of],
  [
    "note",
    (row) => {
      const n = of(row);
      return n === null ? "" : partialName(n, instrument);
    },
  ],
];

/** Named lengths, one under another. */
export const lengthsTable = (
  [what, length]: readonly [what: string, length: string],
  lengths: readonly (readonly [name: string, mm: number | undefined])[],
  unit: LengthUnit,
): Table => tableOf(lengths, [[what, ([name]) => name], lengthColumn(length, unit, ([, mm]) => mm)]);

/** Sets of values, a row a note, side by side. */
export const valuesTable = (
  instrument: InstrumentKind | undefined,
  sets: readonly {
    readonly name: string;
    readonly values: readonly { readonly n: number; readonly value: number | null }[];
  }[],
): Table => {
  const numbers = new Set(sets.flatMap(({ values }) => values.map(({ n }) => n)));
  return tableOf(
    [...numbers].sort((a, b) => a - b),
    [
      ...noteColumns<number>((n) => n, instrument),
      ...sets.map(
        ({ name, values }): Column<number> => [name, (n) => values.find((one) => one.n === n)?.value],
      ),
    ],
  );
};
