/** The card that lies beside the lathe: target, limits, stages, places for readings, cautions. Others print it. */
import { usualCautions } from "../../bench/cut/cautions.ts";
import type { CutPlan } from "../../bench/cut/cut.ts";
import type { CutSideEffect, CutWay, CutWayName } from "../../bench/cut/cutWay.ts";
import { type Contradiction, isContradiction } from "../../bench/fit/contradiction.ts";
import { contradictionWords } from "./contradiction.ts";
import { CUT_DIMENSION, checkLength, planNotes, stageSize, WAY_TITLE, wayWords } from "./cut.ts";
import { CONFIRMATION, cautionWords } from "./cutCautions.ts";
import { lengthInWords } from "./inWords.ts";

export interface CutCardStage {
  readonly number: number;
  /** The whole instruction, a sentence. */
  readonly doWhat: string;
  /** The same in its parts: how much, and what can be checked afterwards; undefined for what is done at one go. */
  readonly size: string | undefined;
  readonly check: CutSideEffect | undefined;
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
  /** What contradicts the gap: the sizes rest on dimensions of which one is wrong. */
  readonly doubts: readonly string[];
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
}

const distinct = <T>(all: readonly T[]): readonly T[] => [...new Set(all)];

const blankReadings: readonly undefined[] = Object.freeze(Array(3).fill(undefined));

/**
 * Undefined when the plan does not hold this way, it is not possible, or it is held back.
 * @param doubts what contradicts the gap; the plan's own where nothing else is known
 */
export function cutCard(
  plan: CutPlan,
  name: CutWayName,
  doubts: readonly Contradiction[] = plan.findings.filter(isContradiction),
): CutCard | undefined {
  const way = plan.ways.find((one) => one.name === name);
  if (way === undefined || !way.isPossible || way.isHeldBack || plan.outcome !== "plan") return undefined;
  const inWords = lengthInWords(plan.unit);
  return {
    title: `${WAY_TITLE[name]}: ${inWords(plan.gapMm!)} to ${inWords(plan.targetMm!)}`,
    way: name,
    gapMm: plan.gapMm!,
    targetMm: plan.targetMm!,
    limitsMm: plan.limitsMm!,
    expandedUncertaintyMm: plan.expandedUncertaintyMm,
    stages: stagesOf(way, plan),
    needsConfirmation: !way.isReversible,
    confirmation: way.isReversible ? undefined : CONFIRMATION,
    doubts: doubts.map((doubt) => contradictionWords(doubt, plan.unit)),
    notes: [...planNotes(plan), ...wayWords(way, plan.unit)],
    cautions: cautionWords(distinct([...plan.cautions, ...way.cautions, ...usualCautions]), plan),
  };
}

function stagesOf(way: CutWay, { targetMm, unit }: CutPlan): CutCardStage[] {
  const blank = { depthReadings: blankReadings, insertionReadings: blankReadings };
  if (way.stages.length === 0)
    return [
      {
        number: 1,
        doWhat: wayWords(way, unit)[0],
        size: undefined,
        check: undefined,
        expectedGapMm: targetMm!,
        ...blank,
      },
    ];
  return way.stages.map(({ size, check, gapAfterMm }, i) => ({
    number: i + 1,
    doWhat: `${stageSize(size, way.unit, unit)}${check ? `, to ${CUT_DIMENSION[check.what]} ${checkLength(check, unit)}` : ""}; then measure again`,
    size: stageSize(size, way.unit, unit),
    check,
    expectedGapMm: gapAfterMm,
    ...blank,
  }));
}
