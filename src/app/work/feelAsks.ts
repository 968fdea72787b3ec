/** What can be asked of how a document feels: how each kind is asked, and on what its answer depends. */
import type { Feel } from "../../../workers/instrument/feel.ts";
import type { Refusal, StepProgress } from "../../../workers/service/served.ts";
import { shownGaps } from "../../setup/gapLimits.ts";
import type { LevelLoss } from "../../study/blown/levelLoss.ts";
import type { ResistanceChangeLike } from "../../study/blown/resistanceLike.ts";
import type { Evidence } from "../../study/change/verdicts.ts";
import type { Felt, FeltOptions } from "../../study/feel/felt.ts";
import type { GapSlots } from "../../study/feel/slots.ts";
import type { FeelQuestion } from "./feelQuestion.ts";
import { sameToModel, textToModel } from "./sameToModel.ts";
import type { Answer } from "./work.ts";
import type { WorkerClient } from "./workerClient.ts";

export interface FeelState {
  /** The stream at both gaps, part by part. */
  readonly stream: Answer<ResistanceChangeLike>;
  /** The felt verdicts from the reference gap to the chosen one. */
  readonly felt: Answer<Felt>;
  /** Every note's slot at the reference gap and the chosen one. */
  readonly slots: Answer<readonly GapSlots[]>;
  /** The felt verdict from the reference gap to none. */
  readonly closed: Answer<Evidence>;
  /** Every note's slot over the gaps shown, the first at the reference. */
  readonly holds: Answer<readonly GapSlots[]>;
  /** Peak heights from soft to loud at the reference gap and the chosen one. */
  readonly levels: Answer<readonly LevelLoss[]>;
}

export type FeelKind = keyof FeelState;
type Value<Kind extends FeelKind> = NonNullable<FeelState[Kind]["value"]>;

/** How a kind of question is asked, and on what its answer depends beside the setup. */
interface Ask<Kind extends FeelKind> {
  readonly about: (question: FeelQuestion) => readonly unknown[];
  readonly ask: (
    client: WorkerClient<Feel>,
    question: FeelQuestion,
    progress: StepProgress,
    signal: AbortSignal,
  ) => Promise<Value<Kind> | Refusal | null>;
}

/** Gaps of the chart of holds: a note's slot takes far longer than a peak. */
const HOLD_STEPS = 8;
const UNREADABLE: Refusal = {
  refused: "The lips or the pressure cannot be read: see what is marked beside them.",
};

/** In the order they are asked in: what takes least and is looked at first. */
export const ASKS: { readonly [Kind in FeelKind]: Ask<Kind> } = {
  stream: {
    about: ({ gapMm, referenceGapMm, litresPerMinute }) => [gapMm, referenceGapMm, litresPerMinute],
    ask: (client, { setup, ...question }) => client.ask(setup, (feel) => feel.stream(question)),
  },
  slots: {
    about: ({ gapMm, ...question }) => [gapMm, ...blowing(question)],
    ask: asksLips((client, { setup, gapMm, referenceGapMm }, options, progress, signal) =>
      client.run("slots", setup, { ...options, gapsMm: [referenceGapMm, gapMm] }, progress, signal),
    ),
  },
  felt: {
    about: ({ gapMm, ...question }) => [
      gapMm,
      question.litresPerMinute,
      question.breath,
      ...blowing(question),
    ],
    ask: asksLips((client, { setup, gapMm, breath }, options, progress, signal) =>
      client.run("felt", setup, { ...options, gapMm, breath }, progress, signal),
    ),
  },
  closed: {
    about: (question) => [question.litresPerMinute, question.breath, ...blowing(question)],
    ask: asksLips((client, { setup, breath }, options, progress, signal) =>
      client.run("closed", setup, { ...options, breath }, progress, signal),
    ),
  },
  holds: {
    about: blowing,
    ask: asksLips((client, question, options, progress, signal) =>
      client.run("slots", question.setup, { ...options, gapsMm: holdGapsMm(question) }, progress, signal),
    ),
  },
  levels: {
    about: ({ gapMm, referenceGapMm }) => [gapMm, referenceGapMm],
    ask: (client, { setup, gapMm, referenceGapMm }, progress, signal) =>
      client.run("levels", setup, { gapsMm: [...new Set([referenceGapMm, gapMm])] }, progress, signal),
  },
};
export const KINDS = Object.keys(ASKS) as FeelKind[];

/** The gaps of the chart of holds: the reference, and even steps over those shown. */
export function holdGapsMm({
  setup,
  referenceGapMm,
}: Pick<FeelQuestion, "setup" | "referenceGapMm">): number[] {
  const { leastMm, mostMm } = shownGaps(setup);
  const even = Array.from(
    { length: HOLD_STEPS + 1 },
    (_, i) => leastMm + (i / HOLD_STEPS) * (mostMm - leastMm),
  );
  return [...new Set([referenceGapMm, ...even])];
}

function blowing({ referenceGapMm, lips, pressure }: Omit<FeelQuestion, "gapMm">): readonly unknown[] {
  return [referenceGapMm, lips && Object.values(lips), pressure];
}

function asksLips<T>(
  ask: (
    client: WorkerClient<Feel>,
    question: FeelQuestion,
    options: FeltOptions,
    progress: StepProgress,
    signal: AbortSignal,
  ) => Promise<T | Refusal | null>,
) {
  return (
    client: WorkerClient<Feel>,
    question: FeelQuestion,
    progress: StepProgress,
    signal: AbortSignal,
  ) => {
    const { lips, pressure, referenceGapMm, litresPerMinute } = question;
    if (!lips || !pressure) return Promise.resolve(UNREADABLE);
    return ask(client, question, { lips, pressure, referenceGapMm, litresPerMinute }, progress, signal);
  };
}

/** What lips are blown for takes so long that its answers are worth keeping between visits. */
const KEPT: readonly FeelKind[] = ["slots", "felt", "closed", "holds"];

/** The name that an answer is kept under; null of a kind that is quickly asked again. */
export const keptName = (kind: FeelKind, question: FeelQuestion): string | null =>
  KEPT.includes(kind)
    ? `${kind} ${JSON.stringify(ASKS[kind].about(question))} ${textToModel(question.setup)}`
    : null;

/** Whether a kind of question is answered alike at both. */
export const isSame = (kind: FeelKind, a: FeelQuestion, b: FeelQuestion): boolean =>
  sameToModel(a.setup, b.setup) &&
  JSON.stringify(ASKS[kind].about(a)) === JSON.stringify(ASKS[kind].about(b));
