/** What a player does with one note at each gap, and whether two gaps were told apart: a sentence each. */
import type { KeptTake, Measured } from "../../listen/keptTake.ts";
import type { TakeTest } from "../../listen/takeQuestion.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { ListenedNote, MeasuredChange, MeasuredGap } from "../../study/listened/measuredGaps.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteText } from "../instruments.ts";
import { percent, signed } from "../numbers.ts";

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

export const rangeText = ([low, high]: readonly [number, number]): string =>
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
