/** What the texts typed at the bench say: the gap as far as it can be had, and beside each text what is wrong with it. */
import { type GapMeasurement, gapFromReadings } from "../../../bench/measure/gap.ts";
import { expandedUncertainty, lengthUncertainty } from "../../../bench/measure/lengthUncertainty.ts";
import { ReadingError } from "../../../bench/measure/readings.ts";
import type { MeasuringTool } from "../../../bench/measure/tool.ts";
import type { Uncertainty } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { readField, readFields, sentence, type Values } from "../../form/field.ts";
import {
  type LengthName,
  type MeasureNotes,
  READING,
  TOOL_FIELDS,
  type ToolName,
  type ToolNotes,
} from "../notes/measure.ts";

/** A place for one reading, filled or not. */
export interface ReadingRow {
  readonly text: string;
  /** Undefined where nothing is typed, or nothing that can be read. */
  readonly lengthMm: number | undefined;
  readonly problem: string;
  /** As the bench counts readings; null for a row that it passes over on its way to a later one. */
  readonly number: number | null;
}

export interface Measurement {
  readonly unit: LengthUnit;
  readonly depth: readonly ReadingRow[];
  readonly insertion: readonly ReadingRow[];
  /** What is wrong with each text about a tool; empty where nothing is. */
  readonly toolProblems: Readonly<Record<ToolName, Readonly<Partial<Record<keyof ToolNotes, string>>>>>;
  /** Texts that cannot be read, and so do not count. */
  readonly uncounted: number;
  /** Undefined until there is a reading of each length. */
  readonly measured: GapMeasurement | undefined;
  /** Why the readings give no gap although there are some of each; empty where they do. */
  readonly refused: string;
}

const FEWEST_ROWS = 3;
const MOST_ROWS = 30;
const LENGTHS = ["depth", "insertion"] as const;

export function readMeasurement(notes: MeasureNotes): Measurement {
  const depth = readRows(notes.depth, notes.unit);
  const insertion = readRows(notes.insertion, notes.unit);
  const depthTool = readFields(TOOL_FIELDS.depthTool, notes.depthTool, notes.unit);
  const insertionTool = readFields(
    TOOL_FIELDS.insertionTool,
    notes.sameTool ? NO_TOOL : notes.insertionTool,
    notes.unit,
  );
  const problems = [
    ...[...depth, ...insertion].map(({ problem }) => problem),
    ...[depthTool, insertionTool].flatMap((tool) => Object.values(tool.problems)),
  ];
  const read = {
    unit: notes.unit,
    depth,
    insertion,
    toolProblems: { depthTool: depthTool.problems, insertionTool: insertionTool.problems },
    uncounted: problems.filter(Boolean).length,
  };
  const [depthMm, insertionMm] = LENGTHS.map((length) =>
    read[length].flatMap(({ lengthMm }) => lengthMm ?? []),
  );
  if (depthMm.length === 0 || insertionMm.length === 0) return { ...read, measured: undefined, refused: "" };
  try {
    const measured = gapFromReadings({
      depthMm,
      insertionMm,
      depthTool: toolOf(depthTool.values),
      unit: notes.unit,
      ...(notes.sameTool ? { sameTool: true } : { insertionTool: toolOf(insertionTool.values) }),
    });
    return { ...read, measured, refused: "" };
  } catch (error) {
    if (!(error instanceof ReadingError)) throw error;
    return { ...read, measured: undefined, refused: sentence(error.message) };
  }
}

/** ±U of the gap at 95 %, mm; undefined where the readings cannot tell. */
export function expandedGapMm({ intervalMm }: GapMeasurement): number | undefined {
  return intervalMm && (intervalMm[1] - intervalMm[0]) / 2;
}

/** One of the two lengths: its mean with the zero taken off, and how well it is known. */
export interface MeasuredLength {
  readonly lengthMm: number;
  readonly uncertainty: Uncertainty | undefined;
  /** ±U at 95 %, mm. */
  readonly expandedMm: number | undefined;
}

export function measuredLength(measured: GapMeasurement, length: LengthName): MeasuredLength {
  const uncertainty = lengthUncertainty(measured.budget, length);
  return {
    lengthMm: length === "depth" ? measured.depthMm : measured.insertionMm,
    uncertainty,
    expandedMm: uncertainty && expandedUncertainty(uncertainty, measured.confidence),
  };
}

/** Which row holds the reading that stands apart; undefined where none does. */
export const outlyingRow = ({ measured, ...read }: Measurement, length: LengthName): number | undefined => {
  const outlier = measured?.outliers[length];
  return (
    outlier &&
    read[length].findIndex(({ number, lengthMm }) => lengthMm !== undefined && number === outlier.index + 1)
  );
};

/** At least three rows, and always one more than what is filled. */
function readRows(texts: readonly string[], unit: LengthUnit): readonly ReadingRow[] {
  const count = Math.min(MOST_ROWS, Math.max(FEWEST_ROWS, texts.length + 1));
  const rows = Array.from({ length: Math.max(count, texts.length) }, (_, i) => readRow(texts[i] ?? "", unit));
  const last = rows.findLastIndex(({ lengthMm }) => lengthMm !== undefined);
  let counted = 0;
  return rows.map((row, i) => {
    if (row.lengthMm !== undefined) counted++;
    const number = row.lengthMm !== undefined ? counted : i > last ? counted + i - last : null;
    return { ...row, number };
  });
}

function readRow(text: string, unit: LengthUnit): Omit<ReadingRow, "number"> {
  const { value: lengthMm, problem } = readField(READING, text, unit);
  return { text, lengthMm, problem };
}

const NO_TOOL: ToolNotes = { resolution: "", zero: "", zeroUncertainty: "" };

/** What is not given is left out. */
const toolOf = ({
  resolution,
  zero,
  zeroUncertainty,
}: Values<typeof TOOL_FIELDS.depthTool>): MeasuringTool => ({
  ...(resolution !== undefined && { resolutionMm: resolution }),
  ...(zero !== undefined && { zeroMm: zero }),
  ...(zeroUncertainty !== undefined && { zeroUncertaintyMm: zeroUncertainty }),
});
