/** A gap chart in words, for who hears the page. */
import { isNoticeable } from "../../../study/change/judgement.ts";
import { notesText, noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import type { Frame } from "../../kit/drawing.ts";
import { tickText } from "../../kit/numbers.ts";
import { played, type Quantity, type Series, type Slid, slideText, valueAt, viewOf } from "./gapSeries.ts";

export function describe(
  quantity: Omit<Quantity, "of">,
  { sweep, chosenGapMm }: { readonly sweep: Slid; readonly chosenGapMm: number },
  series: readonly Series[],
  band: number,
  { unit, instrument }: Pick<Frame, "unit" | "instrument">,
): string {
  const { noun = "resonance" } = quantity;
  const found = series
    .filter(({ n }) => n >= played[0] && n <= played[1])
    .map(({ n, samples }) => ({ n, value: valueAt(samples, chosenGapMm) }))
    .filter((one): one is { n: number; value: number } => one.value !== null)
    .sort((a, b) => a.value - b.value);
  const gaps = `At a gap of ${bothUnits(chosenGapMm, unit)} compared with ${bothUnits(sweep.referenceGapMm, unit)}`;
  const view =
    noun === "note"
      ? ""
      : ` With the ${viewOf(sweep, instrument).replace("slide ", "tuning slide ")}${slideText(sweep, chosenGapMm, unit).replace(/^, slide/, ":")}.`;
  const ruleText = quantity.rule
    ? `The rule of thumb says: ${quantity.rule.replace("→", "means")}.`
    : "The rule of thumb says nothing of it.";
  if (found.length === 0) return `${gaps} there is nothing to compare yet. ${ruleText}`;
  const [lowest, highest] = [found[0], found[found.length - 1]];
  const one = ({ n, value }: { n: number; value: number }) =>
    `${signed(value, quantity.digits)} ${quantity.unit} on ${noteText(n, instrument)}`;
  const felt = found.filter(({ value }) => isNoticeable(value, band)).map(({ n }) => n);
  const finding =
    felt.length === 0
      ? `All are within ±${tickText(band)} ${quantity.unit}: ${TOO_SMALL}.`
      : `Beyond ±${tickText(band)} ${quantity.unit}, where a player may notice: ${notesText(felt, instrument)}.`;
  return `${gaps}, ${quantity.inWords} by ${one(lowest)} to ${one(highest)}. ${finding}${view} ${ruleText}`;
}

/** What the shaded range is of, the longest wording first. */
export function rangeWords(series: readonly Series[], instrument: Frame["instrument"]): string[] {
  if (series.length < 2) return [];
  const [low, high] = [series[0].n, series[series.length - 1].n];
  return [
    `shaded: all notes from ${noteText(low, instrument)} to ${noteText(high, instrument)}`,
    `shaded: notes ${low} to ${high}`,
  ];
}
