/**
 * What a cut is to reach, and the way chosen. That the person has confirmed what cannot be undone is not written down: it
 * is asked for anew at every visit and whenever the plan changes.
 */
import type { LengthUnit } from "../../../units/length.ts";
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
}

export const NO_CUT: CutNotes = {
  unit: "mm",
  target: "",
  tolerance: "",
  minimumWall: "",
  stopPerMark: "",
  way: null,
};

export function readCutNotes(json: unknown): CutNotes {
  if (!isRecord(json)) return NO_CUT;
  return {
    unit: unitOf(json.unit),
    target: textOf(json.target),
    tolerance: textOf(json.tolerance),
    minimumWall: textOf(json.minimumWall),
    stopPerMark: textOf(json.stopPerMark),
    way: typeof json.way === "string" ? textOf(json.way) : null,
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
