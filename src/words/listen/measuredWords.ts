/** What a player does with one note at each gap, and whether two gaps were told apart: a sentence each. */
import type { KeptTake, Measured } from "../../listen/keptTake.ts";
import type { TakeTest } from "../../listen/takeQuestion.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { BesideModel, ModelShares, ModelStart } from "../../study/listened/besideModel.ts";
import type { ListenedNote, MeasuredChange, MeasuredGap } from "../../study/listened/measuredGaps.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteText } from "../instruments.ts";
import { percent, signed } from "../numbers.ts";

/** What is played, as a choice. */
export const TEST_NAMES: Readonly<Record<TakeTest, string>> = {
  slot: "Slot",
  slur: "Slurs",
  attack: "Attacks",
  steady: "Held note",
};

/** What each tells: three of them begin alike, with the note held or tongued. */
export const TEST_TELLS: Readonly<Record<TakeTest, string>> = {
  slot: "How far the note bends before it breaks.",
  slur: "How often a slur lands wrong.",
  attack: "How often the note does not speak at once.",
  steady: "Where the note stands, and how still: nothing is bent.",
};

/** How each is played. */
export const TEST_HOW: Readonly<Record<TakeTest, string>> = {
  slot: "Hold the note. Bend it slowly down until it breaks or stops; start again, hold, and bend it slowly up. Three times each way or more, all in one take.",
  slur: "Slur from the lower note to the upper one and back, at an even pace, ten times or more. No tongue.",
  attack:
    "Tongue the note ten times or more, each as long as a beat, with a clear silence between. Do not bend it.",
  steady:
    "Leave the note where it wants to be, without vibrato, for four seconds or more; three times with a breath between.",
};

/** `slot of C in the staff (4)`, `slurs G (3) to C in the staff (4)` */
export function takenWords(
  { test, partial, toPartial }: Pick<ListenedNote, "test" | "partial" | "toPartial">,
  instrument?: InstrumentKind,
): string {
  const note = noteText(partial, instrument);
  switch (test) {
    case "slot":
      return `slot of ${note}`;
    case "slur":
      return `slurs ${note} to ${noteText(toPartial ?? partial, instrument)}`;
    case "attack":
      return `attacks on ${note}`;
    case "steady":
      return `pitch of ${note}`;
  }
}

export const isShare = (test: TakeTest): boolean => test === "slur" || test === "attack";

/** `182 ± 14 cents`, `18 % missed (9 to 32 %)` */
export function measuredValue(test: TakeTest, { value, interval }: MeasuredGap): string {
  if (isShare(test)) return `${percent(value)} missed${interval ? ` (${rangeText(interval)})` : ""}`;
  const number = test === "steady" ? signed(value, 1) : value.toFixed(0);
  if (!interval) return `${number} cents`;
  const half = (interval[1] - interval[0]) / 2;
  return `${number} ± ${half.toFixed(test === "steady" ? 1 : 0)} cents`;
}

/** What was found in one take. */
export function keptWords(measured: Measured, nearHz: number): string {
  switch (measured.test) {
    case "steady":
      return `${signed(1200 * Math.log2(measured.hz / nearHz), 1)} ± ${(2 * measured.uCents).toFixed(1)} cents`;
    case "slot":
      return `${endText(measured.lowCents)} to ${endText(measured.highCents)} cents, ${measured.lowCents.length} down, ${measured.highCents.length} up`;
    default:
      return `${measured.missed} of ${measured.of} missed`;
  }
}

const endText = (cents: readonly number[]): string =>
  cents.length === 0 ? "?" : signed(cents.reduce((sum, one) => sum + one, 0) / cents.length, 0);

/** The third voice: `Slot of C in the staff (4): 182 ± 14 cents at 3.0 mm, 175 ± 12 cents at 2.5 mm: no difference found; one of 30 cents would have been.` */
export function listenedWords(note: ListenedNote, unit: LengthUnit, instrument?: InstrumentKind): string {
  const { gaps, change } = note;
  const what = takenWords(note, instrument);
  const values = [...gaps]
    .reverse()
    .map((gap) => `${measuredValue(note.test, gap)} at ${formatLength(gap.gapMm, unit)}`)
    .join(", ");
  const found =
    gaps.length < 2
      ? ". Listen at a second gap to compare."
      : change
        ? `: ${changeWords(note.test, change, unit)}.`
        : ". Nothing was repeated, so nothing can be compared: take each gap again.";
  return `${what.charAt(0).toUpperCase()}${what.slice(1)}: ${values}${found}`;
}

