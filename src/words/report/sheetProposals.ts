/**
 * What a sheet says until a technician says it better: a template for each paragraph, chosen by what the record holds. Its
 * numbers are figures by name, so that who alters the words keeps them.
 */

import type { CutCaution } from "../../bench/cut/cautions.ts";
import type { CutWayName } from "../../bench/cut/cutWay.ts";
import { isSameGap } from "../../setup/setup.ts";
import type { TrialOnGap } from "../../study/report/recommendation.ts";
import type { CLASSROOM_SENTENCES, ClassroomChart, Paragraph } from "../../study/report/sheetParagraphs.ts";
import { type Claim, claimEvidence, type SheetRecord } from "../../study/report/sheetRecord.ts";
import { sheetResonances } from "../../study/report/sheetResonances.ts";
import type { TrialFinding } from "../../trial/finding.ts";
import { CAUTION, CONFIRMATION } from "../bench/cutCautions.ts";
import { provenanceLine } from "../provenance.ts";
import { sheetStandIn, TOLD } from "./sheetFigures.ts";

/** Every paragraph as it is proposed: a template over the sheet's figures. */
export function proposals(record: SheetRecord, chart: ClassroomChart): Readonly<Record<Paragraph, string>> {
  return {
    measured: measured(record),
    answer: answer(record),
    origins: origins(record),
    found: found(record),
    slots: `${verdict(record, "slots")}${record.listened.length > 0 ? " This player, measured: {listened}" : ""}`,
    resistance: verdict(record, "resistance"),
    noGap: verdict(record, "noGap"),
    trial: tried(record),
    recommendation: recommendation(record),
    reverse: reverse(record),
    cautions: cautions(record),
    method: METHOD,
    ...classroom(record, chart),
  };
}

const SHOULDER = "The shoulder gap seen from outside is another length: nothing here rests on it.";

function measured({ present: { expandedMm, readings } }: SheetRecord): string {
  const known =
    expandedMm === undefined
      ? "How well it is known has not been measured."
      : "It is known to ±{gapUncertainty} (95 %).";
  const how = readings
    ? "Receiver depth less insertion, {depthReadings} and {insertionReadings} readings: {gap}."
    : "Receiver depth {depth} less insertion {insertion} by the setup file: {gap}. No readings are noted.";
  return `${how} ${known}`;
}

const origins = ({ setup }: SheetRecord): string => `${provenanceLine(setup)} ${SHOULDER}`;

/** What the model foresees, in the plain sentences of its three verdicts. */
function answer(record: SheetRecord): string {
  if (isUnchanged(record)) return UNCHANGED;
  const standIn = sheetStandIn(record) === "" ? "" : ` ${LIKE_IT}`;
  return (
    `By the model, from {reference} to {told} (${TOLD[record.told.kind]}): {pitchFound} {slottingFound} {backpressureFound}${standIn} ` +
    "No calculation can choose a gap for a player."
  );
}

const LIKE_IT =
  "Not every dimension of the instrument was measured (see the back): this is told of instruments like it.";
const UNCHANGED = "No other gap is planned, preferred or looked at: there is no change to model.";

const isUnchanged = ({ told, referenceGapMm }: SheetRecord): boolean => isSameGap(told.gapMm, referenceGapMm);

function found(record: SheetRecord): string {
  if (isUnchanged(record)) return UNCHANGED;
  const uncertainty = record.explored?.uncertainty;
  const known =
    uncertainty && uncertainty.sources.length === 0
      ? "How well the dimensions are known is not stated."
      : "The shifts are known to {shiftUncertainty}, the heights to {heightUncertainty}.";
  const isRetuned = sheetResonances(record)?.some(({ retunedCents }) => retunedCents !== null);
  const remains =
    isRetuned || record.isWorking
      ? " With resonance {tunedBack} tuned back, {retunedRange} remain."
      : record.retuned
        ? " What remains after retuning is not worked out for a gap as wide."
        : "";
  return (
    `From {reference} to {told} (${TOLD[record.told.kind]}) the resonances shift by {shiftRange}, their peaks change by {heightRange}.` +
    `${remains} Just noticeable: {feltCents} or {feltDecibels}. ${known}`
  );
}

/** Where lips and stream say one thing and the peaks another, both are told. */
function verdict(record: SheetRecord, claim: Claim): string {
  const evidence = claimEvidence(record, claim);
  if (evidence?.main?.finding === "same-gap") return `Nothing to compare: {${claim}Finding}.`;
  const disagrees =
    evidence?.main && evidence.peaks && evidence.peaks.finding !== evidence.main.finding
      ? ` By the peaks alone: {${claim}Peaks}.`
      : "";
  return `The model: {${claim}Finding}. {${claim}Numbers}${disagrees}`;
}

const OPENED: Readonly<Record<TrialFinding["opened"], string>> = {
  complete: "",
  early: " It was opened before all was rated.",
  again: " The codes had been seen before it was opened, and ratings can have been changed since.",
};

function tried({ trial, measuredTrial }: SheetRecord): string {
  if (measuredTrial?.decidedBy) return `{trialMeasured}${trial ? " As rated besides: {trial}" : ""}`;
  const measured = measuredTrial ? " Measured at its turns: {trialMeasured}" : "";
  if (!trial)
    return measuredTrial ? "{trialMeasured}" : "No blind trial was played, or its result is not opened yet.";
  const early = OPENED[trial.opened];
  return trial.isDecided
    ? `Played {trialRepeats} times each: {trial} Guessing would do as well in {trialChance} of trials.${early}${measured}`
    : `Played {trialRepeats} times each: {trial} This was not decided: guessing does as well in {trialChance} of trials.${early}${measured}`;
}

