/** A blind trial: its plan as typed, and once it is sealed the order with its key and all that the player has said. */
import { readTrial } from "../../../trial/readTrial.ts";
import {
  FEWEST_REPEATS,
  MOST_ITEMS,
  MOST_REPEATS,
  TOP,
  type Trial,
  type Turn,
} from "../../../trial/trial.ts";
import { plainNumber, words } from "../../form/field.ts";
import { type KeptBy, kept, keptForm, lengthText, list, oneOf, text } from "../../form/kept.ts";

/** What an empty field means. */
export const USUAL = { repeats: 4, difference: 20, scatter: 10 } as const;

const points = (label: string, usual: number, hint: string) =>
  plainNumber(label, {
    hint,
    usual,
    least: 1,
    most: TOP,
    problem: `Give points of the scale, from 1 to ${TOP}, as ${usual}`,
  });

export const PLAN_FIELDS = {
  player: words("Player", { hint: "For the card and the sheet." }),
  passages: words("Passages", {
    hint: "What is played at every turn: a slurred leap, a long soft note, a loud passage.",
  }),
  repeats: plainNumber("Repeats", {
    usual: USUAL.repeats,
    least: FEWEST_REPEATS,
    most: MOST_REPEATS,
    isWhole: true,
    problem: `Give a whole number from ${FEWEST_REPEATS} to ${MOST_REPEATS}, as ${USUAL.repeats}`,
  }),
  difference: points(
    "Difference that matters",
    USUAL.difference,
    `Between the best and the worst, in points of 100; empty is ${USUAL.difference}.`,
  ),
  scatter: points(
    "Scatter of one player's ratings",
    USUAL.scatter,
    `Standard deviation of ratings of one and the same, in points; empty is ${USUAL.scatter}, a guess without a source until a trial has shown the player's own.`,
  ),
};
export type PlanPart = keyof typeof PLAN_FIELDS;

export const trialForm = keptForm({
  kind: oneOf(["gaps", "names"] as const, "gaps"),
  /** Both are kept, whichever is to be tried. */
  gaps: list(lengthText, MOST_ITEMS),
  names: list(text(), MOST_ITEMS),
  ...PLAN_FIELDS,
  /** null while it is being planned. */
  trial: kept<Trial | null>(null, readTrial),
});
export type TrialNotes = KeptBy<typeof trialForm>;
export type TrialKind = TrialNotes["kind"];

/** One turn of the sealed trial written anew. */
export function withTurn(
  notes: TrialNotes,
  at: number,
  part: Partial<Pick<Turn, "ratings" | "remark">>,
): TrialNotes {
  const { trial } = notes;
  if (!trial) return notes;
  const turns = trial.turns.map((turn, i) => (i === at ? { ...turn, ...part } : turn));
  return { ...notes, trial: { ...trial, turns } };
}
