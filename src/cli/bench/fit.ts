import { type Command, Option } from "commander";
import {
  type FitCell,
  type FitMatrix,
  type FitSpread,
  fitCellWords,
  fitMatrix,
  fitMatrixCsv,
  formatLength,
  OUTCOME,
  parseLengthMm,
  readInstruments,
  readMouthpieces,
  spreadWords,
  TOUCHES,
} from "../../index.ts";
import { textOf } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { formerOption } from "../terminal/formerNames.ts";
import { signed, textTable } from "../terminal/table.ts";

interface Options {
  readonly mouthpieces: string;
  readonly instruments: string;
  readonly preferred?: string;
  readonly contactTolerance?: string;
  readonly format: string;
}

const CONTACT_TOLERANCE = new Option(
  "--contact-tolerance <length>",
  "the clearance up to which two walls touch (0.01mm of the diameters)",
);

/** `annulus fit`: which mouthpiece gives which gap in which instrument, and what makes them differ. */
export function fitCommand(program: Command): void {
  program
    .command("fit")
    .description("the gap of several mouthpieces in several instruments, predicted from their dimensions")
    .requiredOption("--mouthpieces <file>", "CSV: name, shank end diameter, shank taper, and u of each")
    .requiredOption(
      "--instruments <file>",
      "CSV: name, receiver mouth diameter, receiver taper, receiver depth, and u of each",
    )
    .option("--preferred <length>", "the gap that the player prefers, e.g. 2.5mm")
    .addOption(CONTACT_TOLERANCE)
    .addOption(formerOption("--clearance", CONTACT_TOLERANCE))
    .addOption(formatOption("table", "csv", "json"))
    .action((options: Options) => {
      const length = (name: string, text: string | undefined) =>
        text === undefined ? {} : { [name]: parseLengthMm(text, "mm") };
      const matrix = fitMatrix(
        readMouthpieces(textOf(options.mouthpieces, "a CSV file"), options.mouthpieces),
        readInstruments(textOf(options.instruments, "a CSV file"), options.instruments),
        { ...length("preferredMm", options.preferred), ...length("clearanceMm", options.contactTolerance) },
      );
      process.stdout.write(
        options.format === "json"
          ? `${JSON.stringify(asJson(matrix), null, 1)}\n`
          : options.format === "csv"
            ? fitMatrixCsv(matrix)
            : table(matrix),
      );
    });
}

const asJson = (matrix: FitMatrix) => ({
  preferred_mm: matrix.preferredMm ?? null,
  cells: matrix.cells.flat().map(({ fit, ...cell }) => ({
    mouthpiece: cell.mouthpiece,
    instrument: cell.instrument,
    outcome: fit ? OUTCOME[fit.outcome] : "unknown",
    missing: cell.missing,
    insertion_mm: fit?.insertionMm ?? null,
    gap_mm: fit?.gapMm ?? null,
    standard_uncertainty_mm: fit?.standardUncertaintyMm ?? null,
    from_preferred_mm: cell.fromPreferredMm ?? null,
    is_apart_from_preferred: cell.isApartFromPreferred ?? null,
    touches: fit?.contact ? TOUCHES[fit.contact.touches] : null,
    contact_length_mm: fit?.contact?.contactLengthMm ?? null,
    free_clearance_mm: fit?.contact?.freeClearanceMm ?? null,
    rocking_degrees: fit?.contact?.rockingDegrees ?? null,
    budget: (fit?.budget ?? []).map((row) => ({
      dimension: row.dimension,
      standard_uncertainty: row.standardUncertainty,
      sensitivity: row.sensitivity,
      contribution_mm: row.contributionMm,
      variance_share: row.varianceShare,
    })),
    words: fitCellWords({ fit, ...cell }, "mm"),
  })),
  by_mouthpiece: matrix.byMouthpiece.map(spreadJson),
  by_instrument: matrix.byInstrument.map(spreadJson),
  overall: spreadJson(matrix.overall),
});