function recommendation(record: SheetRecord): string {
  const { way, trial, recommendation: advice } = record;
  if (advice.kind === "none") return `${NO_CHANGE[advice.because]} ${CHECK_FIRST}`;
  const how = way
    ? way.size === undefined
      ? "The way: {way}."
      : "The way: {way}, {waySize} at most; done when the gap is from {limits}."
    : "How that is to be done is not planned yet.";
  const undecided =
    trial && !trial.isDecided && way && !way.isReversible
      ? " Nothing in the trial asks for work that cannot be undone."
      : "";
  return `Bring the gap from {gap} to {recommended} ({recommendedOther}): {change}. ${RESTS_ON[advice.kind][advice.trial]} ${how}${undecided}`;
}

/** What a recommendation rests on. */
const RESTS_ON: Readonly<Record<"planned" | "preferred", Readonly<Record<TrialOnGap, string>>>> = {
  planned: {
    "not-played": "That is the gap planned; no blind trial was played.",
    measured: "That is the gap planned; the blind trial was decided by what was measured, not by preference.",
    undecided: "That is the gap planned; the blind trial did not decide for it or against it.",
    agrees: "That is the gap planned; the player, blind, preferred about {trialPreferred}, which agrees.",
    "prefers-another":
      "That is the gap planned; the player, blind, preferred about {trialPreferred}: another gap than this.",
  },
  preferred: {
    // a preferred gap comes from a trial that decided
    "not-played": "",
    measured: "",
    undecided: "",
    "prefers-another": "",
    agrees: "That is the gap the player preferred, blind.",
  },
};

type NoChange = Extract<SheetRecord["recommendation"], { readonly kind: "none" }>["because"];
const NO_CHANGE: Readonly<Record<NoChange, string>> = {
  "nothing-planned":
    "No change recommended: the gap is {gap} ({gapOther}); no other gap is planned, and no blind trial has found one.",
  "as-it-is": "No change recommended: the gap is {gap} ({gapOther}), as it should be.",
  "no-difference":
    "No change recommended: the player, blind, could not tell the gaps apart, and nothing asks for work on the gap of {gap} ({gapOther}).",
};
/** Common practice, no source. */
const CHECK_FIRST =
  "If something feels wrong, look first for a worn or loose seat, leaks, dirt in the leadpipe, and parts out of line.";

const UNDOING: Readonly<Record<CutWayName, string>> = {
  stop: "Move the stop back by {waySize}.",
  exchange: "Keep the old shank: fitted again, it brings the old gap back.",
  sleeve: "Take the layer off again.",
  "turn-down":
    "Metal that is off stays off: a gap that turns out too small can be widened only by a sleeve or another shank.",
  shorten:
    "Metal that is off stays off: a gap that turns out too wide can be narrowed only by turning the taper down or by another shank.",
};

function reverse(record: SheetRecord): string {
  if (record.recommendation.kind === "none") return "Nothing is changed, so there is nothing to reverse.";
  const { way } = record;
  if (!way) return "That depends on the way, which is not planned yet.";
  const { name, isReversible } = way;
  return isReversible ? `This can be undone. ${UNDOING[name]}` : `${CONFIRMATION} ${UNDOING[name]}`;
}

/** On the card that lies beside it; nothing for who is handed the report. */
const FOR_THE_LATHE: ReadonlySet<CutCaution> = new Set(["holding", "abrasive"]);

function cautions(record: SheetRecord): string {
  const { plan, way } = record;
  if (record.recommendation.kind === "none")
    return "Seat the mouthpiece with the same light twist each time, and measure again after some weeks of playing: seats wear in.";
  const told = [...(plan?.cautions ?? []), ...(way ? way.cautions : (["local-rules"] as const))];
  const lines = told.flatMap((caution) =>
    caution === "seat-wear" || FOR_THE_LATHE.has(caution) ? [] : [CAUTION[caution]],
  );
  return [...lines, ...(plan?.gapPerDiameter === undefined ? [] : ["{seatWear}"])].join("\n");
}

const METHOD =
  "A line of cones from rim to bell with losses at the walls, the gap joined by {junction}, the bell by {bell}, {radiation}; " +
  "air: {air}. Uncertainties by first order, 95 %. Lips are two simple models, the stream is steady; the player is not modelled. " +
  "Rules of thumb: common practice, no source.";

/** Each a sentence or two that a whole class can read from the wall. */
function classroom(
  record: SheetRecord,
  chart: ClassroomChart,
): Pick<Record<Paragraph, string>, (typeof CLASSROOM_SENTENCES)[number]> {
  const changes: Readonly<Record<ClassroomChart, string>> = {
    height: "The heights of the peaks change by {heightRange}; just noticeable: {feltDecibels}.",
    spacing:
      "Neighbouring resonances move by {spacingRange} against each other; just noticeable: {feltCents}.",
    curves:
      "The peaks shift by {shiftRange} and change in height by {heightRange}; just noticeable: {feltCents} or {feltDecibels}.",
  };
  return {
    first:
      "Between the mouthpiece's end and the start of the leadpipe a ring of air is left, the gap: here it goes from {reference} to {told} (what if).",
    second: isUnchanged(record) ? "Both are the same gap: choose another to see a change." : changes[chart],
    third:
      "Players say a wider gap slots notes more firmly; the model’s answer for this instrument: {slotsFinding}.",
  };
}
