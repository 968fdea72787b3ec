/** What to know of peaks that are read off curves. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { Overlay } from "../../study/measured/measured.ts";
import { notesText } from "../instruments.ts";

/** Of the table of measured and modelled peaks, a sentence each. */
export function peakWords({ unread }: Overlay, instrument?: InstrumentKind): readonly string[] {
  const alike =
    "Peaks are read off both curves alike, by a parabola through their upper 3 dB: where they overlap, frequency and Q are not quite the resonance's own.";
  if (unread.length === 0) return [alike];
  return [
    alike,
    `Left out: ${notesText(unread, instrument)}, where no peak stands clear of its neighbours and of the ends of the range, on five frequencies or more.`,
  ];
}
