import { basename } from "node:path";
import { type Command, Option } from "commander";
import {
  boreTableText,
  type ChangedMode,
  type Compared,
  type CompareOptions,
  type Comparison,
  compareSteps,
  comparisonOf,
  gapKind,
  InputError,
  knownQuantities,
  type LengthUnit,
  type Measure,
  gapMm as ownGapMm,
  parseGoal,
  parseLengthMm,
  parseRange,
  quoteTyped,
  readBoreTable,
  readSetupText,
  type Setup,
  SetupError,
  type Variant,
  warningsOf,
  warningText,
} from "../../index.ts";
import { deepFreeze } from "../../setup/deepFreeze.ts";
import { implausible } from "../../setup/dimension/plausible.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { ReadingError, textOf } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, formerOption, withFormerKeys } from "../terminal/formerNames.ts";
import { modeCount } from "../terminal/numberText.ts";
import { counting } from "../terminal/progress.ts";
import { type SetupLine, setupLines } from "../terminal/setups.ts";
import { warned } from "../terminal/warnings.ts";
import { comparisonText, EXTENT_MM } from "./compareText.ts";

interface Options {
  readonly leadpipe?: readonly string[];
  readonly unit?: LengthUnit;
  readonly measure?: Measure;
  readonly gap?: string;
  readonly gaps?: string;
  readonly comparedWith: string;
  readonly retune?: number;
  readonly goal?: string;
  readonly error: string;
  readonly notes?: boolean;
  readonly sensitivity?: boolean;
  readonly modes: number;
  readonly format: string;
}

const COMPARED_WITH = new Option(
  "--compared-with <i>",
  "number of the candidate that the others are compared with",
).default("1");
const FORMER_KEYS: FormerKeys = {
  compared_with: "reference",
  candidates: "variants",
  slot_width_cents: "hold_cents",
};

/** `annulus compare SETUP…`: leadpipes, mouthpieces or whole instruments side by side. */
export function compareCommand(program: Command): void {
  program
    .command("compare")
    .description(
      "candidates side by side: resonances, heights, differences after retuning, errors of manufacture",
    )
    .argument(
      "<setups...>",
      "setup files; - for standard input; or one stream of them, a line each, for --format json",
    )
    .option("--leadpipe <tables...>", "leadpipes to put into the (one) setup, two columns each")
    .option("--unit <unit>", "of the tables' bare numbers, mm or in, instead of what they look like", unit)
    .option("--measure <measure>", "what the tables give of the bore: diameter or radius", measure)
    .option("--gap <length>", "gap for all instead of each setup's own")
    .option("--gaps <range>", "every candidate at several gaps, start:stop:step")
    .addOption(COMPARED_WITH)
    .addOption(formerOption("--reference", COMPARED_WITH))
    .option("--retune <n>", "bring resonance n of each to the frequency of the one compared with", modeCount)
    .option(
      "--goal <goal>",
      "rank by it, lowest first: weights on notes, 2:1,5:2, for √(Σ w·cents²/Σ w), in which weight 2 counts as if the note stood there twice, as in design; or an expression, abs(cents2)+gap/10",
    )
    .option("--error <length>", "an error of the diameter to show the effect of", "0.05mm")
    .option("--notes", "slot width and pull of every note too (slower)")
    .option("--no-sensitivity", "leave errors of the bore out (quicker)")
    .option("--modes <count>", "how many resonances, from the lowest", modeCount, 12)
    .addOption(formatOption("table", "csv", "json", "ndjson"))
    .action((paths: string[], options: Options) => {
      const { variants, failed, failure, isStream } = variantsOf(paths, options);
      const asked = compareOptions(options);
      const warnings = variants.flatMap(({ name, setup }, i) =>
        variants.findIndex((other) => other.setup === setup) === i
          ? warned(setup, `${name}: `).map((warning) => `${name}: ${warning}`)
          : [],
      );
      if (isStream && options.format !== "json" && options.format !== "ndjson")
        throw new ReadingError(
          `${paths[0]}: many setups, one a line, are answered one a line: add --format json`,
        );
      if (isStream || options.format === "ndjson") {
        let told = 0;
        for (const one of compareSteps(variants, asked)) {
          const { line, ...variant } = variants[told++];
          const own = warningsOf(variant.setup).map(warningText);
          const from = line === null ? {} : { line, setup: variant.setup.name };
          process.stdout.write(
            `${JSON.stringify(withFormerKeys({ ...from, ...lineOf(one), ...gapIs(variant), warnings: own }, FORMER_KEYS))}\n`,
          );
        }
        for (const words of failed) process.stderr.write(`annulus: ${words}\n`);
        if (failed.length > 0) throw new ReadingError(failure);
        return;
      }
      const compared: Compared[] = [];
      for (const one of compareSteps(variants, asked)) {
        compared.push(one);
        counting("candidate")(compared.length, variants.length);
      }
      const comparison = comparisonOf(compared, asked);
      if (options.format === "json")
        process.stdout.write(
          `${JSON.stringify({ ...withFormerKeys(asJson(comparison, variants), FORMER_KEYS), warnings }, null, 1)}\n`,
        );
      else if (options.format === "csv") process.stdout.write(csvOfObjects(compared.flatMap(csvRows)));
      else process.stdout.write(comparisonText(comparison, variants, parseLengthMm(options.error, "mm")));
    });
}

