/** What somebody should know of an impedance that was told by known tubes, a sentence each. */
import type { CalibratedImpedance } from "../../study/calibration/calibratedImpedance.ts";

/** Tubes that miss one another by more than so many times what is stated are not what they are said to be. */
const DISAGREE = 2;

/** Halves of the range differ by so much where that tells a cause. */
const MOSTLY = 2;

/** What no tube tells of the instrument itself. */
export const UNSEEN =
  "A leak at the instrument's own seal, or a room that warmed up between the tubes and the instrument, goes unseen: the tubes tell of the rig alone. Press the instrument on once more and compare; record a tube again at the end.";

export function calibrationWarnings({
  frequencies,
  magnitudeExpanded,
  disagreement,
  disagreementAt,
}: CalibratedImpedance): string[] {
  const blind = frequencies.filter((_, i) => magnitudeExpanded[i] === Infinity);
  const warnings: string[] = [];
  if (disagreement === null)
    warnings.push(
      "Three tubes always agree: a wrong length or a leak among them goes unseen. A fourth tells.",
    );
  else if (disagreement > DISAGREE)
    warnings.push(
      `The tubes disagree by ${disagreement.toFixed(1)} times what their stated uncertainties explain: check every length, ` +
        `that each sealed, that the room stayed as warm, that nothing of the rig was moved between them, and that one clock played and recorded. ${causeWords(disagreementAt)}The intervals ` +
        "are widened by as much.",
    );
  if (blind.length > 0)
    warnings.push(
      `At ${blind.length} of ${frequencies.length} frequencies, from ${blind[0].toFixed(0)} to ${blind[blind.length - 1].toFixed(0)} Hz, these tubes do not tell the impedance, and the ` +
        "frequencies are left out: use tubes whose lengths are no multiples of one another, or a louder sweep.",
    );
  return warnings;
}

/** A leak shows low where a wrong length and a warmer room show little, if the tube is short: otherwise where says nothing. */
const causeWords = (at: CalibratedImpedance["disagreementAt"]): string =>
  at && at.low > MOSTLY * at.high
    ? "They do most at low frequencies, as where a short one leaks at its seal, and not as by a wrong length. "
    : "";
