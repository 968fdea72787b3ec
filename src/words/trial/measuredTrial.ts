/** What a blind trial found by measuring, and what it takes to find a difference, in plain sentences. */
import type { TakeTest } from "../../listen/takeQuestion.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { ListenedNote } from "../../study/listened/measuredGaps.ts";
import { planScatter, repeatsNeeded } from "../../study/listened/measuredGaps.ts";
import type { MeasuredOutcome, MeasuredTrial } from "../../study/listened/measuredTrial.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { isShare, takenWords } from "../listen/measuredWords.ts";
import { percent, signed } from "../numbers.ts";

/** What may decide a trial, as a choice. */
export const DECIDED_BY = {
  preference: "Preference, as rated",
  slot: "Slot width, measured",
  slur: "Slurs missed, counted",
  attack: "Attacks missed, counted",
} as const;
export type DecidedBy = keyof typeof DECIDED_BY;

/** Said of the plan where a measurement decides. */
export const MEASURED_DECIDES =
  "The takes alone decide: listen to the same note at every turn. Ratings may be left out. The order is balanced; rest between repeats.";

/** By slot of C in the staff (4), 4 repeats: told apart (p = 0.012, exact). Largest at 3.00 mm, 182 cents; smallest at 2.00 mm, 160 cents. */
export function measuredTrialWords(
  found: MeasuredTrial,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): string {
  const { correctedP, permutation, items, repeats, isDecided, test } = found;
  const p = correctedP < 0.001 ? "p < 0.001" : `p = ${correctedP.toFixed(correctedP < 0.1 ? 3 : 2)}`;
  const how = permutation.isExact ? "exact" : "by drawing";
  const [most, least] = [items[0], items[items.length - 1]];
  const at = ({ name, gapMm }: (typeof items)[number]) => (gapMm === null ? name : formatLength(gapMm, unit));
  const ends = `${MOST[test]} at ${at(most)}, ${valueText(test, most.value)}; ${LEAST[test]} at ${at(least)}, ${valueText(test, least.value)}.`;
  return `By ${takenWords(found, instrument)}, ${repeats} repeats: ${isDecided ? "told apart" : "not told apart"} (${p}, ${how}). ${isDecided ? "" : "Not told apart is not alike. "}${ends}${detectableWords(found)}`;
}

/** What a trial like it finds, which is what “not told apart” is worth. */
function detectableWords({ detectable, test }: MeasuredTrial): string {
  if (detectable === undefined) return "";
  if (detectable === null) return " So few repeats can find no difference, however large: play more.";
  const size = isShare(test)
    ? `${Math.ceil(100 * detectable)} points of 100`
    : `${Math.ceil(detectable)} cents`;
  return ` At this scatter, a difference of ${size} is found four times in five.`;
}

/** What was planned, what decided, and what the takes came to; with each sentence by itself. */
export function measuredOutcomeWords(
  outcome: MeasuredOutcome,
  unit: LengthUnit,
  instrument?: InstrumentKind,
): readonly string[] {
  const { decidedBy, items, repeats, found, isEarly } = outcome;
  const what = items.every(({ gapMm }) => gapMm !== null) ? "gaps" : "shanks or instruments";
  const planned =
    decidedBy === null
      ? []
      : [
          `Planned beforehand: ${items.length} ${what}, ${repeats} times each, blind, decided by ${DECIDED_BY[decidedBy].toLowerCase()}.`,
        ];
  const missing =
    decidedBy !== null && !found.some(({ test }) => test === decidedBy)
      ? ["Fewer than two whole repeats have such a take at every turn: it decides nothing."]
      : [];
  const early = isEarly ? ["It was opened before every turn was played."] : [];
  return [...planned, ...missing, ...found.map((one) => measuredTrialWords(one, unit, instrument)), ...early];
}

const MOST: Readonly<Record<TakeTest, string>> = {
  slot: "Widest",
  slur: "Most missed",
  attack: "Most missed",
  steady: "Highest",
};
const LEAST: Readonly<Record<TakeTest, string>> = {
  slot: "narrowest",
  slur: "fewest",
  attack: "fewest",
  steady: "lowest",
};

const valueText = (test: TakeTest, value: number): string =>
  isShare(test)
    ? percent(value)
    : test === "steady"
      ? `${signed(value, 1)} cents`
      : `${value.toFixed(0)} cents`;

/** To find a difference, from the scatter of what was kept so far: `To find 10 cents you need 5 takes at each gap.` Empty where nothing was repeated. */
export function planWords(note: ListenedNote): string {
  const scatter = planScatter(note);
  if (scatter === null) return "";
  const what = note.basis === "takes" ? "takes" : "bends each way";
  const needed = DIFFERENCES.flatMap((cents) => {
    const count = repeatsNeeded(scatter, cents);
    return count === null ? [] : `${cents} cents, ${count} ${what}`;
  });
  return needed.length === 0
    ? "These takes scatter too much for any difference of 40 cents or less."
    : `To find a difference four times in five, you need at each gap: for ${needed.join("; for ")}.`;
}

/** Worth planning for. */
const DIFFERENCES = [10, 20, 40] as const;
