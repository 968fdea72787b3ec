/**
 * The numbers a printed sheet may speak of, by name. They come from the record alone: the words round them are the
 * technician's, who writes `{gap}` and finds the measured gap there.
 */

import { withProvenance } from "../../setup/dimension/provenance.ts";
import { instrumentOf } from "../../setup/instrumentOf.ts";
import type { Setup } from "../../setup/setup.ts";
import type { SheetRecord, ToldGap } from "../../study/report/sheetRecord.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { roundedLength } from "../../units/uncertainLength.ts";
import { stageSize, WAY_TITLE } from "../bench/cut.ts";
import { seatWearCaution } from "../bench/cutCautions.ts";
import { listenedWords } from "../listen/measuredWords.ts";
import { standInWords } from "../provenance.ts";
import { sweptHeadline } from "../swept/sweptWords.ts";
import { measuredOutcomeWords } from "../trial/measuredTrial.ts";
import { trialSentence } from "../trial/sentence.ts";
import { type Figure, type Figures, figure } from "./sheetFigure.ts";
import { modelFigures } from "./sheetModelFigures.ts";

const BELLS: Readonly<Record<Setup["model"]["bell"], string>> = {
  automatic: "higher modes in the flare, where they can be worked out",
  multimodal: "higher modes in the flare",
  plane: "plane waves",
};

/** All figures of a sheet by name; one that is not known says why in words. */
export function sheetFigures(record: SheetRecord): Figures {
  const all = [
    ...gapFigures(record),
    ...modelFigures(record),
    ...workFigures(record),
    ...trialFigures(record),
    listenedFigure(record),
    sweptFigure(record),
    ...methodFigures(record),
  ];
  return new Map(all.map((figure) => [figure.name, figure]));
}

/** Which of a job's gaps a report tells changes to. */
export const TOLD: Readonly<Record<ToldGap["kind"], string>> = {
  planned: "planned",
  preferred: "preferred, blind",
  "what-if": "what if",
};

/** How the gap is known, and what a stand-in lends to the rest; empty where nothing is assumed. */
export function sheetStandIn({ setup, present: { readings, expandedMm }, unit }: SheetRecord): string {
  const known = readings
    ? withProvenance(setup, "measured", "receiver.depth", "mouthpiece.insertion")
    : setup;
  return standInWords(known, expandedMm ?? null, unit);
}

const otherUnit = (unit: LengthUnit): LengthUnit => (unit === "mm" ? "in" : "mm");

function gapFigures({
  unit,
  setup,
  present,
  told,
  recommendation,
  referenceGapMm,
}: SheetRecord): readonly Figure[] {
  const { gapMm, expandedMm, readings } = present;
  /** The length in the unit shown and, under the name with Other behind it, in the other. */
  const both = (name: string, what: string, mm: number | undefined, text: (unit: LengthUnit) => string) =>
    [unit, otherUnit(unit)].map((one, i) =>
      figure("gap", i === 0 ? name : `${name}Other`, `${what}, in ${one}`, text(one), mm ?? null),
    );
  const length = (mm: number, known?: number) => (one: LengthUnit) => roundedLength(mm, known, one);
  const toMm = recommendation.kind === "none" ? gapMm : recommendation.gapMm;
  const changeMm = toMm - gapMm;
  const size = (one: LengthUnit) => roundedLength(Math.abs(changeMm), expandedMm, one);
  const way = (one: LengthUnit) =>
    Number.parseFloat(size(one)) === 0 ? "no" : `${size(one)} ${changeMm < 0 ? "less" : "more"}`;
  const count = (name: string, what: string, of: number | undefined) =>
    figure("gap", name, what, of === undefined ? "no" : `${of}`, of ?? null);
  return [
    ...both("gap", "your gap, as measured or from the file", gapMm, length(gapMm, expandedMm)),
    ...both("gapUncertainty", "how well it is known (95 %)", expandedMm, (one) =>
      expandedMm === undefined ? "not measured" : roundedLength(expandedMm, expandedMm, one),
    ),
    count("depthReadings", "readings of the receiver's depth", readings?.depth),
    count("insertionReadings", "readings of the insertion", readings?.insertion),
    ...both("recommended", "the gap recommended", recommendation.kind === "none" ? undefined : toMm, (one) =>
      recommendation.kind === "none" ? "no change" : length(toMm)(one),
    ),
    ...both("told", `the gap that changes are told to, ${TOLD[told.kind]}`, told.gapMm, length(told.gapMm)),
    ...both("change", "how much less or more gap that is", changeMm, way),
    ...both("reference", "the gap compared with", referenceGapMm, length(referenceGapMm)),
    ...(
      [
        ["depth", "the receiver's depth", setup.receiver.depthMm],
        ["insertion", "how far the shank goes in", setup.receiver.depthMm - gapMm],
        ["insertionAfter", "how far it will go in", setup.receiver.depthMm - toMm],
      ] as const
    ).map(([name, what, mm]) => figure("gap", name, what, formatLength(mm, unit), mm)),
  ];
}

