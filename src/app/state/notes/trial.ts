/**
 * Blind trials: the plan of the next as typed, and each that was sealed, the order with its key and all that the player has
 * said. A finished one, whose codes were opened, stays as it is.
 */
import { withEnvelopesOpen } from "../../../trial/envelopes.ts";
import { readTrials } from "../../../trial/readTrial.ts";
import {
  FEWEST_REPEATS,
  isFinished,
  MEASURED_DECISIONS,
  MOST_ITEMS,
  MOST_REPEATS,
  TOP,
  type Trial,
  type Turn,
} from "../../../trial/trial.ts";
import { plainNumber, words } from "../../form/field.ts";
import { type KeptBy, kept, keptForm, keptLength, list, oneOf, text } from "../../form/kept.ts";

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
  player: words("Player", { hint: "For the card and the report." }),
  passages: words("Passages", {
    hint: "What is played at every turn: a slur, a long soft note, a loud passage.",
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
    `Standard deviation of ratings of the same code, in points; empty is ${USUAL.scatter}, a guess without a source until a trial has shown the player's own.`,
  ),
};
export type PlanPart = keyof typeof PLAN_FIELDS;

export const trialForm = keptForm({
  kind: oneOf(["gaps", "names"] as const, "gaps"),
  /** Both are kept, whichever is to be tried. */
  gaps: list(keptLength, MOST_ITEMS),
  names: list(text(), MOST_ITEMS),
  /** Who fits what is tried. */
  /** What decides the next trial. */
  decidedBy: oneOf(["preference", ...MEASURED_DECISIONS] as const, "preference"),
  mounting: oneOf(["assistant", "alone"] as const, "assistant"),
  /** Of a trial played alone, by envelope: what it was found to hold, as the place of an item; empty: not said yet. */
  holds: list(text(), MOST_ITEMS),
  ...PLAN_FIELDS,
  /** In the order in which they were sealed. */
  trials: kept<readonly Trial[]>([], readTrials),
  /** Id of the one that is looked at; null: the plan of the next. */
  shown: kept<string | null>(null, (json) => (typeof json === "string" ? json : null)),
});
export type TrialNotes = KeptBy<typeof trialForm>;
export type TrialKind = TrialNotes["kind"];
export type Mounting = TrialNotes["mounting"];

/** The trial that is looked at; null: none, but the plan of the next. */
export const shownTrial = ({ trials, shown }: TrialNotes): Trial | null =>
  trials.find(({ id }) => id === shown) ?? null;

/** Those whose codes were opened, in the order in which they were sealed. */
export const finishedTrials = ({ trials }: TrialNotes): readonly Trial[] => trials.filter(isFinished);

/** The one finished last; where that was not noted, the one sealed last. */
export const lastFinished = (notes: TrialNotes): Trial | null =>
  finishedTrials(notes).reduce<Trial | null>(
    (last, one) => (last && (last.openedAt ?? "") > (one.openedAt ?? "") ? last : one),
    null,
  );

/** With a trial that has just been sealed, looked at. */
export const withSealed = (notes: TrialNotes, trial: Trial): TrialNotes => ({
  ...notes,
  trials: [...notes.trials, trial],
  shown: trial.id,
  holds: [],
});

/** One turn of the trial looked at written anew; a finished one stays as it is. */
export function withTurn(
  notes: TrialNotes,
  at: number,
  part: Partial<Pick<Turn, "ratings" | "remark">>,
): TrialNotes {
  return withUnfinished(notes, notes.shown, (trial) => ({
    ...trial,
    turns: trial.turns.map((turn, i) => (i === at ? { ...turn, ...part } : turn)),
  }));
}

/**
 * With the codes of a sealed trial opened, for good.
 *
 * @param at ISO 8601, UTC
 * @param holds of a trial played alone, what each envelope held
 */
export const withOpened = (
  notes: TrialNotes,
  id: string,
  opened: "complete" | "early",
  at: string,
  holds: readonly number[] = [],
): TrialNotes =>
  withUnfinished(notes, id, (trial) => ({
    ...(trial.alone ? withEnvelopesOpen(trial, holds) : trial),
    opened,
    openedAt: at,
  }));

/** Without a sealed trial that shall not be played; a finished one stays. */
export const withoutOrder = (notes: TrialNotes, id: string): TrialNotes => ({
  ...notes,
  trials: notes.trials.filter((trial) => trial.id !== id || isFinished(trial)),
  shown: notes.shown === id ? null : notes.shown,
});

const withUnfinished = (
  notes: TrialNotes,
  id: string | null,
  change: (trial: Trial) => Trial,
): TrialNotes => ({
  ...notes,
  trials: notes.trials.map((trial) => (trial.id === id && !isFinished(trial) ? change(trial) : trial)),
});

/** With trials that were finished since, as they are by now: what is finished is neither sealed again nor gone. */
export function withFinished(notes: TrialNotes, finished: readonly Trial[]): TrialNotes {
  const missing = finished.filter((one) => !notes.trials.includes(one));
  if (missing.length === 0) return notes;
  const byId = new Map(missing.map((one) => [one.id, one]));
  const kept = notes.trials.map((one) => byId.get(one.id) ?? one);
  return { ...notes, trials: [...kept, ...missing.filter((one) => !kept.includes(one))] };
}
