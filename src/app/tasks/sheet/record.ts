/** The record that a sheet is printed from: the document, and what the model says of it so far. */
import { version } from "../../../../package.json";
import { coverageFactor } from "../../../bench/measure/coverage.ts";
import { gapUncertainty } from "../../../bench/measure/gapUncertainty.ts";
import { gapMm } from "../../../setup/setup.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import { type PresentGap, SAME_MM, type SheetRecord } from "../../../study/report/sheetRecord.ts";
import type { TrialFinding } from "../../../trial/finding.ts";
import { expandedGapMm, readMeasurement } from "../../state/bench/measurement.ts";
import { chosenWay, orderOf } from "../../state/bench/order.ts";
import { cutForm } from "../../state/notes/cut.ts";
import { measureForm } from "../../state/notes/measure.ts";
import type { Document, State } from "../../state/state.ts";
import type { FeelState } from "../../work/feelAsks.ts";
import type { Results } from "../../work/modelResults.ts";
import type { Answer } from "../../work/work.ts";

/** What is to be known before the sheet can be printed, and how it stands. */
export interface Awaited {
  readonly what: string;
  /** 0 to 1; null before it has begun. */
  readonly progress: number | null;
  readonly isStopped: boolean;
}

export interface SheetData {
  readonly record: SheetRecord;
  /** For the charts against gap; null while it is not there. */
  readonly sweep: GapSweep | null;
  readonly awaited: readonly Awaited[];
  /** The gap that Cut plans, where that is not the one the sheet recommends. */
  readonly plannedMm: number | null;
}

/** @param trial what the document's trial found, which takes too long to be worked out at every key */
export function sheetData(
  { document, view }: State,
  results: Results,
  feel: FeelState,
  trial: TrialFinding | null,
): SheetData {
  const { setup, gapMm: recommendedGapMm, referenceGapMm, notes } = document;
  const { unit } = view;
  const cut = cutForm.shownIn(notes.cut, unit);
  const order = orderOf(setup, cut);
  const isPlanned = order.plan?.outcome === "plan";
  const plannedMm = isPlanned ? order.plan!.targetMm! : null;
  const isToThis = plannedMm !== null && Math.abs(plannedMm - recommendedGapMm) < SAME_MM;
  const awaited = [
    ...waitFor("the curves", results.explored, results.explored.value?.uncertainty === null),
    ...waitFor("the charts against gap", results.sweep),
    ...(view.retune === null ? [] : waitFor("what remains after retuning", results.retuned)),
    ...waitFor("lips and stream", feel.felt),
    ...waitFor("lips and stream without a gap", feel.closed),
  ];
  return {
    record: {
      unit,
      setup,
      version,
      present: presentGap(document, unit),
      recommendedGapMm,
      referenceGapMm,
      isWorking: awaited.some(({ isStopped }) => !isStopped),
      explored: fresh(results.explored),
      retuned: fresh(results.retuned),
      felt: fresh(feel.felt),
      closed: fresh(feel.closed),
      plan: isToThis ? order.plan : null,
      way: (isToThis && chosenWay(order, cut)) || null,
      trial,
    },
    sweep: fresh(results.sweep),
    awaited,
    plannedMm: isToThis ? null : plannedMm,
  };
}

/** What was read at the bench comes before what the setup says. */
function presentGap({ setup, notes }: Document, unit: State["view"]["unit"]): PresentGap {
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

/** An answer about another document is none. */
const fresh = <T>({ value, stale }: Answer<T>): T | null => (stale ? null : value);

function waitFor(
  what: string,
  { value, stale, refused, progress, stopped }: Answer<unknown>,
  isIncomplete = false,
): readonly Awaited[] {
  const isThere = value !== null && !stale && progress === null && !isIncomplete;
  return isThere || refused !== null ? [] : [{ what, progress, isStopped: stopped }];
}
