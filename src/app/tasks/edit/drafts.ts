/**
 * What was typed and refused stays in its place, and is tried again with whatever is typed next: two entries that are
 * wrong alone may be right together, as a deeper receiver and the longer insertion typed before it.
 */
import { implausible } from "../../../setup/dimension/plausible.ts";
import type { Setup } from "../../../setup/setup.ts";
import { LengthError, type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import {
  applyText,
  type Entry,
  enter,
  exactLengthText,
  isReadable,
  lengthText,
  problemText,
  shownTexts,
} from "../../form/setup/edits.ts";
import { fieldAt } from "../../form/setup/fields.ts";
import { type Cell, cellAt, cellPath, type Part } from "../../form/setup/paths.ts";
import { removeRow } from "./rows.ts";

/** A refused entry, and what the setup had in its place when it was typed. */
export interface Draft extends Entry {
  readonly message: string;
  readonly replaces: string;
}

export interface Taken {
  readonly setup: Setup;
  readonly drafts: readonly Draft[];
}

/** The setup with as much of the entry and the drafts as it can have; the rest stays a draft. */
export function take(setup: Setup, drafts: readonly Draft[], entry: Entry): Taken {
  const others = drafts.filter(({ path }) => path !== entry.path);
  const shown = shownTexts(setup, entry.unit);
  if (entry.text === shown(entry.path)) return { setup, drafts: others };
  const row = emptiedRow(others, entry);
  if (row) return takeOutRow(setup, others, entry, row);

  const readable = isReadable(entry) ? [entry, ...others].filter(isReadable) : [];
  const family = readable.filter(({ path }) => parentOf(path) === parentOf(entry.path));
  for (const together of [readable, family, readable.slice(0, 1)]) {
    const outcome = together.length > 0 ? enter(setup, together) : null;
    if (outcome && "setup" in outcome) return takeRest(outcome.setup, without(others, together));
  }
  return { setup, drafts: [...others, draftOf(setup, entry)] };
}

/** Each draft that the setup can have by now; the others stay. */
function takeRest(setup: Setup, drafts: readonly Draft[]): Taken {
  let taken = setup;
  const left = drafts.filter((draft) => {
    const outcome = enter(taken, [draft]);
    if ("setup" in outcome) taken = outcome.setup;
    return !("setup" in outcome);
  });
  return { setup: taken, drafts: left.map((draft) => draftOf(taken, draft)) };
}

/** What is wrong with a setup that was kept though it is no instrument, each beside the entry it stands in. */
export const flawDrafts = (setup: Setup, unit: LengthUnit): readonly Draft[] =>
  implausible(setup, unit).map(({ path, message }) => {
    const text = shownTexts(setup, unit)(path);
    return { path, text, unit, message: message.charAt(0).toUpperCase() + message.slice(1), replaces: text };
  });

/** Drafts whose place still has what it had: undo, another instrument or the shank being moved takes the others back. */
export function standing(setup: Setup, drafts: readonly Draft[]): readonly Draft[] {
  const kept = drafts.filter(({ path, replaces }) => replaced(setup, path) === replaces);
  return kept.length === drafts.length ? drafts : kept;
}

/** The drafts after a row of a profile was put in at `row` (by 1) or taken out there (by −1). */
export function afterRows(
  setup: Setup,
  drafts: readonly Draft[],
  part: Part,
  row: number,
  by: 1 | -1,
): readonly Draft[] {
  return drafts.flatMap((draft) => {
    const cell = cellAt(draft.path);
    if (cell?.part !== part) return [draft];
    if (by < 0 && cell.row === row) return [];
    const path = cellPath({ ...cell, row: cell.row >= row ? cell.row + by : cell.row });
    return [{ ...draft, path, replaces: replaced(setup, path) }];
  });
}

/** The drafts for another unit: a length keeps meaning what it did when it was typed. */
export function inUnit(drafts: readonly Draft[], unit: LengthUnit): readonly Draft[] {
  if (drafts.every((draft) => draft.unit === unit)) return drafts;
  return drafts.map((draft) => {
    const isLength = cellAt(draft.path) !== null || fieldAt(draft.path)?.kind === "length";
    if (draft.unit === unit || !isLength) return { ...draft, unit };
    return { ...draft, unit, text: withUnit(draft, unit) };
  });
}

function withUnit({ text, unit: typedIn }: Draft, unit: LengthUnit): string {
  try {
    const lengthMm = parseLengthMm(text, typedIn);
    return parseLengthMm(text, unit) === lengthMm ? text : `${lengthText(lengthMm, typedIn)} ${typedIn}`;
  } catch (error) {
    if (error instanceof LengthError) return text;
    throw error;
  }
}

const without = (drafts: readonly Draft[], entries: readonly Entry[]): readonly Draft[] =>
  drafts.filter(({ path }) => !entries.some((entry) => entry.path === path));

/** A refused entry with what is wrong with it. */
function draftOf(setup: Setup, { path, text, unit }: Entry): Draft {
  const outcome = applyText(setup, { path, text, unit });
  const message = "problem" in outcome ? outcome.problem : "";
  return { path, text, unit, message, replaces: replaced(setup, path) };
}

/** What stands in a place, fine enough to see any change; for a cell also how many rows there are. */
function replaced(setup: Setup, path: string): string {
  const cell = cellAt(path);
  if (!cell) return shownTexts(setup, "mm")(path);
  const { profileMm } = setup[cell.part];
  const lengthMm = profileMm[cell.row]?.[cell.column];
  return `${lengthMm === undefined ? "" : exactLengthText(lengthMm, "mm")} of ${profileMm.length}`;
}

const parentOf = (path: string): string => path.replace(/(\.\w+|(\[\d+\])+)$/, "");

/** The row that is empty once this entry is: its other cell was emptied before. */
function emptiedRow(drafts: readonly Draft[], { path, text }: Entry): Cell | null {
  const cell = text.trim() === "" ? cellAt(path) : null;
  const other = cell && cellPath({ ...cell, column: cell.column === 0 ? 1 : 0 });
  return drafts.some((draft) => draft.path === other && draft.text.trim() === "") ? cell : null;
}

function takeOutRow(setup: Setup, drafts: readonly Draft[], entry: Entry, { part, row }: Cell): Taken {
  const outcome = removeRow(setup, part, row);
  if ("setup" in outcome)
    return { setup: outcome.setup, drafts: afterRows(outcome.setup, drafts, part, row, -1) };
  const message = problemText(outcome.problems, entry.path);
  return { setup, drafts: [...drafts, { ...entry, message, replaces: replaced(setup, entry.path) }] };
}
