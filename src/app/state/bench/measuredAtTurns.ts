import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { type MeasuredOutcome, measuredOutcome } from "../../../study/listened/measuredTrial.ts";
import type { Trial } from "../../../trial/trial.ts";
import type { Notes } from "../notes/notes.ts";
import { writtenHz } from "./listened.ts";

const outcomes = new WeakMap<Trial, { readonly takes: unknown; readonly outcome: MeasuredOutcome | null }>();

/** What was measured at the turns of an opened trial, worked out once for the takes there are. */
export function measuredAtTurns(
  trial: Trial,
  { listen: { takes } }: Pick<Notes, "listen">,
  instrument: InstrumentKind,
): MeasuredOutcome | null {
  const known = outcomes.get(trial);
  if (known?.takes === takes) return known.outcome;
  const outcome = measuredOutcome(trial, takes, (partial) => writtenHz(instrument, partial));
  outcomes.set(trial, { takes, outcome });
  return outcome;
}