function changeWords(test: TakeTest, change: MeasuredChange, unit: LengthUnit): string {
  const { isFound, value, interval, to } = change;
  const size = (amount: number) =>
    isShare(test) ? `${Math.ceil(100 * amount)} points of 100` : `${Math.ceil(amount)} cents`;
  if (!isFound) return `no difference found; one of ${size(change.detectable)} would have been`;
  const at = `at ${formatLength(to.gapMm, unit)}`;
  if (isShare(test))
    return `${Math.abs(100 * value).toFixed(0)} points of 100 ${value > 0 ? "more" : "fewer"} missed ${at} (${rangeText(interval)})`;
  const half = (interval[1] - interval[0]) / 2;
  const which = test === "slot" ? (value > 0 ? "wider" : "narrower") : value > 0 ? "higher" : "lower";
  return `${Math.abs(value).toFixed(test === "steady" ? 1 : 0)} ± ${half.toFixed(test === "steady" ? 1 : 0)} cents ${which} ${at}`;
}

const rangeText = ([low, high]: readonly [number, number]): string =>
  `${Math.round(100 * low)} to ${Math.round(100 * high)} %`;

/** What the intervals of a note rest on. */
export function basisWords({ basis, gaps }: ListenedNote): string {
  switch (basis) {
    case "takes":
      return "± from the scatter from take to take, over all gaps (95 %).";
    case "bends":
      return `± from the bends within ${gaps.length === 1 ? "one take" : "one take a gap"} only (95 %): mounting anew, and a rest between, are not in it. Take each gap twice or more, in turn.`;
    case "counts":
      return "Intervals of 95 % (Wilson).";
    case "none":
      return "Nothing was repeated: how far it scatters is unknown.";
  }
}

/** `at 2.5 mm`, or under which code nobody knows what. */
export const placeWords = ({ gapMm, blind }: Pick<KeptTake, "gapMm" | "blind">, unit: LengthUnit): string =>
  blind ? blind.code : formatLength(gapMm!, unit);

/** What every player is told before the first take. */
export const LISTENING_CAUTIONS = [
  "Bending to the break tires lips: rest as long as you played, and stop when a note no longer speaks as it did. Half an hour is enough for a day.",
  "Play at an easy volume. A bell close to a wall or an ear is loud enough to harm hearing in minutes.",
] as const;

/** The model's change between the same gaps, and whether what was measured speaks for it. */
export function besideModelWords(finding: BesideModel, modelCents: number): string {
  const model = `The model says ${signed(modelCents, 1)} cents between the same two gaps`;
  switch (finding) {
    case "agrees":
      return `${model}: what was measured agrees.`;
    case "disagrees":
      return `${model}: what was measured disagrees. Trust the player’s own measurement, and take both gaps once more.`;
    case "cannot-tell":
      return `${model}: too small for these takes to show or to refute.`;
  }
}

/** What the trade's rule on slots comes to for this player; the change is one of slot width. */
export const besideRuleWords = ({ isFound, value }: MeasuredChange): string =>
  !isFound
    ? "The rule, a wider gap slots more firmly, is not seen here."
    : value > 0
      ? "The rule, a wider gap slots more firmly, holds for this note."
      : "The rule, a wider gap slots more firmly, is the other way round for this note.";

/** @param noticedPercent of pressure, just noticeable */
export function besideStartWords({ percent: change, margin }: ModelStart, noticedPercent: number): string {
  const size =
    Math.abs(change) < noticedPercent
      ? `too small to notice (just noticeable: ${noticedPercent} %)`
      : `more than is just noticeable (${noticedPercent} %)`;
  const next = margin === null ? "" : ` Its margin over the next note changes by ${signed(margin, 3)}.`;
  return `The model counts no missed attacks. Between the same two gaps it changes this note’s starting pressure by ${signed(change, 1)} %: ${size}.${next} Whether attacks miss is the takes’ to say.`;
}

/** Said where the model has no voice. */
export const NO_MODEL: Readonly<Partial<Record<TakeTest, string>>> = {
  attack: "The model says nothing about this attack: it has no such note at these gaps.",
  slur: "Modelled lips can play the same slur, with an error of aim that nobody has measured: only the change from gap to gap speaks.",
  steady:
    "The model of lips says nothing about where a player holds a note; Explore shows how far the gap shifts its resonance.",
};

/** Slurs by modelled lips beside the player's, both ways. */
export function besideSharesWords(
  finding: BesideModel,
  { from, to }: ModelShares,
  [fromMm, toMm]: readonly [number, number],
  aimCents: number,
  unit: LengthUnit,
): string {
  const share = ({ chance, interval }: ModelShares["from"]) =>
    `${percent(chance)} missed (${rangeText(interval)})`;
  const said = {
    agrees: "what was measured agrees",
    disagrees: "what was measured disagrees. Trust the player’s own takes, and take both gaps once more",
    "cannot-tell": "so many slurs cannot tell the two apart",
  }[finding];
  return `Modelled lips that err by ${aimCents} cents: ${share(to)} at ${formatLength(toMm, unit)}, ${share(from)} at ${formatLength(fromMm, unit)}: ${said}.`;
}
