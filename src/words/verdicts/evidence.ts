/** What the model says to a rule of thumb, in a sentence or two with its numbers. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { isDecided } from "../../study/change/judgement.ts";
import {
  type Basis,
  type Evidence,
  extremes,
  judgedIn,
  type ModelRange,
  type Test,
} from "../../study/change/verdicts.ts";
import { formatLength } from "../../units/formatLength.ts";
import { notesText } from "../instruments.ts";
import { eachModel, modelsPart } from "../lips.ts";
import { signed } from "../numbers.ts";
import { testName } from "./tests.ts";

/** Where nothing is large enough, a computation ends and a player begins. */
const ONLY_A_TRIAL = "Whether this player notices it, only a blind trial can tell.";

/** Where something is assumed of the setup. */
const ONLY_DRAWN = ", on this drawing only";

/** Evidence, or a verdict by the peaks. */
type Said = Omit<Evidence, "finding"> & { readonly finding: Evidence["finding"] | null };

/** The evidence in words; empty where nothing can be said from the peaks. */
export function evidenceWords({ finding, basis, tests }: Said, instrument?: InstrumentKind): string {
  const trial = finding === "too-small" || finding === "unknown" ? ` ${ONLY_A_TRIAL}` : "";
  switch (basis.kind) {
    case "same-gap":
      return "Move the slider to another gap to compare.";
    case "reference-without-gap":
      return "The gap compared with is no gap already.";
    case "never-closes":
      return "This receiver stops the shank before it reaches the leadpipe.";
    case "no-peaks":
      return "None of the notes has a peak of its own.";
    case "no-notes":
      return "No note can be started with these lips.";
    case "not-by-peaks":
      return "";
    case "playing":
      return "No calculation can choose a gap for a player. Try several, blind.";
    case "geometry":
      return "It does not: the air never meets it. What counts is how far the shank’s end stands from the start of the leadpipe.";
    case "one-instrument":
      return "One instrument is on the bench, and others of its make also differ in bore, slide and leaks. Measure the gap of each first; the lines above say what a difference in gap does by itself.";
    case "peaks":
      return told(tests, instrument);
    case "on-lips":
      return (
        (basis.areLipsOfDrawingOnly ? "Worked out on this drawing only. " : "") +
        (basis.startingByModel ? dependsOnModel(basis.startingByModel, tests[0].threshold) : "") +
        told(tests, instrument) +
        (basis.startingByModel ? eitherModel(basis.startingByModel) : "") +
        trial
      );
    case "lips":
      return lips(basis, tests[0], instrument) + trial;
    case "stream-and-lips":
      return streamAndLips(basis, tests) + trial;
  }
}

function told(tests: readonly Test[], instrument: InstrumentKind | undefined): string {
  const parts = tests.map((one) => {
    const { changes, unit, threshold } = one;
    const expanded = Math.max(...changes.map((change) => change.expanded ?? 0));
    const known = expanded > 0 ? `known to ±${expanded.toPrecision(1)}, ` : "";
    const felt = changes.filter((change) => isDecided(judgedIn(one, change))).map(({ n }) => n);
    const where = felt.length > 0 ? `: ${notesText(felt, instrument)}` : "";
    return `${testName(one)} ${spanOf(one, unit === "dB" ? 2 : 1)} ${unit} (${known}just noticeable: ${threshold} ${unit}${where ? `; noticed${where}` : ""})`;
  });
  return capitalised(`${parts.join("; ")}.`);
}

function lips(basis: Basis & { kind: "lips" }, test: Test, instrument: InstrumentKind | undefined): string {
  const felt = (["firmer", "looser"] as const).flatMap((way) => {
    const notes = basis[way];
    return notes.length > 0 ? [`${way}: ${notesText(notes, instrument)}`] : [];
  });
  // what is just noticeable of pull and margin nobody knows
  const besides = (["pull", "margin"] as const).flatMap((name) => {
    const range = basis[name];
    return range ? [`${name} ${span(range, 3)}`] : [];
  });
  const each = eachModel(basis.byModel, 1);
  const overLips = `${span(basis.meanRangeCents, 1)} over the lips tried${basis.areLipsOfDrawingOnly ? ONLY_DRAWN : ""}${each && `: ${each}`}`;
  return (
    dependsOnModel(basis.byModel, test.threshold) +
    `Slot width ${spanOf(test, 1)} cents, ${signed(basis.meanCents, 1)} on average (${overLips}; just noticeable: ` +
    `${test.threshold} cents${felt.length > 0 ? `; ${felt.join("; ")}` : ""}). ` +
    `${besides.length > 0 ? `${capitalised(besides.join(", "))}.` : ""}`
  );
}

function streamAndLips(basis: Basis & { kind: "stream-and-lips" }, [drop, valve]: readonly Test[]): string {
  const [{ change, range, expanded }] = drop.changes;
  const stream =
    `Backpressure: pressure drop ${signed(change, 2)} % at ${drop.litresPerMinute} L/min ` +
    `(${span(range!, 2)} % between the bounds${expanded === null ? "" : ", on instruments like it"}).`;
  const each = eachModel(basis.startingByModel, 1);
  const lips = valve
    ? ` ${dependsOnModel(basis.startingByModel, valve.threshold)}Starting pressures ${spanOf(valve, 1)} % (${span(rangeOver(valve), 1)} % over the lips tried${basis.areLipsOfDrawingOnly ? ONLY_DRAWN : ""}${each && `: ${each}`}).`
    : " No note starts at both gaps.";
  return `${asBore(basis.equivalentBoreMm)}${stream}${lips} Just noticeable: ${drop.threshold} %.`;
}

/** Where the two lip models do not find the same, nothing between them is claimed. */
const dependsOnModel = (models: readonly ModelRange[], threshold: number): string =>
  modelsPart(models, threshold) ? "Depends on the lip model. " : "";

function eitherModel(models: readonly ModelRange[]): string {
  const each = eachModel(models, 1);
  return each && ` Over the lips tried: ${each} %.`;
}

function asBore(boreMm: number | null | undefined): string {
  if (boreMm === undefined) return "";
  if (boreMm === null) return "No change of the leadpipe's bore does as much. ";
  if (Math.abs(boreMm) < 0.005) return "For the air flow the bore is as it was. ";
  const [mm, inches] = [formatLength(Math.abs(boreMm), "mm"), formatLength(Math.abs(boreMm), "in")];
  return `For the air flow it is as if the leadpipe were ${mm} (${inches}) ${boreMm > 0 ? "wider" : "narrower"} all along. `;
}

const capitalised = (text: string): string => text[0].toUpperCase() + text.slice(1);

const span = ([low, high]: readonly [number, number], digits: number): string => {
  const [from, to] = [signed(low, digits), signed(high, digits)];
  return from === to ? from : `${from} to ${to}`;
};

const spanOf = (test: Test, digits: number): string => {
  const [low, high] = extremes(test);
  return span([low.change, high.change], digits);
};

const rangeOver = ({ changes }: Test): readonly [number, number] => [
  Math.min(...changes.map(({ change, range }) => range?.[0] ?? change)),
  Math.max(...changes.map(({ change, range }) => range?.[1] ?? change)),
];
