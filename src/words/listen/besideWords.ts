/** What was measured beside the model and beside the trade's rule: a sentence each. */
import type { TakeTest } from "../../listen/takeQuestion.ts";
import type { BesideModel, ModelShares, ModelStart } from "../../study/listened/besideModel.ts";
import type { MeasuredChange } from "../../study/listened/measuredGaps.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { percent, signed } from "../numbers.ts";
import { rangeText } from "./measuredWords.ts";

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
