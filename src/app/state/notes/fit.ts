/** Mouthpieces and instruments whose fit is asked for, and the gap that the player prefers. */
import { clearanceFlaw, defaultClearanceMm, preferredFlaw } from "../../../bench/fit/fit.ts";
import { type FitDimension, isTaper } from "../../../bench/fit/fitDimensions.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { length } from "../../form/field.ts";
import { byName, type KeptBy, keptForm, keptLength, list, record, text } from "../../form/kept.ts";
import { USUAL_MM } from "../../form/usualLengths.ts";

/** Of each table. */
export const MOST_PARTS = 200;

/** Dimensions that are no lengths keep their text in any unit. */
const dimensions = byName((name) => (isTaper(name as FitDimension) ? text() : keptLength));

const part = record({
  name: text(),
  /** As typed. */
  dimensions,
  /** Standard uncertainties, as typed. */
  uncertainties: dimensions,
});
export type PartNotes = KeptBy<typeof part>;

export const FIT_FIELDS = {
  preferred: length("Preferred gap", {
    usualMm: USUAL_MM.gap,
    hint: "the player's; empty for none",
    flaw: preferredFlaw,
  }),
  clearance: length("Contact tolerance", {
    hint: (unit) =>
      `up to this clearance; empty for ${formatLength(defaultClearanceMm, unit, unit === "mm" ? 2 : 4)}`,
    flaw: clearanceFlaw,
  }),
};

export const fitForm = keptForm({
  mouthpieces: list(part, MOST_PARTS),
  instruments: list(part, MOST_PARTS),
  ...FIT_FIELDS,
});
export type FitNotes = KeptBy<typeof fitForm>;
