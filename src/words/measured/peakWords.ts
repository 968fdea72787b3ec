/** What to know of two curves and of peaks that are read off them. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { Overlay } from "../../study/measured/measured.ts";
import { notesText } from "../instruments.ts";

/** Of the table of measured and modelled peaks, a sentence each. */
export function peakWords(
  { unread, rmsDegrees }: Pick<Overlay, "unread" | "rmsDegrees">,
  instrument?: InstrumentKind,
): readonly string[] {
  const alike =
    "Peaks are read off both curves alike, by a parabola through their upper 3 dB: where they overlap, frequency and Q are not quite the resonance's own.";
  const noPhase =
    "Without a phase, heights, frequencies and Q are compared. What turns the phase and leaves |Z| as it is, such as a delay, a microphone in another place or a wrong sign, cannot be told.";
  return [
    alike,
    ...(rmsDegrees === null ? [noPhase] : []),
    ...(unread.length === 0 ? [] : [leftOut(unread, instrument)]),
  ];
}

const leftOut = (unread: readonly number[], instrument?: InstrumentKind): string =>
  `Left out: ${notesText(unread, instrument)}, where no peak stands clear of its neighbours and of the ends of the range, on five frequencies or more.`;

/** How far two curves are apart over all frequencies. */
export const apartWords = ({ rmsDb, rmsDegrees }: Pick<Overlay, "rmsDb" | "rmsDegrees">): string =>
  `${rmsDb.toFixed(2)} dB${rmsDegrees === null ? "" : ` and ${rmsDegrees.toFixed(1)}°`}`;
