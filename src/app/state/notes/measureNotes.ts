/** Readings of receiver depth and insertion, and the tools they were taken with. */
import type { LengthUnit } from "../../../units/length.ts";
import { inUnit, isRecord, textOf, textsOf, unitOf } from "./typed.ts";

export type LengthName = "depth" | "insertion";
export type ToolName = `${LengthName}Tool`;

export interface ToolNotes {
  /** The smallest step it shows. */
  readonly resolution: string;
  /** What it shows at zero. */
  readonly zero: string;
  readonly zeroUncertainty: string;
}

export interface MeasureNotes {
  /** What a bare number is in. */
  readonly unit: LengthUnit;
  readonly depth: readonly string[];
  readonly insertion: readonly string[];
  readonly depthTool: ToolNotes;
  readonly insertionTool: ToolNotes;
  /** The depth's tool measured both. */
  readonly sameTool: boolean;
}

const NO_TOOL: ToolNotes = { resolution: "", zero: "", zeroUncertainty: "" };

export const NO_MEASUREMENT: MeasureNotes = {
  unit: "mm",
  depth: [],
  insertion: [],
  depthTool: NO_TOOL,
  insertionTool: NO_TOOL,
  sameTool: true,
};

export function readMeasureNotes(json: unknown): MeasureNotes {
  if (!isRecord(json)) return NO_MEASUREMENT;
  return {
    unit: unitOf(json.unit),
    depth: textsOf(json.depth),
    insertion: textsOf(json.insertion),
    depthTool: readTool(json.depthTool),
    insertionTool: readTool(json.insertionTool),
    sameTool: json.sameTool !== false,
  };
}

function readTool(json: unknown): ToolNotes {
  if (!isRecord(json)) return NO_TOOL;
  return {
    resolution: textOf(json.resolution),
    zero: textOf(json.zero),
    zeroUncertainty: textOf(json.zeroUncertainty),
  };
}

/** A reading written at a place of its own; places left over at the end are none. */
export function withReading(notes: MeasureNotes, length: LengthName, at: number, text: string): MeasureNotes {
  const texts = Array.from({ length: Math.max(at + 1, notes[length].length) }, (_, i) =>
    i === at ? text : (notes[length][i] ?? ""),
  );
  return { ...notes, [length]: texts.slice(0, texts.findLastIndex((one) => one.trim() !== "") + 1) };
}

/** The reading taken out; those after it move up. */
export const withoutReading = (notes: MeasureNotes, length: LengthName, at: number): MeasureNotes => ({
  ...notes,
  [length]: notes[length].filter((_, i) => i !== at),
});

/** What is known of a tool, one part of it written anew. */
export const withTool = (
  notes: MeasureNotes,
  tool: ToolName,
  part: keyof ToolNotes,
  text: string,
): MeasureNotes => ({ ...notes, [tool]: { ...notes[tool], [part]: text } });

/** The same readings under another unit. */
export function measureNotesIn(notes: MeasureNotes, unit: LengthUnit): MeasureNotes {
  if (notes.unit === unit) return notes;
  const text = (typed: string) => inUnit(typed, notes.unit, unit);
  const tool = ({ resolution, zero, zeroUncertainty }: ToolNotes): ToolNotes => ({
    resolution: text(resolution),
    zero: text(zero),
    zeroUncertainty: text(zeroUncertainty),
  });
  return {
    ...notes,
    unit,
    depth: notes.depth.map(text),
    insertion: notes.insertion.map(text),
    depthTool: tool(notes.depthTool),
    insertionTool: tool(notes.insertionTool),
  };
}
