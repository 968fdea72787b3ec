/** What can be seen of a table of a bore before it is understood: columns the wrong way round, a table standing twice. */
import type { ColumnProblem } from "./lengthColumns.ts";

/** A row: position and whatever measures the bore there, mm. */
export interface TableRow {
  readonly line: number;
  readonly x: number;
  readonly d: number;
}

/**
 * Positions start at 0 and never turn round; sizes of a bore are never 0. Where the second column does what only positions do
 * and the first does not, they are the wrong way round.
 */
export function swapFlaw(rows: readonly TableRow[]): ColumnProblem | null {
  const first = rows.map(({ x }) => x);
  const second = rows.map(({ d }) => d);
  const looksLikePositions = rows.length > 2 && isOneWay(second) && Math.min(...second) === 0;
  if (!looksLikePositions || first.some((size) => size <= 0)) return null;
  return {
    line: rows[second.indexOf(0)].line,
    message:
      `the columns look swapped: the second runs from ${second[0]} to ${second[second.length - 1]} as positions do, ` +
      "and no bore is 0 wide; give position first and bore second, or say that they are swapped",
  };
}

/** A table that was copied twice goes back to its start. */
export function repeatFlaw(rows: readonly TableRow[]): ColumnProblem | null {
  const [{ x, line }] = rows;
  const same = (i: number) => rows[i].x === x;
  // a step at the very start is two rows at one position
  const again = rows.findIndex((_, i) => i > 1 && same(i) && !same(i - 1));
  if (again < 0) return null;
  const from = `line ${rows[again].line}`;
  const isCopy = rows.slice(again).every((row, i) => rows[i]?.x === row.x && rows[i]?.d === row.d);
  return {
    line: rows[again].line,
    message: isCopy
      ? `the table starts again as it did in line ${line}: it stands here twice; leave out what follows from ${from} on`
      : `position ${x} again, as in line ${line}: two tables in one file, or a bore that runs backwards; give one table a file`,
  };
}

const isOneWay = (values: readonly number[]): boolean =>
  values.every((value, i) => i === 0 || value >= values[i - 1]) ||
  values.every((value, i) => i === 0 || value <= values[i - 1]);
