/** A pasted text put into a profile, and what to tell of it. */
import type { Problem } from "../../../setup/problem.ts";
import type { ProfileMm } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { placeName } from "../../form/setup/fields.ts";
import { type PastedProblem, type PastedRow, readPasted } from "./profilePaste.ts";

export interface PasteReport {
  /** Whether any row is now in the profile. */
  readonly isUsed: boolean;
  readonly note: string;
  /** What was left out or is in the way, one thing each. */
  readonly problems: readonly string[];
}

/**
 * @param replace puts rows into the profile, from a row on or in place of it all; says what is in the way
 * @param from row that the first pasted one takes the place of; null for the whole profile
 */
export function usePasted(
  text: string,
  unit: LengthUnit,
  replace: (rowsMm: ProfileMm, from: number | null) => readonly Problem[],
  from: number | null,
): PasteReport {
  const { rows, problems, units } = readPasted(text, unit);
  const unread = problems.map(lineText);
  if (rows.length === 0) return { isUsed: false, note: "Nothing was pasted.", problems: unread };
  const rowsMm = rows.map(({ positionMm, diameterMm }) => [positionMm, diameterMm] as const);
  const inTheWay = replace(rowsMm, from).map((problem) => refusalText(problem, rows, from ?? 0));
  if (inTheWay.length > 0)
    return {
      isUsed: false,
      note: "Nothing was pasted: these rows make no bore.",
      problems: [...unread, ...inTheWay],
    };
  const read = `${rows.length} ${rows.length === 1 ? "row" : "rows"} pasted, read in ${[...new Set(units)].join(" and ")}`;
  return {
    isUsed: true,
    note: unread.length > 0 ? `${read}; ${countText(unread.length)} left out.` : `${read}.`,
    problems: unread,
  };
}

const countText = (lines: number): string => (lines === 1 ? "one line was" : `${lines} lines were`);
const lineText = ({ line, message }: PastedProblem): string => `Line ${line}: ${message}`;

function refusalText({ path, message }: Problem, rows: readonly PastedRow[], from: number): string {
  const [, row, column] = /\.profile\[(\d+)\](?:\[([01])\])?$/.exec(path) ?? [];
  const pasted = row === undefined ? undefined : rows[Number(row) - from];
  if (!pasted) return `${placeName(path)}: ${message}`.replace(/^./, (first) => first.toUpperCase());
  const what = column === undefined ? "" : column === "0" ? ", position" : ", inner diameter";
  return `Line ${pasted.line}${what}: ${message}`;
}
