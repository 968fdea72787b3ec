/** What the model found of the resonances that a printed sheet tells of. */
import { isPlayed } from "../change/verdicts.ts";
import { betweenGaps } from "../instrument/betweenGaps.ts";
import type { SheetRecord } from "./sheetRecord.ts";

export interface SheetResonance {
  readonly n: number;
  readonly shiftCents: number;
  /** After the slide brought one resonance back; null while or where that is not known. */
  readonly retunedCents: number | null;
  /** null where it has no peak. */
  readonly heightDb: number | null;
  /** To the upper neighbour. */
  readonly spacingCents: number | null;
}

/** Of the resonances notes are played on, from the gap compared with to the one recommended; null while not known. */
export function sheetResonances({ explored, retuned }: SheetRecord): readonly SheetResonance[] | null {
  if (!explored) return null;
  const left =
    retuned?.referenceGapMm === explored.referenceGapMm ? betweenGaps(retuned, explored.chosen.gapMm) : null;
  return explored.changes.filter(isPlayed).map(({ n, shiftCents, heightDb, spacingChangeCents }) => ({
    n,
    shiftCents,
    retunedCents: left?.find((mode) => mode.n === n)?.shiftCents ?? null,
    heightDb,
    spacingCents: spacingChangeCents,
  }));
}
