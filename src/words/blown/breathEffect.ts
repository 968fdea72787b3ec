/** What a breath does to the peaks, and what another gap does to them in still air and blown, in plain sentences. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { isSameGap } from "../../setup/setup.ts";
import type { BreathEffect, PeakUnderBreath } from "../../study/blown/breathEffect.ts";
import { isDecided, type Judgement, judge } from "../../study/change/judgement.ts";
import { isPlayed } from "../../study/change/verdicts.ts";
import type { LengthUnit } from "../../units/length.ts";
import { notesText, noteText } from "../instruments.ts";
import { lengthInSentence, signed } from "../numbers.ts";

export interface BreathWords {
  /** From still air to the breath. */
  readonly onPeaks: string;
  /** The change of gap, still and blown; null where there is none. */
  readonly onGap: string | null;
  /** Whether a player would notice that; null as before. */
  readonly finding: string | null;
  readonly isNoticed: boolean;
}

/** @param thresholdDb smallest change of a peak's height that a player is assumed to notice */
export function breathWords(
  effect: BreathEffect,
  thresholdDb: number,
  unit: LengthUnit,
  instrument: InstrumentKind,
): BreathWords {
  const { litresPerMinute, gapMm, referenceGapMm } = effect;
  const peaks = effect.peaks.filter(isPlayed);
  const nothing = { onGap: null, finding: null, isNoticed: false };
  if (peaks.length === 0)
    return { ...nothing, onPeaks: "The notes played have no peaks here that a breath could change." };
  const most = peaks.reduce((one, other) =>
    Math.abs(other.breathDb.estimate) > Math.abs(one.breathDb.estimate) ? other : one,
  );
  const onPeaks =
    `A breath of ${litresPerMinute} L/min changes the height of the peaks by ${span(peaks.map(({ breathDb }) => breathDb.estimate))}. ` +
    `The largest change, on ${noteText(most.n, instrument)}, may be anything from ${signed(most.breathDb.lower, 1)} dB with the least ` +
    `loss to ${signed(most.breathDb.upper, 1)} dB with the most.`;
  if (isSameGap(gapMm, referenceGapMm)) return { ...nothing, onPeaks };
  const way = gapMm > referenceGapMm ? "Opening" : "Closing";
  const onGap =
    `${way} the gap by ${lengthInSentence(Math.abs(gapMm - referenceGapMm), unit)} changes them by ` +
    `${span(peaks.map(({ gapStillDb }) => gapStillDb))} in still air and by ${span(peaks.map(({ gapBlownDb }) => gapBlownDb.estimate))} blown ` +
    `(${span(peaks.flatMap(bounds))} from the least loss to the most).`;
  return { onPeaks, onGap, ...noticed(peaks, thresholdDb, instrument) };
}

/** What a breath on the peaks leaves out. */
export function breathLeavesOut({ reynolds }: Pick<BreathEffect, "reynolds">): readonly string[] {
  return [
    "It is a soft tone on a steady stream. In playing the stream swings with the note, and what it then takes from a tone is another sum.",
    `The shear layer across the gap is computed for a smooth, laminar stream up to Re ${LAST_REYNOLDS}; ` +
      (rounded(reynolds) > LAST_REYNOLDS
        ? `this one leaves the shank at Re ${rounded(reynolds)}, so the last values are kept. A turbulent stream’s layer is thicker and does less.`
        : `this one leaves the shank at Re ${rounded(reynolds)}.`),
    "How sharp the throat’s edge is, and how the stream has grown on its way to the gap, nobody measures: least and most are over both, the same at both gaps.",
    "Friction along the walls is that of still air, the bell’s outside and the player’s mouth are left out, and the report and all other pages tell of still air.",
  ];
}

/** The table of the layer ends here. */
const LAST_REYNOLDS = 3200;

const rounded = (reynolds: number): number => Number(reynolds.toPrecision(2));

const bounds = ({ gapBlownDb: { lower, estimate, upper } }: PeakUnderBreath): readonly number[] => [
  lower,
  estimate,
  upper,
];

/** Least and greatest; to a hundredth, as far as the chart against gap is read. */
function span(changesDb: readonly number[]): string {
  const [low, high] = [signed(Math.min(...changesDb), 2), signed(Math.max(...changesDb), 2)];
  return low === high ? `${low} dB` : `${low} to ${high} dB`;
}

/** Whether the change of gap would be noticed, blown or in still air. */
function noticed(
  peaks: readonly PeakUnderBreath[],
  thresholdDb: number,
  instrument: InstrumentKind,
): Pick<BreathWords, "finding" | "isNoticed"> {
  const blown = peaks.map((peak) => {
    const all = bounds(peak);
    const range = [Math.min(...all), Math.max(...all)] as const;
    return { n: peak.n, judgement: judge(peak.gapBlownDb.estimate, thresholdDb, { bounds: range }) };
  });
  const still = peaks.map(({ n, gapStillDb }) => ({ n, judgement: judge(gapStillDb, thresholdDb) }));
  const on = (which: (judgement: Judgement) => boolean, of: typeof blown) =>
    of.filter(({ judgement }) => which(judgement)).map(({ n }) => n);
  const [blownOn, stillOn] = [on(isDecided, blown), on(isDecided, still)];
  const untold = on((judgement) => judgement === "unknown", blown);
  const ways = [
    ...(blownOn.length > 0 ? [`blown on ${notesText(blownOn, instrument)}`] : []),
    ...(stillOn.length > 0 ? [`in still air on ${notesText(stillOn, instrument)}`] : []),
  ];
  const held = `Just noticeable: ${thresholdDb} dB.`;
  if (ways.length > 0)
    return { finding: `A player may notice that ${ways.join(", ")}. ${held}`, isNoticed: true };
  if (untold.length > 0)
    return {
      finding: `On ${notesText(untold, instrument)} the bounds are too wide to say whether a player notices. ${held}`,
      isNoticed: false,
    };
  return { finding: `Too small to notice, blown as in still air. ${held}`, isNoticed: false };
}
