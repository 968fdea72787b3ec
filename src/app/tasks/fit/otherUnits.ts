/** Bare numbers of a parts table that fit the other unit better: whoever typed them is asked below the table. */

import type { LengthUnit } from "../../../units/length.ts";
import { type OtherUnit, otherUnit } from "../../../units/otherUnit.ts";
import { MOUTHPIECE, RECEIVER } from "../../form/setup/fields.ts";
import type { PartNotes } from "../../state/notes/fit.ts";
import { PLACE } from "./setupParts.ts";
import { type PartCell, textAt } from "./typedPart.ts";

export interface AskedCell {
  readonly row: number;
  readonly cell: PartCell;
  readonly typed: string;
  readonly found: OtherUnit;
}

/** A pasted column in the other unit would ask as often as it has rows. */
const MOST_ASKED = 3;

/** The first few, row by row; dimensions alone, for an uncertainty may have any size. */
export function otherUnits(
  parts: readonly PartNotes[],
  cells: readonly PartCell[],
  unit: LengthUnit,
): readonly AskedCell[] {
  const lengths = cells.flatMap((cell) => {
    const usualMm = cell.kind === "dimensions" ? usualOf(cell) : undefined;
    return usualMm ? [{ cell, usualMm }] : [];
  });
  return parts
    .flatMap((part, row) =>
      lengths.flatMap(({ cell, usualMm }): readonly AskedCell[] => {
        const typed = textAt(part, cell);
        const found = otherUnit(typed, unit, usualMm);
        return found ? [{ row, cell, typed, found }] : [];
      }),
    )
    .slice(0, MOST_ASKED);
}

const usualOf = ({ dimension }: PartCell) =>
  [...MOUTHPIECE, ...RECEIVER].find(({ path }) => path === PLACE[dimension!])?.usualMm;
