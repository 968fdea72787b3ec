/** A table of parts from text, be it a file's or a spreadsheet's clipboard: what was understood, or all that is wrong. */
import { dimensionName } from "../../../bench/fit/fitDimensions.ts";
import { CsvError } from "../../../bench/fit/partsCsv.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { MOST_PARTS, type PartNotes } from "../../state/notes/fit.ts";
import type { AnyPart, PartTable } from "./partTables.ts";
import { isLengthDimension, typedPart } from "./typedPart.ts";

export type TableText =
  | { readonly parts: readonly PartNotes[]; readonly understood: string }
  /** One a line that is wrong. */
  | { readonly problems: readonly string[] };

/** @param source what to call the text, such as the file's name */
export function readTableText(text: string, source: string, table: PartTable, unit: LengthUnit): TableText {
  try {
    const parts = table.read(text, source);
    if (parts.length > MOST_PARTS)
      return { problems: [`${parts.length} ${table.kind}; give at most ${MOST_PARTS} at a time`] };
    return {
      parts: parts.map((part) => typedPart(part, unit)),
      understood: understood(parts, source, table, unit),
    };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return { problems: error.problems.map(({ line, message }) => `line ${line}: ${message}`) };
  }
}

/** The range of every column, so that a wrong unit is seen. */
function understood(
  parts: readonly AnyPart[],
  source: string,
  { one, kind, dimensions }: PartTable,
  unit: LengthUnit,
): string {
  const columns = dimensions.map((dimension) => {
    const values = parts.flatMap(({ dimensions }) => dimensions[dimension] ?? []);
    const missing = parts.length - values.length;
    if (values.length === 0) return `${dimensionName[dimension]} unknown`;
    const print = (value: number) =>
      isLengthDimension(dimension) ? formatLength(value, unit) : `${Number(value.toPrecision(4))}`;
    const [low, high] = [print(Math.min(...values)), print(Math.max(...values))];
    const range = low === high ? low : `${low} to ${high}`;
    return `${dimensionName[dimension]} ${range}${missing > 0 ? ` (${missing} unknown)` : ""}`;
  });
  const count = `${parts.length} ${parts.length === 1 ? one : kind}`;
  return `${count} read from ${source}: ${columns.join("; ")}.`;
}