function workFigures({ unit, plan, way }: SheetRecord): readonly Figure[] {
  const of = (name: string, what: string, text: string | null | undefined) =>
    figure("work", name, what, text ?? "not planned");
  const limits = plan?.limitsMm?.map((mm) => formatLength(mm, unit)).join(" to ");
  return [
    of("way", "the way planned in Cut", way && WAY_TITLE[way.name]),
    of("waySize", "its size", way?.size === undefined ? undefined : stageSize(way.size, way.unit, unit)),
    of("wayStages", "in how many stages", way && way.stages.length > 0 ? `${way.stages.length}` : undefined),
    of("limits", "between which gaps the work is done", limits),
    of(
      "seatWear",
      "what the seats' wear does",
      plan?.gapPerDiameter === undefined ? undefined : seatWearCaution(plan.gapPerDiameter),
    ),
  ];
}

/** All that was measured on the player, a sentence a note. */
function listenedFigure({ unit, setup, listened }: SheetRecord): Figure {
  const said = listened.map((note) => listenedWords(note, unit, instrumentOf(setup))).join(" ");
  return figure("trial", "listened", "what was measured on the player, note by note", said || "not measured");
}

/** The headline of sweeps of the instrument, before against after. */
function sweptFigure({ unit, swept }: SheetRecord): Figure {
  const said = swept && sweptHeadline(swept.change, swept.beside, unit);
  return figure(
    "trial",
    "swept",
    "what sweeps of the instrument found, before against after",
    said ?? "not swept",
  );
}

function trialFigures({ unit, setup, trial, measuredTrial }: SheetRecord): readonly Figure[] {
  const none = "not tried";
  const of = (name: string, what: string, text: string | null | undefined, value: number | null = null) =>
    figure("trial", name, what, text ?? none, value);
  const digits = unit === "mm" ? 1 : 3;
  const preferredMm = trial?.preferredGapMm ?? null;
  return [
    of("trial", "what the blind trial found, in a sentence", trial && trialSentence(trial, unit)),
    of(
      "trialMeasured",
      "what was measured at the turns of the blind trial",
      measuredTrial && measuredOutcomeWords(measuredTrial, unit, instrumentOf(setup)).join(" "),
    ),
    of("trialRepeats", "how often each was played", trial ? `${trial.repeats}` : undefined, trial?.repeats),
    of(
      "trialPreferred",
      "the gap the player prefers",
      preferredMm === null ? trial && "none" : formatLength(preferredMm, unit, digits),
      preferredMm,
    ),
    of(
      "trialChance",
      "how often guessing alone would tell them apart so well",
      trial ? chance(trial.p) : undefined,
      trial?.p,
    ),
  ];
}

const chance = (p: number): string => (p < 0.001 ? "less than 0.1 %" : `${(100 * p).toPrecision(2)} %`);

function methodFigures({ setup, version }: SheetRecord): readonly Figure[] {
  const { air, model } = setup;
  const airText =
    air.kind === "constants"
      ? `given sound speed of ${air.soundSpeed} m/s`
      : `${air.temperatureC} °C, ${Math.round(100 * air.humidity)} % humidity`;
  const of = (name: string, what: string, text: string) => figure("method", name, what, text);
  return [
    of("air", "the air in the model", airText),
    of("junction", "how the gap is joined", model.junction === "modal" ? "mode matching" : "plane waves"),
    of("bell", "how the bell is modelled", BELLS[model.bell]),
    of("radiation", "how the mouth radiates", `${model.radiation} mouth`),
    of("version", "version of this program", version),
  ];
}
