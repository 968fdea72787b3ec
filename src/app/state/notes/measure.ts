/** Readings of receiver depth and insertion, and the tools they were taken with. */
import { checkedTool, type MeasuringTool } from "../../../bench/measure/tool.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { InputError } from "../../../units/inputError.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { type LengthOptions, length } from "../../form/field.ts";
import { flag, type KeptBy, keptForm, list, record } from "../../form/kept.ts";
import { USUAL_MM } from "../../form/usualLengths.ts";

export type LengthName = "depth" | "insertion";
export type ToolName = `${LengthName}Tool`;

const LONGEST_MM = 1000;

/** One reading of either length. */
export const READING = length("reading", {
  usualMm: USUAL_MM.depth,
  flaw: (lengthMm, unit) =>
    lengthMm >= 0 && lengthMm <= LONGEST_MM
      ? undefined
      : `A reading is a length from 0 to ${formatLength(LONGEST_MM, unit, 0)}; give one such as ${formatLength(24.54, unit)}`,
});

/** What the bench says of a tool with only this known. */
const toolFlaw =
  (part: keyof MeasuringTool, what: LengthName): NonNullable<LengthOptions["flaw"]> =>
  (lengthMm, unit) => {
    try {
      checkedTool({ [part]: lengthMm }, what, unit);
      return undefined;
    } catch (error) {
      if (error instanceof InputError) return error.message;
      throw error;
    }
  };

/** Examples are those of a digital caliper. */
const example = (mm: string, inches: string) => (unit: LengthUnit) =>
  `such as ${unit === "mm" ? mm : inches}`;
const toolFields = (what: LengthName) => ({
  resolution: length("Smallest step", {
    hint: example("0.01 mm", "0.0005 in"),
    flaw: toolFlaw("resolutionMm", what),
  }),
  zero: length("Zero reading", { hint: example("0.02 mm", "0.001 in"), flaw: toolFlaw("zeroMm", what) }),
  zeroUncertainty: length("Its standard uncertainty", {
    hint: example("0.005 mm", "0.0002 in"),
    flaw: toolFlaw("zeroUncertaintyMm", what),
  }),
});
export const TOOL_FIELDS = { depthTool: toolFields("depth"), insertionTool: toolFields("insertion") };

export const measureForm = keptForm({
  depth: list(READING),
  insertion: list(READING),
  depthTool: record(TOOL_FIELDS.depthTool),
  insertionTool: record(TOOL_FIELDS.insertionTool),
  /** The depth's tool measured both. */
  sameTool: flag(true),
});
export type MeasureNotes = KeptBy<typeof measureForm>;
export type ToolNotes = MeasureNotes["depthTool"];
