/** What is asked of the candidates: the texts as numbers, and the question for the worker. */
import { asksForNotes, knownQuantities } from "../../../study/compare/compareQuantities.ts";
import { type Goal, GoalError, parseGoal } from "../../../study/compare/goal.ts";
import { LengthError, parseLengthMm } from "../../../units/length.ts";
import type { CompareNotes } from "../../state/notes/compare.ts";
import type { CompareQuestion } from "../../work/comparison.ts";
import type { Candidate, Listed } from "./candidates.ts";
import { isSound } from "./candidates.ts";

/** How many resonances, from the lowest. */
export const RESONANCES = 12;
/** From an error's peak to its foot. */
export const EXTENT_MM = 10;
export const USUAL_ERROR_MM = 0.05;
const LARGEST_ERROR_MM = 1;

export const KNOWN = knownQuantities(RESONANCES);

export interface GoalReading {
  /** null where none is typed or it cannot be understood. */
  readonly goal: Goal | null;
  readonly problem: string;
}

export function readGoal(text: string): GoalReading {
  if (text.trim() === "") return { goal: null, problem: "" };
  try {
    return { goal: parseGoal(text, KNOWN), problem: "" };
  } catch (error) {
    if (!(error instanceof GoalError)) throw error;
    return { goal: null, problem: error.message };
  }
}

export interface ErrorReading {
  readonly errorMm: number;
  readonly problem: string;
}

/** The usual one where nothing is typed or it cannot be used. */
export function readError({ error, unit }: CompareNotes): ErrorReading {
  const usual = { errorMm: USUAL_ERROR_MM, problem: "" };
  if (error.trim() === "") return usual;
  try {
    const errorMm = parseLengthMm(error, unit);
    if (errorMm > 0 && errorMm <= LARGEST_ERROR_MM) return { errorMm, problem: "" };
    return { ...usual, problem: "Out of range; give an error above 0 mm, to 1 mm (0.0394 in)." };
  } catch (reason) {
    if (!(reason instanceof LengthError)) throw reason;
    return { ...usual, problem: reason.message };
  }
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
