/**
 * What a cut is to reach, and the way chosen. That the person has confirmed what cannot be undone is not written down: it
 * is asked for again at every visit and whenever the plan changes; that a contradiction is known is, until it changes.
 */
import { defaultMinimumWallMm, defaultToleranceMm } from "../../../bench/cut/cutQuestion.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { length } from "../../form/field.ts";
import { type KeptBy, kept, keptForm, text } from "../../form/kept.ts";

export const CUT_FIELDS = {
  target: length("Gap to reach", { usualMm: [0.25, 9], hint: "such as 2.0 mm, 0.08 in or 1/8 in" }),
  tolerance: length("Tolerance", {
    hint: (unit) => `near enough to the target; empty: ${formatLength(defaultToleranceMm, unit)}`,
  }),
  minimumWall: length("Minimum wall", {
    hint: (unit) =>
      `left at the shank’s end; empty: ${formatLength(defaultMinimumWallMm, unit)}, common practice, no source`,
  }),
  stopPerMark: length("Stop, per mark", {
    hint: "adjustable receivers only: change of gap for one mark",
  }),
};

export const cutForm = keptForm({
  ...CUT_FIELDS,
  /** What contradicts the gap, as `contradictionsKey` has it, when the person said that it is known. */
  acknowledged: text(1000),
  /** The way whose card is shown. */
  way: kept<string | null>(null, (json) => (typeof json === "string" ? json.slice(0, 200) : null)),
});
export type CutNotes = KeptBy<typeof cutForm>;
