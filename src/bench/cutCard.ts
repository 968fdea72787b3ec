/** The card that lies beside the lathe: target, limits, stages, places for readings, cautions. Data only; others print it. */
import { formatLength } from "../units/formatLength.ts";
import type { CutPlan } from "./cut.ts";
import type { CutWay, CutWayName } from "./cutWay.ts";

export interface CutCardStage {
  readonly number: number;
  readonly doWhat: string;
  /** The gap to find afterwards, mm. */
  readonly expectedGapMm: number;
  /** Empty, to be filled in by hand: repeat readings after the stage. */
  readonly depthReadings: readonly undefined[];
  readonly insertionReadings: readonly undefined[];
}

export interface CutCard {
  readonly title: string;
  readonly way: CutWayName;
  readonly gapMm: number;
  readonly targetMm: number;
  readonly limitsMm: readonly [lowMm: number, highMm: number];
  readonly expandedUncertaintyMm: number | undefined;
  readonly stages: readonly CutCardStage[];
  readonly needsConfirmation: boolean;
  readonly confirmation: string | undefined;
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

const blankReadings: readonly undefined[] = Object.freeze(Array(3).fill(undefined));

/** Undefined when the plan does not hold this way, or it is not possible. */
export function cutCard(plan: CutPlan, name: CutWayName): CutCard | undefined {
  const way = plan.ways.find((one) => one.name === name);
  if (way === undefined || !way.isPossible || plan.outcome !== "plan") return undefined;
  return {
    title: `${way.title}: ${formatLength(plan.gapMm!, "mm")} to ${formatLength(plan.targetMm!, "mm")}`,
    way: name,
    gapMm: plan.gapMm!,
    targetMm: plan.targetMm!,
    limitsMm: plan.limitsMm!,
    expandedUncertaintyMm: plan.expandedUncertaintyMm,
    stages: stagesOf(way, plan.targetMm!),
    needsConfirmation: way.needsConfirmation,
    confirmation: way.confirmation,
    notes: [...plan.words, ...way.words],
    cautions: [...plan.cautions, ...way.cautions],
  };
}

function stagesOf(way: CutWay, targetMm: number): CutCardStage[] {
  const blank = { depthReadings: blankReadings, insertionReadings: blankReadings };
  if (way.stages.length === 0)
    return [{ number: 1, doWhat: way.words[0], expectedGapMm: targetMm, ...blank }];
  return way.stages.map(({ size, check, gapAfterMm }, i) => ({
    number: i + 1,
    doWhat: `${stageSize(size, way.unit)}${check ? `, to ${check.what} ${formatLength(check.afterMm, "mm", 3)}` : ""}; then measure again`,
    expectedGapMm: gapAfterMm,
    ...blank,
  }));
}

/** `0.015 mm off the diameter (0.0006 in)`, `1.2 marks towards less gap`. */
export const stageSize = (size: number, unit: string): string =>
  unit.startsWith("mm ")
    ? `${size.toFixed(3)} ${unit} (${formatLength(size, "in", 4)})`
    : `${size.toFixed(1)} ${unit}`;
