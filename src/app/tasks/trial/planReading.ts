/** The plan of a trial as typed, read: what is wrong beside each field, and the plan once nothing is. */
import type { Setup } from "../../../setup/setup.ts";
import type { TrialPlan } from "../../../trial/seal.ts";
import { FEWEST_ITEMS, FEWEST_REPEATS, MOST_REPEATS, TOP, type TrialItem } from "../../../trial/trial.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import { gapLimits } from "../../state/gapLimits.ts";
import type { PlanPart, TrialNotes } from "../../state/notes/trialNotes.ts";

/** What an empty field means. */
export const USUAL = { repeats: 4, difference: 20, scatter: 10 } as const;

/** What cannot be told apart by any tool of the bench is no two gaps, mm. */
const SAME_GAP_MM = 0.01;

export interface PlanRead {
  /** By row, empty where nothing is wrong. */
  readonly itemProblems: readonly string[];
  readonly problems: Readonly<Partial<Record<PlanPart, string>>>;
  /** What the power is asked for; null while a number in it cannot be read. */
  readonly numbers: { readonly items: number; readonly difference: number; readonly scatter: number } | null;
  readonly repeats: number | null;
  /** Without the name it is kept under; null while something is wrong or missing. */
  readonly plan: Omit<TrialPlan, "id"> | null;
  /** What keeps the plan from being sealed; empty where nothing does. */
  readonly missing: string;
}

export function readPlan(notes: TrialNotes, setup: Setup): PlanRead {
  const rows = notes.kind === "gaps" ? readGaps(notes.gaps, notes.unit, setup) : readNames(notes.names);
  const items = rows.flatMap(({ item }) => item ?? []);
  const itemProblems = rows.map(({ problem }) => problem);
  const repeats = wholeNumber(notes.repeats, USUAL.repeats, FEWEST_REPEATS, MOST_REPEATS);
  const difference = points(notes.difference, USUAL.difference);
  const scatter = points(notes.scatter, USUAL.scatter);
  const problems = {
    repeats: repeats === null ? `Give a whole number from ${FEWEST_REPEATS} to ${MOST_REPEATS}, as 4.` : "",
    difference: difference === null ? `Give points of the scale, from 1 to ${TOP}, as 20.` : "",
    scatter: scatter === null ? `Give points of the scale, from 1 to ${TOP}, as 10.` : "",
  };
  const isWrong = itemProblems.some(Boolean) || Object.values(problems).some(Boolean);
  const few = FEWEST_ITEMS - items.length;
  const what = notes.kind === "gaps" ? "gap" : "name";
  const missing = isWrong
    ? "See beside the fields what is to be put right first."
    : few > 0
      ? `${few} more ${what}${few === 1 ? "" : "s"} to go: a trial needs at least ${FEWEST_ITEMS}.`
      : "";
  return {
    itemProblems,
    problems,
    numbers:
      difference === null || scatter === null
        ? null
        : { items: Math.max(FEWEST_ITEMS, items.length), difference, scatter },
    repeats,
    plan:
      missing || repeats === null || difference === null
        ? null
        : { player: notes.player.trim(), items, repeats, passages: notes.passages.trim(), difference },
    missing,
  };
}

interface Row {
  readonly item: TrialItem | null;
  readonly problem: string;
}

function readGaps(texts: readonly string[], unit: LengthUnit, setup: Setup): Row[] {
  const { leastMm, mostMm } = gapLimits(setup);
  const seen: number[] = [];
  return texts.map((text): Row => {
    if (text.trim() === "") return { item: null, problem: "" };
    const read = readLength(text, unit);
    if (typeof read === "string") return { item: null, problem: read };
    if (read < leastMm || read > mostMm)
      return {
        item: null,
        problem: `This receiver takes gaps from ${formatLength(leastMm, unit)} to ${formatLength(mostMm, unit)}.`,
      };
    const twin = seen.findIndex((other) => Math.abs(other - read) < SAME_GAP_MM);
    if (twin >= 0)
      return { item: null, problem: "This gap is there already: each is played as often as the others." };
    seen.push(read);
    return { item: { name: "", gapMm: read }, problem: "" };
  });
}

function readNames(texts: readonly string[]): Row[] {
  const seen = new Set<string>();
  return texts.map((text): Row => {
    const name = text.trim();
    if (name === "") return { item: null, problem: "" };
    if (seen.has(name.toLowerCase())) return { item: null, problem: "This name is there already." };
    seen.add(name.toLowerCase());
    return { item: { name, gapMm: null }, problem: "" };
  });
}

function readLength(text: string, unit: LengthUnit): number | string {
  try {
    return parseLengthMm(text, unit);
  } catch (error) {
    if (error instanceof LengthError) return error.message;
    throw error;
  }
}

function wholeNumber(text: string, usual: number, least: number, most: number): number | null {
  const value = text.trim() === "" ? usual : Number(text);
  return Number.isInteger(value) && value >= least && value <= most ? value : null;
}

function points(text: string, usual: number): number | null {
  const value = text.trim() === "" ? usual : Number(text.replace(",", "."));
  return value >= 1 && value <= TOP ? value : null;
}
