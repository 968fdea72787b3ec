/** A bore table as typed, what it is taken for, and the setup that it would make. */
import {
  type BoreTable,
  BoreTableError,
  type BoreTableOptions,
  type Direction,
  type Measure,
  readBoreTable,
} from "../../../setup/bore/boreTable.ts";
import type { DecimalSign, Separator } from "../../../setup/bore/lengthColumns.ts";
import { withProvenance } from "../../../setup/dimension/provenance.ts";
import type { ProfileMm, Setup } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { fileInMm, problemText, readAltered } from "../../form/setup/edits.ts";
import { putAt } from "../../form/setup/paths.ts";
import type { TableNotes, TablePart, TableSaid } from "../notes/compare.ts";

/** What each of a table's readings can be said to be. */
export const SAYABLE = {
  unit: ["mm", "in"],
  measure: ["diameter", "radius"],
  direction: ["mouthpiece end first", "bell end first"],
  separator: ["tab", "semicolon", "comma", "space"],
  decimal: ["point", "comma"],
  swapped: ["yes"],
} as const satisfies {
  unit: readonly LengthUnit[];
  measure: readonly Measure[];
  direction: readonly Direction[];
  separator: readonly Separator[];
  decimal: readonly DecimalSign[];
  swapped: readonly string[];
};

export type TableReading =
  | { readonly table: BoreTable; readonly setup: Setup }
  /** Why it is not taken: with lines of the table, or as a whole where it makes no instrument. */
  | { readonly table: BoreTable | null; readonly problems: readonly string[] };

/** null where nothing is typed */
export function readTable({ part, name, text, said }: TableNotes, base: Setup): TableReading | null {
  if (text.trim() === "") return null;
  let table: BoreTable;
  try {
    table = readBoreTable(text, part, optionsOf(said));
  } catch (error) {
    if (!(error instanceof BoreTableError)) throw error;
    return { table: null, problems: error.problems.map(({ line, message }) => `Line ${line}: ${message}`) };
  }
  const made = withBore(base, part, table.profileMm, name.trim() || `${part} from a table`);
  return "setup" in made ? { table, setup: made.setup } : { table, problems: [made.problem] };
}

/** A text that is none of what can be said leaves it to be found out. */
function optionsOf(said: TableNotes["said"]): BoreTableOptions {
  const of = <Name extends TableSaid>(name: Name) =>
    (SAYABLE[name] as readonly string[]).find((value) => value === said[name]);
  return Object.fromEntries(
    Object.entries({
      unit: of("unit"),
      measure: of("measure"),
      direction: of("direction"),
      separator: of("separator"),
      decimal: of("decimal"),
      isSwapped: of("swapped") === "yes" || undefined,
    }).filter(([, value]) => value !== undefined),
  ) as BoreTableOptions;
}

/**
 * The setup with another bore of one part, as its file would be read. What only belonged to the old part, the depth of its
 * cup, its slide's place, how well single points of it were known, goes with it.
 */
export function withBore(
  base: Setup,
  part: TablePart,
  profileMm: ProfileMm,
  name: string,
): { readonly setup: Setup } | { readonly problem: string } {
  const file = fileInMm(base);
  putAt(file, [part, "profile"], profileMm);
  putAt(file, ["name"], name);
  putAt(file, ["about"], "");
  if (part === "mouthpiece") putAt(file, ["mouthpiece", "cupDepth"], undefined);
  if (part === "body") putAt(file, ["body", "slideAt"], undefined);
  const known = Object.entries((file.uncertainties ?? {}) as object).filter(
    ([path]) => !path.startsWith(`${part}.profile[`),
  );
  putAt(file, ["uncertainties"], known.length > 0 ? Object.fromEntries(known) : undefined);
  const outcome = readAltered(base, file);
  return "setup" in outcome
    ? { setup: withProvenance(outcome.setup, "file", `${part}.profile`) }
    : { problem: problemText(outcome.problems, "") };
}
