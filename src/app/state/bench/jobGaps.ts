/**
 * The gaps of a job, kept apart: what was measured, where the slider stands, what is planned, what a blind trial found. One
 * is never told for another.
 */
import { coverageFactor } from "../../../bench/measure/coverage.ts";
import { gapUncertainty } from "../../../bench/measure/gapUncertainty.ts";
import { gapMm } from "../../../setup/setup.ts";
import type { PresentGap } from "../../../study/report/sheetRecord.ts";
import type { TrialFinding } from "../../../trial/finding.ts";
import { cutForm } from "../notes/cut.ts";
import { measureForm } from "../notes/measure.ts";
import { reportedTrial } from "../notes/notes.ts";
import type { Document, Unit } from "../state.ts";
import { jobDoubts } from "./doubts.ts";
import { expandedGapMm, readMeasurement } from "./measurement.ts";
import { type Order, orderOf } from "./order.ts";
import { findingOf } from "./trialFindings.ts";

export interface JobGaps {
  readonly measured: PresentGap;
  /** Where the slider stands: a view, no fact. */
  readonly whatIfMm: number;
  readonly comparedWithMm: number;
  /** What Cut is set to reach, and its plan; null where nothing that can be done is planned. */
  readonly plannedMm: number | null;
  readonly order: Order;
  /** What the blind trial that is reported found; its preferred gap is null where it was not decided. */
  readonly trial: TrialFinding | null;
}

export function jobGaps({ setup, gapMm: whatIfMm, referenceGapMm, notes }: Document, unit: Unit): JobGaps {
  const reported = reportedTrial(notes);
  const order = orderOf(setup, cutForm.shownIn(notes.cut, unit), jobDoubts({ setup, notes }, unit));
  return {
    measured: measuredGap({ setup, notes }, unit),
    whatIfMm,
    comparedWithMm: referenceGapMm,
    plannedMm: order.plan?.outcome === "plan" ? (order.plan.targetMm ?? null) : null,
    order,
    trial: reported && findingOf(reported),
  };
}

/** What was read at the bench comes before what the setup says. */
export function measuredGap({ setup, notes }: Pick<Document, "setup" | "notes">, unit: Unit): PresentGap {
  const { measured } = readMeasurement(measureForm.shownIn(notes.measure, unit));
  if (!measured)
    return {
      gapMm: gapMm(setup),
      expandedMm: gapUncertainty(setup, coverageFactor).expandedMm,
      readings: null,
    };
  return {
    gapMm: measured.gapMm,
    expandedMm: expandedGapMm(measured),
    readings: { depth: measured.depth.count, insertion: measured.insertion.count },
  };
}
