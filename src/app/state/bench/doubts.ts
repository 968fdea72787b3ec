/** What in a job contradicts its gap, as it was measured and as the setup's file has it: said wherever a gap is judged or altered. */

import type { Contradiction } from "../../../bench/fit/contradiction.ts";
import { setupContradiction } from "../../../bench/fit/setupContradiction.ts";
import { coverageFactor } from "../../../bench/measure/coverage.ts";
import { gapUncertainty } from "../../../bench/measure/gapUncertainty.ts";
import { gapMm, isSameGap } from "../../../setup/setup.ts";
import { measureForm } from "../notes/measure.ts";
import type { Document, Unit } from "../state.ts";
import { expandedGapMm, readMeasurement } from "./measurement.ts";

/** Of the readings first; the file's gap is not asked about again where it is the one measured. */
export function jobDoubts(
  { setup, notes }: Pick<Document, "setup" | "notes">,
  unit: Unit,
): readonly Contradiction[] {
  const { measured } = readMeasurement(measureForm.shownIn(notes.measure, unit));
  const fileGapMm = gapMm(setup);
  const isInFile = measured !== undefined && isSameGap(measured.gapMm, fileGapMm);
  return [
    measured &&
      setupContradiction(setup, {
        gapMm: measured.gapMm,
        depthMm: measured.depthMm,
        givenBy: "readings",
        expandedMm: expandedGapMm(measured),
      }),
    isInFile
      ? undefined
      : setupContradiction(setup, {
          gapMm: fileGapMm,
          givenBy: "file",
          expandedMm: gapUncertainty(setup, coverageFactor).expandedMm,
        }),
  ].flatMap((found) => found ?? []);
}
