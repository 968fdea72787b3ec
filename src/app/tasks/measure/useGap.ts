/** The measured gap put into the setup that is open. */
import type { GapMeasurement } from "../../../bench/measure/gap.ts";
import { withProvenance } from "../../../setup/dimension/provenance.ts";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { fileInMm, type Outcome, readAltered } from "../../form/setup/edits.ts";
import { expandedGapMm, measuredLength } from "../../state/bench/measurement.ts";

/**
 * The setup with the measured depth and insertion and what is known of them, or what would be wrong with it. An
 * uncertainty that the readings cannot tell is left out: the one there was belongs to another measurement.
 */
export function withMeasuredGap(setup: Setup, measured: GapMeasurement): Outcome {
  const depth = measuredLength(measured, "depth");
  const insertion = measuredLength(measured, "insertion");
  const marked = withProvenance(setup, "measured", "receiver.depth", "mouthpiece.insertion");
  const { "receiver.depth": _depth, "mouthpiece.insertion": _insertion, ...others } = setup.uncertainties;
  return readAltered(
    setup,
    fileInMm({
      ...marked,
      receiver: { ...setup.receiver, depthMm: withoutRoundingNoise(depth.lengthMm) },
      mouthpiece: { ...setup.mouthpiece, insertionMm: withoutRoundingNoise(insertion.lengthMm) },
      uncertainties: {
        ...others,
        ...(depth.uncertainty && { "receiver.depth": depth.uncertainty }),
        ...(insertion.uncertainty && { "mouthpiece.insertion": insertion.uncertainty }),
      },
    }),
  );
}

/** What was set, for the message line. */
export function setInWords(measured: GapMeasurement, unit: LengthUnit): string {
  const other = unit === "mm" ? "in" : "mm";
  const [depth, insertion] = (["depth", "insertion"] as const).map((length) =>
    measuredLength(measured, length),
  );
  const unknown = [...(depth.uncertainty ? [] : ["depth"]), ...(insertion.uncertainty ? [] : ["insertion"])];
  const expandedMm = expandedGapMm(measured);
  return (
    `The setup now has receiver depth ${plusMinus(depth.lengthMm, depth.expandedMm, unit)} and insertion ` +
    `${plusMinus(insertion.lengthMm, insertion.expandedMm, unit)}: a gap of ` +
    `${plusMinus(measured.gapMm, expandedMm, unit)} · ${roundedLength(measured.gapMm, expandedMm, other)}.` +
    (unknown.length > 0
      ? ` How well ${unknown.join(" and ")} ${unknown.length > 1 ? "are" : "is"} known the readings cannot tell; until they can, the model takes ${unknown.length > 1 ? "them" : "it"} as exact, and nothing is cut on ${unknown.length > 1 ? "them" : "it"} that cannot be undone.`
      : "")
  );
}

/** How the measured gap compares with the one that the setup has now. */
export function comparedWithSetup(measured: GapMeasurement, setup: Setup, unit: LengthUnit): string {
  const presentMm = gapMm(setup);
  const expandedMm = expandedGapMm(measured);
  const changeMm = measured.gapMm - presentMm;
  const other = unit === "mm" ? "in" : "mm";
  const length = (mm: number) =>
    `${roundedLength(mm, expandedMm, unit)} · ${roundedLength(mm, expandedMm, other)}`;
  const has = `The open setup has a gap of ${length(presentMm)}`;
  if (Math.abs(changeMm) < 1e-6) return `${has}: the measured one.`;
  const beyond =
    expandedMm === undefined
      ? ""
      : Math.abs(changeMm) <= expandedMm
        ? ", no more than the uncertainty"
        : ", more than the uncertainty";
  return `${has}; the measured one is ${length(Math.abs(changeMm))} ${changeMm > 0 ? "wider" : "narrower"}${beyond}.`;
}
