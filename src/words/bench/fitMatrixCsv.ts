/** A fit matrix as CSV: one row a pair, unknown cells empty, units in the header. */
import { dimensionName } from "../../bench/fit/fitDimensions.ts";
import type { FitMatrix } from "../../bench/fit/fitMatrix.ts";
import { csvOfRows } from "../../units/delimitedText.ts";
import { OUTCOME, TOUCHES } from "./fit.ts";

/** The matrix as a table for a spreadsheet, a row a pair, lengths in mm. */
export function fitMatrixCsv({ cells }: FitMatrix): string {
  const text = (value: number | undefined) => (value === undefined ? "" : `${Number(value.toFixed(6))}`);
  return csvOfRows([
    [
      "mouthpiece",
      "instrument",
      "outcome",
      "insertion_mm",
      "gap_mm",
      "standard_uncertainty_mm",
      "from_preferred_mm",
      "touches",
      "contact_length_mm",
      "free_clearance_mm",
      "missing",
    ],
    ...cells
      .flat()
      .map(({ mouthpiece, instrument, fit, missing, fromPreferredMm }) => [
        mouthpiece,
        instrument,
        fit ? OUTCOME[fit.outcome] : "unknown",
        text(fit?.insertionMm),
        text(fit?.gapMm),
        text(fit?.standardUncertaintyMm),
        text(fromPreferredMm),
        fit?.contact ? TOUCHES[fit.contact.touches] : "",
        text(fit?.contact?.contactLengthMm),
        text(fit?.contact?.freeClearanceMm),
        missing.map((dimension) => dimensionName[dimension]).join("; "),
      ]),
  ]);
}