function compareOptions(options: Options): CompareOptions {
  const reference = Number(options.comparedWith);
  if (!Number.isInteger(reference) || reference < 1)
    throw new InputError(
      `--compared-with: ${quoteTyped(options.comparedWith)} is no candidate's number; give 1 for the first`,
    );
  return {
    reference: reference - 1,
    modes: options.modes,
    withNotes: options.notes === true,
    ...(options.retune === undefined ? {} : { retune: options.retune }),
    ...(options.goal === undefined ? {} : { goal: parseGoal(options.goal, knownQuantities(options.modes)) }),
    ...(options.sensitivity === false ? {} : { errorExtentMm: EXTENT_MM }),
  };
}

const unit = (typed: string): LengthUnit => oneOf("--unit", typed, ["mm", "in"] as const);
const measure = (typed: string): Measure => oneOf("--measure", typed, ["diameter", "radius"] as const);

function oneOf<Choice extends string>(option: string, typed: string, choices: readonly Choice[]): Choice {
  const found = choices.find((choice) => choice === typed);
  if (!found)
    throw new InputError(`${option}: ${quoteTyped(typed)} is not known; give ${choices.join(" or ")}`);
  return found;
}

interface Named {
  readonly name: string;
  readonly setup: Setup;
  /** Where it stood in a stream. */
  readonly line: number | null;
}

/**
 * Setups, or those of a stream, then the leadpipes put into the one setup, each at every gap. What a table was taken for goes to
 * standard error.
 */
function variantsOf(paths: readonly string[], options: Options) {
  if (options.gap !== undefined && options.gaps !== undefined)
    throw new InputError("--gap and --gaps ask for different things; give one of them");
  if (options.leadpipe && paths.length > 1)
    throw new InputError("--leadpipe puts leadpipes into one setup; give one setup before it");
  const texts = paths.map((path) => textOf(path, "a setup file"));
  const stream = texts.length === 1 ? setupLines(texts[0]) : null;
  if (stream && options.leadpipe)
    throw new InputError("--leadpipe puts leadpipes into one setup; give one, not a stream of them");
  const failed: string[] = [];
  const setups = stream
    ? readStream(stream, failed)
    : texts.map((text, i): Named => {
        const setup = readSetupText(text);
        return { name: setup.name || basename(paths[i]), setup, line: null };
      });
  for (const path of options.leadpipe ?? []) {
    try {
      setups.push({ name: basename(path), setup: withLeadpipe(setups[0].setup, path, options), line: null });
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      failed.push(`${path}: ${error.message}`);
    }
  }
  // in a batch the others go on
  if (failed.length > 0 && !stream && options.format !== "ndjson")
    throw new ReadingError(
      `${failed[0]}${failed.length > 1 ? ` (and ${failed.length - 1} more tables)` : ""}`,
    );
  const variants = setups.flatMap(({ name, setup, line }) => {
    const gapsMm =
      options.gaps !== undefined
        ? parseRange(options.gaps, setup.units)
        : [options.gap === undefined ? ownGapMm(setup) : parseLengthMm(options.gap, setup.units)];
    return gapsMm.map((gapMm): Variant & Pick<Named, "line"> => ({ name, setup, gapMm, line }));
  });
  const failure = stream
    ? `${failed.length} of ${stream.length} lines failed`
    : `${failed.length} of ${options.leadpipe?.length ?? 0} leadpipes failed`;
  return { variants, failed, failure, isStream: stream !== null };
}

