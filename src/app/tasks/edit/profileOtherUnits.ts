/**
 * Numbers of a bore's table that fit the other unit better: a diameter some twenty times its neighbours', a position that
 * lies between its neighbours only when it is read the other way. Whoever typed it is asked beside it.
 */
import type { ProfileMm } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { type OtherUnit, otherUnit, type UsualLengthsMm } from "../../../units/otherUnit.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { type Column, cellAt } from "../../form/setup/paths.ts";
import type { Draft } from "./drafts.ts";

export interface AskedCell {
  readonly row: number;
  readonly column: Column;
  /** As it stands in the cell. */
  readonly typed: string;
  readonly found: OtherUnit;
}

/** A table that is in the other unit as a whole would ask as often as it has rows. */
const MOST_ASKED = 3;
/** Rows on either side that a diameter is held against. */
const NEIGHBOURS = 3;
/** A diameter within this factor of theirs is usual: the cup runs into the throat, the bell flares. */
const USUAL_FACTOR = 3;

/** The first few, row by row. */
export function profileOtherUnits(
  profileMm: ProfileMm,
  drafts: readonly Draft[],
  unit: LengthUnit,
): readonly AskedCell[] {
  const refused = new Map(
    drafts.flatMap((draft) => {
      const cell = cellAt(draft.path);
      return cell ? [[key(cell.row, cell.column), draft.text] as const] : [];
    }),
  );
  return profileMm
    .flatMap((_, row) =>
      ([0, 1] as const).flatMap((column): readonly AskedCell[] => {
        const usualMm = column === 0 ? usualPositionsMm(profileMm, row) : usualDiametersMm(profileMm, row);
        const text = refused.get(key(row, column));
        if (!usualMm || (text === undefined && isWithin(profileMm[row][column], usualMm))) return [];
        const typed = text ?? lengthText(profileMm[row][column], unit);
        const found = otherUnit(typed, unit, usualMm);
        return found ? [{ row, column, typed, found }] : [];
      }),
    )
    .slice(0, MOST_ASKED);
}

const key = (row: number, column: Column): string => `${row} ${column}`;

const isWithin = (mm: number, [leastMm, mostMm]: UsualLengthsMm): boolean => mm >= leastMm && mm <= mostMm;

/** Between the rows before and after; the last lies no further on than the bore is long without it. */
function usualPositionsMm(profileMm: ProfileMm, row: number): UsualLengthsMm | null {
  if (row === 0) return null;
  const startMm = profileMm[0][0];
  const beforeMm = profileMm[row - 1][0];
  return [beforeMm, profileMm[row + 1]?.[0] ?? 2 * beforeMm - startMm];
}

/** Round the median of the rows nearby: one or two that were typed wrong as well leave it where it is. */
function usualDiametersMm(profileMm: ProfileMm, row: number): UsualLengthsMm | null {
  const nearMm = [
    ...profileMm.slice(Math.max(0, row - NEIGHBOURS), row),
    ...profileMm.slice(row + 1, row + 1 + NEIGHBOURS),
  ]
    .map(([, diameterMm]) => diameterMm)
    .sort((a, b) => a - b);
  if (nearMm.length === 0) return null;
  const middleMm = nearMm[Math.floor(nearMm.length / 2)];
  return [middleMm / USUAL_FACTOR, middleMm * USUAL_FACTOR];
}
