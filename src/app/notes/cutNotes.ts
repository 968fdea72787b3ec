/** What a cut is to reach, and how far the person has gone in planning it. */
import type { LengthUnit } from "../../units/length.ts";
import { inUnit, isRecord, textOf, unitOf } from "./typed.ts";

export interface CutNotes {
  /** What a bare number is in. */
  readonly unit: LengthUnit;
  readonly target: string;
  readonly tolerance: string;
  readonly minimumWall: string;
  readonly stopPerMark: string;
  /** The way whose card is shown. */
  readonly way: string | null;
  /** The person has confirmed that the way chosen cannot be undone. */
  readonly confirmed: boolean;
}

export const NO_CUT: CutNotes = {
  unit: "mm",
  target: "",
  tolerance: "",
  minimumWall: "",
  stopPerMark: "",
  way: null,
  confirmed: false,
};

/** A confirmation is never kept: it is asked for anew at every visit. */
export function readCutNotes(json: unknown): CutNotes {
  if (!isRecord(json)) return NO_CUT;
  return {
    unit: unitOf(json.unit),
    target: textOf(json.target),
    tolerance: textOf(json.tolerance),
    minimumWall: textOf(json.minimumWall),
    stopPerMark: textOf(json.stopPerMark),
    way: typeof json.way === "string" ? textOf(json.way) : null,
    confirmed: false,
  };
}

/** The same order under another unit. */
export function cutNotesIn(notes: CutNotes, unit: LengthUnit): CutNotes {
  if (notes.unit === unit) return notes;
  const text = (typed: string) => inUnit(typed, notes.unit, unit);
  return {
    ...notes,
    unit,
    target: text(notes.target),
    tolerance: text(notes.tolerance),
    minimumWall: text(notes.minimumWall),
    stopPerMark: text(notes.stopPerMark),
  };
}
