/** What is asked of lips and breath: the notes' texts as numbers. */
import type { Setup } from "../../setup/setup.ts";
import { DEFAULT_TWO_WAY_LIPS, type Lips } from "../../study/feel/lipParameters.ts";
import type { Pressure } from "../../study/feel/slots.ts";
import { readField, readFields } from "../form/field.ts";
import { FLOW, FLOW_LIMITS, LIP_FIELDS, PRESSURE } from "../state/notes/play.ts";
import type { Document } from "../state/state.ts";

export interface FeelQuestion {
  readonly setup: Setup;
  readonly gapMm: number;
  readonly referenceGapMm: number;
  /** null where a text cannot be read. */
  readonly lips: Lips | null;
  readonly pressure: Pressure | null;
  /** Of the steady stream. */
  readonly litresPerMinute: number;
  /** What the peaks are blown with, L/min; 0: still air. */
  readonly breath: number;
}

export function feelQuestion({
  setup,
  gapMm,
  referenceGapMm,
  breathLitresPerMinute: breath = 0,
  notes,
}: Document): FeelQuestion {
  const { lipModel, lips: typed, pressure, flow, unit } = notes.play;
  const oneMass = readFields(LIP_FIELDS, typed, unit);
  const read = Object.keys(oneMass.problems).length === 0 ? (oneMass.values as unknown as Lips) : null;
  const timesThreshold = readField(PRESSURE, pressure, unit).value;
  return {
    setup,
    gapMm,
    referenceGapMm,
    lips: lipModel === "two-way" ? DEFAULT_TWO_WAY_LIPS : read,
    pressure: timesThreshold === undefined ? null : { timesThreshold },
    litresPerMinute: readField(FLOW, flow, unit).value ?? FLOW_LIMITS.usual,
    breath,
  };
}
