/** What is asked of the candidates: the texts as numbers, and the question for the worker. */
import { asksForNotes, knownQuantities } from "../../../study/compare/compareQuantities.ts";
import { type Goal, parseGoal } from "../../../study/compare/goal.ts";
import { readField, reading } from "../../form/field.ts";
import type { Candidate, Listed } from "../../state/bench/candidates.ts";
import { isSound } from "../../state/bench/candidates.ts";
import { type CompareNotes, ERROR, USUAL_ERROR_MM } from "../../state/notes/compare.ts";
import type { CompareQuestion } from "../../work/comparison.ts";

/** How many resonances, from the lowest. */
export const RESONANCES = 12;
/** From an error's peak to its foot. */
export const EXTENT_MM = 10;

export const KNOWN = knownQuantities(RESONANCES);

export interface GoalReading {
  /** null where none is typed or it cannot be understood. */
  readonly goal: Goal | null;
  readonly problem: string;
}

export function readGoal(text: string): GoalReading {
  if (text.trim() === "") return { goal: null, problem: "" };
  const { value: goal = null, problem } = reading(() => parseGoal(text, KNOWN));
  return { goal, problem };
}

/** The usual one where nothing is typed or it cannot be used. */
export function readError({ error, unit }: CompareNotes): {
  readonly errorMm: number;
  readonly problem: string;
} {
  const { value: errorMm = USUAL_ERROR_MM, problem } = readField(ERROR, error, unit);
  return { errorMm, problem };
}

/** The sound ones and, among them, which is the reference. */
export function comparable(all: readonly Listed[], { reference }: CompareNotes) {
  const candidates: readonly Candidate[] = all.filter(isSound);
  const at = candidates.findIndex(({ number }) => number === reference + 1);
  return { candidates, reference: Math.max(0, at) };
}

export function questionOf(all: readonly Listed[], notes: CompareNotes, goal: Goal | null): CompareQuestion {
  const { candidates, reference } = comparable(all, notes);
  return {
    variants: candidates.map(({ name, setup, gapMm }) => ({ name, setup, gapMm })),
    reference,
    ...(notes.retune !== null && { retune: notes.retune }),
    modes: RESONANCES,
    errorExtentMm: EXTENT_MM,
    withNotes: notes.withHold || (goal !== null && asksForNotes(goal.symbols)),
  };
}
