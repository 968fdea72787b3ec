/** The smallest differences a player is assumed to notice, and on what each rests. */
import type { Thresholds } from "../../setup/setup.ts";
import { atOtherThresholds, type Evidence } from "../../study/change/verdicts.ts";
import { FINDING } from "./findings.ts";

interface Noticeable {
  readonly what: string;
  readonly unit: string;
  readonly source: string;
}

export const NOTICEABLE: Readonly<Record<keyof Thresholds, Noticeable>> = {
  cents: { what: "pitch", unit: "cents", source: "0.2 % of frequency: Nederveen & Dalmont 2008" },
  decibels: { what: "peak height", unit: "dB", source: "common practice, no source" },
  slotCents: {
    what: "slot width",
    unit: "cents of the lips",
    source:
      "assumed: no published figure was found. Two professional trumpeters’ pitch scattered by 6.5 and 8.1 cents (Kopiez 2003), and lips move about three times as far as the pitch",
  },
  pressurePercent: {
    what: "backpressure and starting pressure",
    unit: "%",
    source:
      "common practice, no source; a change of load on the breath is just noticed from about 18 % (Gottfried et al. 1981)",
  },
};

/** All of them, a line each, with the sizes of one setup. */
export const noticeableLines = (thresholds: Thresholds): readonly string[] =>
  (Object.keys(NOTICEABLE) as (keyof Thresholds)[]).map((key) => {
    const { what, unit, source } = NOTICEABLE[key];
    return `${what[0].toUpperCase()}${what.slice(1)}: ${thresholds[key]} ${unit} (${source}).`;
  });

/** How a verdict hangs on them: what it would be at half and at twice the threshold. Empty where nothing was tested. */
export function thresholdCheck(evidence: Pick<Evidence, "finding" | "tests">): string {
  const other = atOtherThresholds(evidence);
  if (!other) return "";
  const { half, twice } = other;
  if (half === evidence.finding && twice === evidence.finding)
    return "The same at half and at twice what is assumed to be just noticeable.";
  return `At half of what is assumed to be just noticeable: ${FINDING[half]}. At twice: ${FINDING[twice]}.`;
}