const spreadJson = (spread: FitSpread) => ({
  of: spread.of,
  count: spread.count,
  on_leadpipe: spread.onLeadpipe,
  left_out: spread.leftOut,
  mean_mm: spread.meanMm ?? null,
  low_mm: spread.lowMm ?? null,
  high_mm: spread.highMm ?? null,
  standard_deviation_mm: spread.standardDeviationMm ?? null,
  measuring_mm: spread.measuringMm ?? null,
  causes: spread.causes.map((cause) => ({
    cause: cause.cause,
    standard_deviation: cause.standardDeviation ?? null,
    sensitivity: cause.sensitivity ?? null,
    variance_share: cause.varianceShare,
  })),
  words: spreadWords(spread, "mm"),
});

/** One row an instrument, one column a mouthpiece; then what spreads, and what to know about single pairs. */
function table(matrix: FitMatrix): string {
  const { mouthpieces, instruments, cells, preferredMm } = matrix;
  const width = Math.max("instrument".length, ...instruments.map(({ length }) => length));
  const block = (text: (cell: FitCell) => string) =>
    textTable(
      ["instrument".padEnd(width), ...mouthpieces],
      instruments.map((name, i) => [name.padEnd(width), ...cells.map((row) => text(row[i]))]),
    );
  const list = (spreads: readonly FitSpread[]) =>
    spreads.map((spread) => `${spread.of}: ${spreadWords(spread, "mm")}\n`).join("");
  const preferred =
    preferredMm === undefined
      ? []
      : [
          `\nGap less the preferred ${formatLength(preferredMm, "mm")}, mm; * is more than twice its uncertainty\n`,
          block(({ fromPreferredMm, isApartFromPreferred }) =>
            fromPreferredMm === undefined
              ? "–"
              : `${signed(fromPreferredMm, 2)}${isApartFromPreferred ? "*" : ""}`,
          ),
        ];
  return [
    "Gap predicted from the dimensions, none of them measured as a gap, ± standard uncertainty, mm\n",
    block(gapText),
    ...preferred,
    "\nOne mouthpiece over the instruments\n",
    list(matrix.byMouthpiece),
    "\nOne instrument over the mouthpieces\n",
    list(matrix.byInstrument),
    `\nAll: ${spreadWords(matrix.overall, "mm")}\n`,
    remarks(matrix),
  ].join("");
}

function gapText({ fit }: FitCell): string {
  if (fit === undefined) return "unknown";
  if (fit.gapMm === undefined) return OUTCOME[fit.outcome];
  const u = fit.standardUncertaintyMm;
  return `${fit.gapMm.toFixed(2)}${u === undefined ? "" : ` ± ${u.toFixed(2)}`}${fit.outcome === "on-leadpipe" ? " (contact)" : ""}`;
}

/** What to know about single pairs, those alike in one line. A good seat needs no remark. */
function remarks({ cells }: FitMatrix): string {
  const byWords = new Map<string, string[]>();
  for (const cell of cells.flat()) {
    const { fit, mouthpiece, instrument } = cell;
    const words =
      fit?.outcome !== "seated"
        ? fitCellWords(cell, "mm")
        : fit.contact!.touches === "length"
          ? undefined
          : fit.contact!.touches === "mouth"
            ? "It touches at the receiver's face only, rocks, and its crevice is open to the gap:"
            : "It touches at the shank's end only, rocks, and its crevice is open to the room:";
    if (words === undefined) continue;
    const length = fit?.contact ? `, ${formatLength(fit.contact.contactLengthMm, "mm", 1)} of contact` : "";
    byWords.set(words, [...(byWords.get(words) ?? []), `${mouthpiece} in ${instrument}${length}`]);
  }
  return [...byWords].map(([words, pairs]) => `\n${words}\n${pairs.join("\n")}\n`).join("");
}
