/** The record that a sheet is printed from: the document, and what the model says of it so far. */
import { version } from "../../../../package.json";
import { nearestGapMm } from "../../../setup/gapLimits.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import { isCompared } from "../../../study/listened/measuredGaps.ts";
import { recommendation } from "../../../study/report/recommendation.ts";
import {
  isTooSmallToNotice,
  type SheetRecord,
  type ToldGap,
  toldGap,
} from "../../../study/report/sheetRecord.ts";
import { besideModel } from "../../../study/swept/besideModel.ts";
import type { JobGaps } from "../../state/bench/jobGaps.ts";
import { listenedIn } from "../../state/bench/listened.ts";
import { measuredAtTurns } from "../../state/bench/measuredAtTurns.ts";
import { chosenWay } from "../../state/bench/order.ts";
import { sweptIn } from "../../state/bench/swept.ts";
import { cutForm } from "../../state/notes/cut.ts";
import { reportedTrial } from "../../state/notes/notes.ts";
import type { Document, State } from "../../state/state.ts";
import type { GapPair } from "../../work/comparedGaps.ts";
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
}

/** The two gaps that a form of the sheet tells of: a class's those that are looked at, a technician's from the one measured. */
export function sheetGaps(
  { setup, notes }: Pick<Document, "setup" | "notes">,
  { measured, whatIfMm, comparedWithMm, plannedMm, trial }: JobGaps,
): { readonly told: ToldGap; readonly referenceGapMm: number } {
  if (notes.sheet.form === "classroom")
    return { told: { kind: "what-if", gapMm: whatIfMm }, referenceGapMm: comparedWithMm };
  const { kind, gapMm } = toldGap(plannedMm, trial, whatIfMm);
  return {
    told: { kind, gapMm: nearestGapMm(setup, gapMm) },
    referenceGapMm: nearestGapMm(setup, measured.gapMm),
  };
}

export function sheetData(
  { document, view }: Pick<State, "document" | "view">,
  gaps: JobGaps,
  results: Omit<Results, "breath">,
  feel: FeelState,
): SheetData {
  const { setup, notes } = document;
  const { unit } = view;
  const { measured, plannedMm, order, trial } = gaps;
  const cut = cutForm.shownIn(notes.cut, unit);
  const { told, referenceGapMm } = sheetGaps(document, gaps);
  /** An answer about another document or other gaps is none. */
  const isOfThese = (answer: Answer<object>): boolean => {
    const { value, stale, of } = answer;
    const { gapMm = told.gapMm, referenceGapMm: from = referenceGapMm } = (of ?? {}) as Partial<GapPair>;
    // from the gap compared with to none: whatever gap was looked at when it was asked
    const isToTold = answer === feel.closed || gapMm === told.gapMm;
    return value !== null && !stale && isToTold && from === referenceGapMm;
  };
  const fresh = <T extends object>(answer: Answer<T>): T | null => (isOfThese(answer) ? answer.value : null);
  const waitFor = (what: string, answer: Answer<object>, isIncomplete = false): readonly Awaited[] => {
    const { refused, progress, stopped } = answer;
    const isThere = isOfThese(answer) && progress === null && !isIncomplete;
    return isThere || refused !== null ? [] : [{ what, progress, isStopped: stopped }];
  };
  const awaited = [
    ...waitFor("the curves", results.explored, results.explored.value?.uncertainty === null),
    ...waitFor("the charts against gap", results.sweep),
    ...(view.retune === null ? [] : waitFor("what remains after retuning", results.retuned)),
    ...waitFor("lips and stream", feel.felt),
    ...waitFor("lips and stream without a gap", feel.closed),
  ];
  const reported = reportedTrial(notes);
  const measuredTrial = reported && measuredAtTurns(reported, notes, instrumentOf(setup));
  const model = {
    explored: fresh(results.explored),
    retuned: fresh(results.retuned),
    felt: fresh(feel.felt),
    closed: fresh(feel.closed),
  };
  const swept = sweptIn(notes);
  return {
    record: {
      unit,
      setup,
      version,
      present: measured,
      told,
      referenceGapMm,
      recommendation: recommendation({
        measuredGapMm: measured.gapMm,
        plannedGapMm: plannedMm,
        trial,
        isMeasured: measuredTrial?.decidedBy != null,
        isTooSmall: isTooSmallToNotice(model),
      }),
      doubts: order.doubts,
      isWorking: awaited.some(({ isStopped }) => !isStopped),
      ...model,
      plan: plannedMm === null ? null : order.plan,
      way: (plannedMm !== null && chosenWay(order, cut)) || null,
      trial,
      measuredTrial,
      listened: listenedIn(notes, instrumentOf(setup)).filter(isCompared),
      swept: swept && { change: swept, beside: besideModel(swept, model.explored) },
    },
    sweep: fresh(results.sweep),
    awaited,
  };
}
