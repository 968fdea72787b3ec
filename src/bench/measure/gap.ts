/**
 * The gap from measurements: how deep the receiver is, less how far the shank goes in, each less what its tool shows at
 * zero. Components of the uncertainty: repeat readings (type A, s/√n), the tool's step, the zero. The shoulder gap seen
 * from outside has no part in it.
 */
import type { LengthUnit } from "../../units/length.ts";
import { type BudgetRow, type NamedComponent, uncertaintyBudget } from "./budget.ts";
import { coverageFactor } from "./coverage.ts";
import { type GapAdvice, negativeGapAdvice } from "./gapAdvice.ts";
import { type OutlyingReading, outlyingReading } from "./outlier.ts";
import { ReadingError, type ReadingsSummary, summariseReadings } from "./readings.ts";
import { checkedTool, type MeasuringTool, resolutionUncertaintyMm } from "./tool.ts";

export interface GapReadings {
  /** Receiver's face to the start of the leadpipe, mm, one entry a reading, as the tool showed it. */
  readonly depthMm: readonly number[];
  /** How far the shank goes in, mm, one entry a reading, as the tool showed it. */
  readonly insertionMm: readonly number[];
  /** Smallest step of any tool that does not give its own, mm. Left out, it counts for nothing. */
  readonly resolutionMm?: number;
  readonly depthTool?: MeasuringTool;
  readonly insertionTool?: MeasuringTool;
  /** `depthTool` measured both lengths; there is no `insertionTool`. Its zero error then drops out of the difference. */
  readonly sameTool?: boolean;
  /** Of the messages. */
  readonly unit?: LengthUnit;
}

export interface GapMeasurement {
  readonly gapMm: number;
  /** The two lengths that the gap is the difference of, zero errors taken off, mm. */
  readonly depthMm: number;
  readonly insertionMm: number;
  /** The readings as typed. */
  readonly depth: ReadingsSummary;
  readonly insertion: ReadingsSummary;
  /** Readings that stand apart; none has been left out. */
  readonly outliers: {
    readonly depth: OutlyingReading | undefined;
    readonly insertion: OutlyingReading | undefined;
  };
  /** One row a component, in mm. */
  readonly budget: readonly BudgetRow[];
  /** Standard uncertainty of the gap, mm; undefined when the readings cannot tell. */
  readonly standardUncertaintyMm: number | undefined;
  /** Welch–Satterthwaite; Infinity when no component has finitely many. */
  readonly degreesOfFreedom: number | undefined;
  readonly coverageFactor: number | undefined;
  /** Where the gap lies with `confidence`, mm. It may reach below 0, where no gap can be. */
  readonly intervalMm: readonly [lowMm: number, highMm: number] | undefined;
  readonly confidence: number;
  /** The readings say that the shank is past the start of the leadpipe: some of them are wrong. */
  readonly isNegative: boolean;
  /** What the person should know or do; empty when all is well. */
  readonly advice: readonly GapAdvice[];
}

const confidence = 0.95;

/**
 * Gap = mean depth − mean insertion, with its standard uncertainty and 95 % interval.
 *
 * @throws {ReadingError} when a kind of reading is missing, or one is not a length of 0 mm or more.
 */
export function gapFromReadings(readings: GapReadings): GapMeasurement {
  const { sameTool = false, resolutionMm = 0, unit = "mm" } = readings;
  if (sameTool && readings.insertionTool !== undefined)
    throw new ReadingError("one tool was said to measure both lengths; give only the depth's tool");
  const toolOf = (tool: MeasuringTool | undefined, what: string) =>
    checkedTool({ resolutionMm, ...tool }, what, unit);
  const depthTool = toolOf(readings.depthTool, "depth");
  const insertionTool = sameTool ? depthTool : toolOf(readings.insertionTool, "insertion");
  const depth = summariseReadings(readings.depthMm, "depth");
  const insertion = summariseReadings(readings.insertionMm, "insertion");

  const depthMm = lessZero(depth, depthTool, "depth", unit);
  const insertionMm = lessZero(insertion, insertionTool, "insertion", unit);
  const gapMm = sameTool ? depth.meanMm - insertion.meanMm : depthMm - insertionMm;
  const isNegative = gapMm < 0;
  const { rows, standardUncertainty, degreesOfFreedom } = uncertaintyBudget([
    repeats(depth, "depth"),
    repeats(insertion, "insertion"),
    ...toolComponents(depthTool, "depth", sameTool),
    ...toolComponents(insertionTool, "insertion", sameTool),
  ]);
  const factor = degreesOfFreedom === undefined ? undefined : coverageFactor(degreesOfFreedom, confidence);
  const intervalMm =
    standardUncertainty === undefined || factor === undefined
      ? undefined
      : ([gapMm - factor * standardUncertainty, gapMm + factor * standardUncertainty] as const);
  const outliers = {
    depth: outlyingReading(readings.depthMm, depthTool.resolutionMm),
    insertion: outlyingReading(readings.insertionMm, insertionTool.resolutionMm),
  };

  const advice: GapAdvice[] = [];
  if (isNegative)
    advice.push(...negativeGapAdvice(gapMm, intervalMm?.[1], readings.depthMm, readings.insertionMm));
  else if (intervalMm && intervalMm[0] < 0) advice.push({ kind: "maybe-contact" });
  if (intervalMm === undefined) {
    const repeat = (["depth", "insertion"] as const).filter((length) => readings[`${length}Mm`].length === 1);
    advice.push({ kind: "unknown-uncertainty", repeat });
  }
  for (const of of ["depth", "insertion"] as const) {
    const reading = outliers[of];
    if (reading) advice.push({ kind: "outlier", of, reading });
  }
  if (sameTool && (depthTool.zeroMm !== 0 || depthTool.zeroUncertaintyMm > 0))
    advice.push({ kind: "same-tool" });
  return {
    gapMm,
    depthMm,
    insertionMm,
    depth,
    insertion,
    outliers,
    budget: rows,
    standardUncertaintyMm: standardUncertainty,
    degreesOfFreedom,
    coverageFactor: factor,
    intervalMm,
    confidence,
    isNegative,
    advice,
  };
}

function lessZero(
  summary: ReadingsSummary,
  tool: Required<MeasuringTool>,
  what: string,
  unit: LengthUnit,
): number {
  const lengthMm = summary.meanMm - tool.zeroMm;
  if (lengthMm >= 0) return lengthMm;
  throw new ReadingError(
    `the zero error of the ${what} is larger than its readings; give what the tool shows at zero, such as ${unit === "mm" ? "0.02 mm" : "0.001 in"}`,
  );
}

const repeats = ({ count, standardUncertaintyMm }: ReadingsSummary, what: string): NamedComponent => ({
  component: `${what}-repeats`,
  standardUncertainty: standardUncertaintyMm,
  degreesOfFreedom: standardUncertaintyMm === undefined ? undefined : count - 1,
});

/** Repeats do not average the step or the zero away, so each counts once for each length. */
function toolComponents(
  { resolutionMm, zeroUncertaintyMm }: Required<MeasuringTool>,
  what: string,
  zeroDropsOut: boolean,
): NamedComponent[] {
  const exact = (part: string, standardUncertainty: number): NamedComponent[] =>
    standardUncertainty > 0
      ? [
          {
            component: `${what}-${part}`,
            standardUncertainty,
            degreesOfFreedom: Number.POSITIVE_INFINITY,
          },
        ]
      : [];
  return [
    ...exact("step", resolutionUncertaintyMm(resolutionMm)),
    ...(zeroDropsOut ? [] : exact("zero", zeroUncertaintyMm)),
  ];
}
