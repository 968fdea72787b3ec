/** The plan of a trial as typed, read: what is wrong beside each field, and the plan once nothing is. */

import { gapLimits } from "../../../../setup/gapLimits.ts";
import { isSameGap, type Setup } from "../../../../setup/setup.ts";
import type { TrialPlan } from "../../../../trial/seal.ts";
import { FEWEST_ITEMS, type TrialItem } from "../../../../trial/trial.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { length, readField, readFields } from "../../../form/field.ts";
import { PLAN_FIELDS, type PlanPart, type TrialNotes } from "../../../state/notes/trial.ts";

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

/** What the open job says of its player: what an empty field then means. */
export interface FromJob {
  readonly player: string;
  /** Standard deviation of the player's ratings in the last finished trial, points; null where there is none. */
  readonly scatter: number | null;
}

export function readPlan(
  notes: TrialNotes,
  setup: Setup,
  fromJob: FromJob = { player: "", scatter: null },
): PlanRead {
  const rows = notes.kind === "gaps" ? readGaps(notes.gaps, notes.unit, setup) : readNames(notes.names);
  const items = rows.flatMap(({ item }) => item ?? []);
  const itemProblems = rows.map(({ problem }) => problem);
  const { values, problems } = readFields(PLAN_FIELDS, notes, notes.unit);
  const { player, passages = "", repeats, difference } = values;
  const scatter = notes.scatter.trim() === "" ? (fromJob.scatter ?? values.scatter) : values.scatter;
  const isWrong = itemProblems.some(Boolean) || Object.values(problems).some(Boolean);
  const few = FEWEST_ITEMS - items.length;
  const what = notes.kind === "gaps" ? "gap" : "name";
  const missing = isWrong
    ? "Correct the marked fields first."
    : few > 0
      ? `${few} more ${what}${few === 1 ? "" : "s"} to go: a trial needs at least ${FEWEST_ITEMS}.`
      : "";
  return {
    itemProblems,
    problems,
    numbers:
      difference === undefined || scatter === undefined
        ? null
        : { items: Math.max(FEWEST_ITEMS, items.length), difference, scatter },
    repeats: repeats ?? null,
    plan:
      missing || repeats === undefined || difference === undefined
        ? null
        : {
            player: player || fromJob.player,
            items,
            repeats,
            passages,
            difference,
            ...(notes.mounting === "alone" && { alone: true }),
            ...(notes.decidedBy !== "preference" && { decidedBy: notes.decidedBy }),
          },
    missing,
  };
}

interface Row {
  readonly item: TrialItem | null;
  readonly problem: string;
}

function readGaps(texts: readonly string[], unit: LengthUnit, setup: Setup): Row[] {
  const { leastMm, mostMm } = gapLimits(setup);
  const gap = length("gap", {
    flaw: (mm) =>
      mm >= leastMm && mm <= mostMm
        ? undefined
        : `This receiver takes gaps from ${formatLength(leastMm, unit)} to ${formatLength(mostMm, unit)}`,
  });
  const seen: number[] = [];
  return texts.map((text): Row => {
    const { value: read, problem } = readField(gap, text, unit);
    if (read === undefined) return { item: null, problem };
    const twin = seen.findIndex((other) => isSameGap(other, read));
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
