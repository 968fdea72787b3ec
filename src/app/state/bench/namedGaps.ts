/** The gaps of a job that candidates may be compared at, each under its name. */
import { type GapKind, gapKind } from "../../../words/gapKinds.ts";
import type { CommonGap } from "../notes/compare.ts";
import type { Document, Unit } from "../state.ts";
import { jobGaps } from "./jobGaps.ts";

export interface NamedGap {
  readonly at: Exclude<CommonGap, "own">;
  readonly is: GapKind;
  readonly gapMm: number;
}

/** Yours and the what-if always; the planned and the preferred one where there are such. */
export function namedGaps(document: Document, unit: Unit): readonly NamedGap[] {
  const { measured, whatIfMm, plannedMm, trial } = jobGaps(document, unit);
  const preferredMm = trial?.preferredGapMm ?? null;
  return [
    {
      at: "yours",
      is: measured.readings ? "measured" : gapKind(document.setup, measured.gapMm),
      gapMm: measured.gapMm,
    },
    { at: "what-if", is: "what-if", gapMm: whatIfMm },
    ...(plannedMm === null ? [] : [{ at: "planned", is: "planned", gapMm: plannedMm } as const]),
    ...(preferredMm === null ? [] : [{ at: "preferred", is: "preferred", gapMm: preferredMm } as const]),
  ];
}

/** The one that all candidates are compared at; null where each stands at its own, or there is no such gap now. */
export const commonGap = (document: Document, unit: Unit): NamedGap | null =>
  namedGaps(document, unit).find(({ at }) => at === document.notes.compare.gap) ?? null;
