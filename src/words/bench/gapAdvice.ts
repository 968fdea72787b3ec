/** What a person should know or do about a measured gap, a sentence each. */
import type { GapAdvice, ToRepeat } from "../../bench/measure/gapAdvice.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

export function adviceWords(advice: GapAdvice, unit: LengthUnit): string {
  switch (advice.kind) {
    case "negative":
      return (
        `The gap comes out at ${formatLength(advice.gapMm, unit)}, which cannot be: repeat ` +
        `${readings(advice.depth, "depth", unit)} and ${readings(advice.insertion, "insertion", unit)}.`
      );
    case "contact-or-mistake":
      return "Either the shank touches the leadpipe or a reading is wrong.";
    case "contact":
      return "A gap of 0 lies within the uncertainty: the shank may be touching the leadpipe.";
    case "mistake":
      return "Not even the uncertainty reaches a gap of 0: a reading is wrong.";
    case "maybe-contact":
      return "The interval reaches down to 0: these readings cannot tell a gap from a shank that touches the leadpipe.";
    case "unknown-uncertainty":
      return advice.repeat.length === 0
        ? "The uncertainty is unknown: all readings agree, so give the smallest step that the tool shows."
        : `The uncertainty is unknown: repeat the ${advice.repeat.join(" and the ")} reading, taking the tool off each time.`;
    case "outlier": {
      const { index, readingMm, statistic, criticalValue } = advice.reading;
      return (
        `The ${advice.of} reading number ${index + 1}, ${formatLength(readingMm, unit, unit === "mm" ? 3 : 4)}, stands apart from the others (Grubbs' test at 5 %: ` +
        `${statistic.toFixed(3)} is above ${criticalValue.toFixed(3)}). It is kept: repeat it, and leave it out only for a reason.`
      );
    }
    case "same-tool":
      return "One tool measured both lengths, so its zero error is in both and drops out of the gap.";
  }
}

function readings({ count, first }: ToRepeat, what: string, unit: LengthUnit): string {
  const all = `the ${what} ${count === 1 ? "reading" : "readings"}`;
  return first ? `${all} (first number ${first.number}, ${formatLength(first.readingMm, unit)})` : all;
}
