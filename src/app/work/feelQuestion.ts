/** What is asked of lips and breath: the notes' texts as numbers. */
import type { Setup } from "../../setup/setup.ts";
import type { Lips } from "../../study/feel/lipParameters.ts";
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
  readonly litresPerMinute: number;
}

export function feelQuestion({ setup, gapMm, referenceGapMm, notes }: Document): FeelQuestion {
  const { lips: typed, pressure, flow, unit } = notes.play;
  const lips = readFields(LIP_FIELDS, typed, unit);
  const timesThreshold = readField(PRESSURE, pressure, unit).value;
  return {
    setup,
    gapMm,
    referenceGapMm,
    lips: Object.keys(lips.problems).length === 0 ? (lips.values as unknown as Lips) : null,
    pressure: timesThreshold === undefined ? null : { timesThreshold },
    litresPerMinute: readField(FLOW, flow, unit).value ?? FLOW_LIMITS.usual,
  };
}
