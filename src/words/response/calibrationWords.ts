/** What somebody should know of an impedance that was told by known tubes, a sentence each. */
import type { CalibratedImpedance } from "../../study/calibration/calibratedImpedance.ts";

/** Tubes that miss one another by more than so many times what is stated are not what they are said to be. */
const DISAGREE = 2;

export function calibrationWarnings({
  frequencies,
  magnitudeExpanded,
  disagreement,
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
        "that each sealed, that nothing of the rig was moved between them, and that one clock played and recorded.",
    );
  if (blind.length > 0)
    warnings.push(
      `At ${blind.length} of ${frequencies.length} frequencies, from ${blind[0].toFixed(0)} to ${blind[blind.length - 1].toFixed(0)} Hz, these tubes do not tell the impedance, and the ` +
        "frequencies are left out: use tubes whose lengths are no multiples of one another, or a louder sweep.",
    );
  return warnings;
}
