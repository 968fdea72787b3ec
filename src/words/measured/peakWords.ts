/** What to know of peaks that are read off curves. */
import type { Overlay } from "../../study/measured/measured.ts";

/** Of the table of measured and modelled peaks, a sentence each. */
export function peakWords({ unread }: Overlay): readonly string[] {
  const alike =
    "Peaks are read off both curves alike, by a parabola through their upper 3 dB: where they overlap, frequency and Q are not quite the resonance's own.";
  if (unread.length === 0) return [alike];
  const named = `${unread.length > 1 ? "s" : ""} ${unread.join(", ")}`;
  return [
    alike,
    `Left out: resonance${named}, where no peak stands clear of its neighbours and of the ends of the range, on five frequencies or more.`,
  ];
}