/** Lines that are no setup are told, and the others go on. */
function readStream(stream: readonly SetupLine[], failed: string[]): Named[] {
  const setups = stream.flatMap(({ line, text }): Named[] => {
    try {
      const setup = readSetupText(text);
      return [{ name: setup.name || `line ${line}`, setup, line }];
    } catch (error) {
      if (!(error instanceof SetupError)) throw error;
      failed.push(`line ${line}: ${error.message.replace(/\s*\n\s*/g, " ")}`);
      return [];
    }
  });
  if (setups.length === 0) throw new ReadingError(failed[0]);
  return setups;
}

function withLeadpipe(setup: Setup, path: string, { unit, measure, format }: Options): Setup {
  const table = readBoreTable(textOf(path, "a table of a leadpipe"), "leadpipe", {
    ...(unit ? { unit } : {}),
    ...(measure ? { measure } : {}),
  });
  // not in a batch of thousands
  if (format !== "ndjson") process.stderr.write(`${path}: ${boreTableText(table).join("; ")}\n`);
  const made = deepFreeze({ ...setup, leadpipe: { profileMm: table.profileMm } });
  const problems = implausible(made, setup.units);
  if (problems.length > 0) throw new InputError(new SetupError(problems).message);
  return made;
}

const modeJson = (mode: ChangedMode) => ({
  n: mode.n,
  frequency_Hz: mode.frequencyHz,
  Q: mode.Q,
  peak_Pa_s_m3: mode.peakImpedance,
  equivalent_cents: mode.equivalentCents,
  shift_cents: mode.shiftCents,
  height_dB: mode.heightDb,
});

const lineOf = ({ name, gapMm, retuned, refusal, score, resistance, notes, modes }: Compared) => ({
  name,
  gap_mm: gapMm,
  score,
  resistance_Pa_s_m3: resistance?.resistance?.estimate ?? null,
  modes: modes.map(modeJson),
  retuned: retuned && { by: retuned.by, length_mm: retuned.drawMm, modes: retuned.modes.map(modeJson) },
  not_retuned: refusal,
  notes:
    notes?.map(({ n, slot }) => ({
      n,
      slot_width_cents: slot?.slotWidthCents ?? null,
      pull: slot?.pull ?? null,
    })) ?? null,
});

/** Whether a candidate stands at its own gap, and how that is known, or at one that was asked for. */
const gapIs = ({ setup, gapMm }: Variant) => ({ gap_is: gapKind(setup, gapMm) });

const asJson = ({ reference, retune, ranking, variants }: Comparison, asked: readonly Variant[]) => ({
  compared_with: reference + 1,
  retune,
  ranking: ranking?.map((i) => i + 1) ?? null,
  candidates: variants.map((one, i) => ({
    ...lineOf(one),
    ...gapIs(asked[i]),
    sensitivity: one.sensitivity && {
      extent_mm: one.sensitivity.extentMm,
      places: one.sensitivity.places.map(({ part, positionMm, fromRimMm }) => ({
        part,
        position_mm: positionMm,
        from_rim_mm: fromRimMm,
      })),
      modes: one.sensitivity.modes.map((mode) => ({
        n: mode.n,
        cents_per_mm: [...mode.centsPerMm],
        dB_per_mm: mode.decibelsPerMm && [...mode.decibelsPerMm],
        gap_cents_per_mm: mode.gapCentsPerMm,
        gap_dB_per_mm: mode.gapDecibelsPerMm,
      })),
    },
  })),
});

/** One row a candidate and a resonance: what is left after retuning where that was asked for. */
function csvRows({ name, gapMm, modes, retuned, score, sensitivity, resistance }: Compared): object[] {
  return (retuned?.modes ?? modes).map((mode, i) => ({
    name,
    gap_mm: gapMm,
    slide_mm: retuned?.drawMm ?? null,
    ...modeJson(mode),
    gap_cents_per_mm: sensitivity?.modes[i]?.gapCentsPerMm ?? null,
    gap_dB_per_mm: sensitivity?.modes[i]?.gapDecibelsPerMm ?? null,
    resistance_Pa_s_m3: resistance?.resistance?.estimate ?? null,
    score,
  }));
}
