/** What a take belongs to: the gap that is mounted, or a code of a blind trial that is not opened yet. */
import type { KeptTake } from "../../../listen/keptTake.ts";
import { isFinished, type Trial } from "../../../trial/trial.ts";
import { mountedGap, yourGap } from "../../form/gap/mountedGap.ts";
import { listenForm, MOUNTED } from "../../state/notes/listen.ts";
import type { Document, Unit } from "../../state/state.ts";

export interface Place {
  readonly blind: KeptTake["blind"];
  /** Null behind a code, and while it cannot be read. */
  readonly gapMm: number | null;
  /** Of the gap, why it cannot be read. */
  readonly problem: string;
}

/** Those whose turns can be listened to without knowing what they are. */
export const sealedTrials = ({ notes }: Document): readonly Trial[] =>
  notes.trial.trials.filter((one) => !isFinished(one));

export function placeOf(document: Document, unit: Unit): Place {
  const { trial, code } = document.notes.listen;
  const sealed = sealedTrials(document).find(({ id }) => id === trial);
  if (sealed) return { blind: { trial: sealed.id, code }, gapMm: null, problem: "" };
  const { gap } = listenForm.shownIn(document.notes.listen, unit);
  return { blind: null, ...mountedGap(MOUNTED, gap, document, unit, yourGap(document, unit).gapMm) };
}

/** Whether it is known. */
export const isPlaced = ({ blind, gapMm }: Place): boolean => (blind ? blind.code !== "" : gapMm !== null);
