/** Two pasted columns of lengths as rows of a profile: position and inner diameter. */
import { type ColumnProblem, readLengthColumns } from "../../../setup/bore/lengthColumns.ts";
import type { LengthUnit } from "../../../units/length.ts";

export interface PastedRow {
  /** Line of the pasted text, from 1. */
  readonly line: number;
  readonly positionMm: number;
  readonly diameterMm: number;
}

export type PastedProblem = ColumnProblem;

export interface Pasted {
  readonly rows: readonly PastedRow[];
  readonly problems: readonly PastedProblem[];
  /** Units of bare numbers: those of the heading, if it names any. */
  readonly units: readonly [position: string, diameter: string];
}

/** @param unit of bare numbers where no heading says otherwise */
export function readPasted(text: string, unit: LengthUnit): Pasted {
  const { rows, problems, units } = readLengthColumns(text, unit);
  return {
    rows: rows.map(({ line, firstMm, secondMm }) => ({ line, positionMm: firstMm, diameterMm: secondMm })),
    problems,
    units,
  };
}
