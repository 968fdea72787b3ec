/**
 * What a cut is to reach, and the way chosen. That the person has confirmed what cannot be undone is not written down: it
 * is asked for again at every visit and whenever the plan changes; that a contradiction is known is, until it changes.
 */
import { defaultMinimumWallMm, defaultToleranceMm } from "../../../bench/cut/cutQuestion.ts";
import { WRAP_THICKNESS_MM } from "../../../bench/cut/wrap.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { length, words } from "../../form/field.ts";
import { type KeptBy, kept, keptForm, list, oneOf, record, text } from "../../form/kept.ts";
import { USUAL_MM } from "../../form/usualLengths.ts";

export const CUT_FIELDS = {
  target: length("Gap to reach", { usualMm: USUAL_MM.gap, hint: "such as 2.0 mm, 0.08 in or 1/8 in" }),
  tolerance: length("Tolerance", {
    usualMm: [0.005, 1],
    hint: (unit) => `near enough to the planned gap; empty: ${formatLength(defaultToleranceMm, unit)}`,
  }),
  minimumWall: length("Minimum wall", {
    usualMm: USUAL_MM.wall,
    hint: (unit) =>
      `left at the shank’s end; empty: ${formatLength(defaultMinimumWallMm, unit)}, common practice, no source`,
  }),
  stopPerMark: length("Gap change per mark", {
    usualMm: [0.05, 2],
    hint: "adjustable receivers only: change of gap for one mark",
  }),
};

/** Of a gauge to be made; what is left empty is as usual. */
export const GAUGE_FIELDS = {
  tolerance: length("Working tolerance", {
    usualMm: USUAL_MM.tolerance,
    hint: (unit) => `± on every dimension; empty: ${unit === "mm" ? "0.02 mm" : "0.001 in"}`,
  }),
  step: length("Between marks", {
    hint: (unit) => `shoulders or gap marks; empty: ${unit === "mm" ? "0.5 mm" : "0.02 in"}`,
  }),
  gapFrom: length("No-go: smallest gap", {
    usualMm: USUAL_MM.gap,
    hint: (unit) => `empty: planned gap, or yours, less ${unit === "mm" ? "0.25 mm" : "0.01 in"}`,
  }),
  gapTo: length("Go: largest gap", { usualMm: USUAL_MM.gap, hint: "empty: as much more" }),
};
/** A foil or paper that the user has measured. */
export const FOIL_FIELDS = {
  name: words("Foil or paper"),
  thickness: length("Thickness, measured", {
    usualMm: [0.004, 0.5],
    leastMm: WRAP_THICKNESS_MM[0],
    mostMm: WRAP_THICKNESS_MM[1],
  }),
};
export const MOST_FOILS = 6;

export const BENCH_GAUGES = ["plug", "ring"] as const;

export const cutForm = keptForm({
  ...CUT_FIELDS,
  /** To wrap a shank with. */
  foils: list(record(FOIL_FIELDS), MOST_FOILS),
  /** What is made to measure by. */
  gauge: record({ ...GAUGE_FIELDS, kind: oneOf(BENCH_GAUGES, "plug") }),
  /** What contradicts the gap, as `contradictionsKey` has it, when the person said that it is known. */
  acknowledged: text(1000),
  /** The way whose card is shown. */
  way: kept<string | null>(null, (json) => (typeof json === "string" ? json.slice(0, 200) : null)),
});
export type CutNotes = KeptBy<typeof cutForm>;
