/** What is typed for a cut, as a plan or as what is wrong with it, field by field. */
import { type CutPlan, planCut } from "../../../bench/cut/cut.ts";
import type { CutQuestion } from "../../../bench/cut/cutQuestion.ts";
import { cutQuestion } from "../../../bench/cut/cutSetup.ts";
import type { CutWay } from "../../../bench/cut/cutWay.ts";
import { type Contradiction, contradictionsKey } from "../../../bench/fit/contradiction.ts";
import type { Setup } from "../../../setup/setup.ts";
import { readFields, sentence } from "../../form/field.ts";
import { CUT_FIELDS, type CutNotes } from "../notes/cut.ts";

/** A field and what of the question it is. */
const QUESTION = {
  target: "targetMm",
  tolerance: "toleranceMm",
  minimumWall: "minimumWallMm",
  stopPerMark: "stopMmPerMark",
} as const satisfies Record<keyof typeof CUT_FIELDS, keyof CutQuestion>;
export type OrderField = keyof typeof QUESTION;
const FIELD_NAMES = Object.keys(QUESTION) as OrderField[];

export interface Order {
  /** Null while there is no target, or a text cannot be read. */
  readonly plan: CutPlan | null;
  readonly problems: Readonly<Partial<Record<OrderField, string>>>;
  /** What contradicts the gap. */
  readonly doubts: readonly Contradiction[];
  /** No way is chosen before the person has said that the doubts are known. */
  readonly isWaiting: boolean;
}

/** A field left empty takes its usual value; without a target there is nothing to plan. */
export function orderOf(setup: Setup, notes: CutNotes, doubts: readonly Contradiction[] = NO_DOUBTS): Order {
  const known = { doubts, isWaiting: doubts.length > 0 && notes.acknowledged !== contradictionsKey(doubts) };
  const { values, problems } = readFields(CUT_FIELDS, notes, notes.unit);
  const { target: targetMm } = values;
  if (targetMm === undefined || Object.keys(problems).length > 0) return { plan: null, problems, ...known };
  const lengths = FIELD_NAMES.flatMap((name) =>
    values[name] === undefined ? [] : [[QUESTION[name], values[name]]],
  );
  const plan = planCut(cutQuestion(setup, { ...Object.fromEntries(lengths), targetMm, unit: notes.unit }));
  const at = FIELD_NAMES.find((field) => QUESTION[field] === plan.flaw?.of);
  return { plan, problems: at && plan.flaw ? { [at]: sentence(plan.flaw.message) } : {}, ...known };
}

const NO_DOUBTS: readonly Contradiction[] = [];

/** Held back and impossible ways cannot be chosen, nor one of another plan, nor any while a contradiction is not acknowledged. */
export const chosenWay = ({ plan, isWaiting }: Order, notes: CutNotes): CutWay | undefined =>
  isWaiting
    ? undefined
    : plan?.ways.find(({ name, isPossible, isHeldBack }) => name === notes.way && isPossible && !isHeldBack);
