/** What is typed for a cut, as a plan or as what is wrong with it, field by field. */
import { type CutPlan, planCut } from "../../../bench/cut/cut.ts";
import type { CutQuestion } from "../../../bench/cut/cutQuestion.ts";
import { cutQuestion } from "../../../bench/cut/cutSetup.ts";
import type { CutWay } from "../../../bench/cut/cutWay.ts";
import type { Setup } from "../../../setup/setup.ts";
import { LengthError, parseLengthMm } from "../../../units/length.ts";
import type { CutNotes } from "../notes/cutNotes.ts";

/** A field and what of the question it is. */
const FIELDS = {
  target: "targetMm",
  tolerance: "toleranceMm",
  minimumWall: "minimumWallMm",
  stopPerMark: "stopMmPerMark",
} as const satisfies Partial<Record<keyof CutNotes, keyof CutQuestion>>;
export type OrderField = keyof typeof FIELDS;
const FIELD_NAMES = Object.keys(FIELDS) as OrderField[];

export interface Order {
  /** Null while there is no target, or a text cannot be read. */
  readonly plan: CutPlan | null;
  readonly problems: Readonly<Partial<Record<OrderField, string>>>;
}

/** A field left empty takes its usual value; without a target there is nothing to plan. */
export function orderOf(setup: Setup, notes: CutNotes): Order {
  const problems: Partial<Record<OrderField, string>> = {};
  const lengths: Partial<Record<(typeof FIELDS)[OrderField], number>> = {};
  for (const field of FIELD_NAMES) {
    if (notes[field].trim() === "") continue;
    try {
      lengths[FIELDS[field]] = parseLengthMm(notes[field], notes.unit);
    } catch (error) {
      if (!(error instanceof LengthError)) throw error;
      problems[field] = error.message;
    }
  }
  const { targetMm } = lengths;
  if (targetMm === undefined || Object.keys(problems).length > 0) return { plan: null, problems };
  const plan = planCut(cutQuestion(setup, { ...lengths, targetMm, unit: notes.unit }));
  const at = FIELD_NAMES.find((field) => FIELDS[field] === plan.flaw?.of);
  return { plan, problems: at && plan.flaw ? { [at]: plan.flaw.message } : {} };
}

/** Held back and impossible ways cannot be chosen, nor one of another plan. */
export const chosenWay = ({ plan }: Order, notes: CutNotes): CutWay | undefined =>
  plan?.ways.find(({ name, isPossible, heldBack }) => name === notes.way && isPossible && !heldBack);
