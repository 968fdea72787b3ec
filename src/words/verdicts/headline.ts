/** What a change of gap does, in three plain sentences: pitch, slotting, backpressure; each from the one finding that its card shows. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { type Evidence, extremes, findingAt, judgedIn, type Test } from "../../study/change/verdicts.ts";
import type { LengthUnit } from "../../units/length.ts";
import { notesText } from "../instruments.ts";
import { lengthInSentence, signed } from "../numbers.ts";

const UNCERTAIN = "The measurements are too uncertain to say.";

/** @param shifts of the notes before anyone touches the slide, cents */
export function pitchSentence(changeMm: number, shifts: readonly number[], unit: LengthUnit): string {
  const [low, high] = [Math.min(...shifts), Math.max(...shifts)];
  const way =
    high < 0.05
      ? `lowers pitch by ${span(-high, -low)}`
      : low > -0.05
        ? `raises pitch by ${span(low, high)}`
        : `moves pitch by ${signed(low, 1)} to ${signed(high, 1)} cents`;
  return `${changeMm > 0 ? "Opening" : "Closing"} the gap by ${lengthInSentence(Math.abs(changeMm), unit)} ${way}`;
}

/** What is left of it once the slide is set again, and whether a player would notice. */
export function remainsSentence(left: Test, instrument: InstrumentKind) {
  const most = Math.max(...extremes(left).map(({ change }) => Math.abs(change)));
  const noticed = left.changes.filter((change) => {
    const judgement = judgedIn(left, change);
    return judgement === "more" || judgement === "less";
  });
  const finding = findingAt(left);
  return {
    isNoticed: noticed.length > 0,
    said: `once the slide is set again at most ${most.toFixed(1)} remain`,
    verdict:
      noticed.length > 0
        ? `A player may notice on ${notesText(
            noticed.map(({ n }) => n),
            instrument,
          )}.`
        : finding === "unknown"
          ? UNCERTAIN
          : "Unlikely to be noticed.",
  };
}

/** How firmly notes slot. */
export function slottingSentence(
  { finding, basis, tests: [test] }: Evidence,
  instrument: InstrumentKind,
): string {
  if (!test || basis.kind !== "lips") return "";
  const { meanCents, firmer, looser } = basis;
  switch (finding) {
    case "agrees":
    case "disagrees":
      return `Slotting: ${meanCents > 0 ? "firmer" : "looser"} on the whole, slots ${Math.abs(meanCents).toFixed(0)} cents ${meanCents > 0 ? "wider" : "narrower"} on average. A player may notice.`;
    case "mixed": {
      const ways = [
        ...(firmer.length > 0 ? [`firmer: ${notesText(firmer, instrument)}`] : []),
        ...(looser.length > 0 ? [`looser: ${notesText(looser, instrument)}`] : []),
      ];
      return `Slotting: no overall change. ${ways.length > 0 ? `${capitalised(ways.join("; "))}.` : ""}`;
    }
    case "too-small": {
      const [low, high] = extremes(test);
      const ways =
        low.change < -0.5 && high.change > 0.5
          ? " Some notes a little firmer, some a little looser."
          : ` Slots change by ${signed(low.change, 0)} to ${signed(high.change, 0)} cents.`;
      return `Slotting: no change a player is likely to notice.${ways}`;
    }
    default:
      return "Slotting: depends on the player’s lips, which nobody can measure: too uncertain to say.";
  }
}

/** How hard it blows. */
export function backpressureSentence({ basis, tests: [drop, onset] }: Evidence): string {
  if (!drop || basis.kind !== "stream-and-lips") return "";
  const percent = drop.together.change;
  const amount =
    Math.abs(percent) < 0.05
      ? "unchanged"
      : `about ${Math.abs(percent).toFixed(1)} % ${percent > 0 ? "more" : "less"}`;
  const most = onset && Math.max(...extremes(onset).map(({ change }) => Math.abs(change)));
  const starting = most === undefined ? "" : ` Starting pressures change by ${most.toFixed(1)} % at most.`;
  return `Backpressure: ${amount}. Players are assumed to notice ${drop.threshold} %.${starting}`;
}

const span = (a: number, b: number): string => {
  const [low, high] = [Math.max(0, a).toFixed(1), b.toFixed(1)];
  return low === high ? `${high} cents` : `${low} to ${high} cents`;
};

const capitalised = (text: string): string => text[0].toUpperCase() + text.slice(1);
