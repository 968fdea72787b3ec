import { type Command, InvalidArgumentError, Option } from "commander";
import {
  apartWords,
  between,
  type ColumnFit,
  columnFitSteps,
  columnFitWords,
  type Estimate,
  formatLength,
  gapKindWords,
  InputError,
  type InstrumentKind,
  instrumentOf,
  levelWords,
  type MeasuredImpedance,
  MOST_STEPS,
  noteLabel,
  type Overlay,
  overlay,
  parseLengthMm,
  peakWords,
  quoteTyped,
  type Reading,
  readingWords,
  readMeasured,
  type Setup,
  UNKNOWNS,
  type UnknownName,
  withGap,
} from "../../index.ts";
import { csvOfObjects } from "../../units/delimitedText.ts";
import { textOf } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, withFormerKeys } from "../terminal/formerNames.ts";
import { numberParser, wholeParser } from "../terminal/numberText.ts";
import { watch } from "../terminal/progress.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { signed, textTable } from "../terminal/table.ts";

type Known = Partial<
  Pick<Reading, "delimiter" | "decimal" | "form" | "magnitude" | "phase" | "scale" | "unit">
>;

interface Options extends Known {
  readonly data: string;
  readonly gap?: string;
  readonly from?: number;
  readonly to?: number;
  readonly fit?: readonly UnknownName[];
  readonly noise?: number;
  readonly steps: number;
  readonly bell?: Setup["model"]["bell"];
  readonly format: string;
}

interface Answer {
  readonly measured: MeasuredImpedance;
  readonly before: Overlay;
  readonly fit: ColumnFit | null;
  /** With the fitted setup. */
  readonly after: Overlay | null;
  /** A unit that was probably meant, and a bell that is worth trying, each with the option that says so. */
  readonly offers: { readonly level: string | null; readonly bell: string | null };
}

/** `annulus measured SETUP --data FILE`: a measured impedance beside the model's, and a few unknowns fitted to it. */
export function measuredCommand(program: Command): void {
  const choice = (flags: string, about: string, ...choices: string[]) =>
    new Option(flags, `${about} (guessed)`).choices(choices);
  program
    .command("measured")
    .description("a measured input impedance beside the model's; fits a few unknowns to it")
    .argument("<setup>", "setup file, or - for standard input")
    .requiredOption(
      "--data <file>",
      "CSV of the measurement: frequency and impedance, or its magnitude alone",
    )
    .option("--gap <length>", "gap it was measured at, instead of the setup's own, e.g. 2.54mm or 0.1in")
    .option("--from <Hz>", "leave out what lies below", hertz)
    .option("--to <Hz>", "leave out what lies above", hertz)
    .option("--fit <unknowns>", `of ${UNKNOWNS.join(", ")}: some, with commas`, unknownNames)
    .option("--noise <percent>", "the measurement's noise, of |Z|; else taken from its jumps", percent)
    .option(
      "--steps <count>",
      "most steps of the fit; what has not settled then is not converged",
      count,
      MOST_STEPS,
    )
    .addOption(
      new Option("--bell <bell>", "instead of the setup's own").choices(["automatic", "multimodal", "plane"]),
    )
    .addOption(
      choice("--form <form>", "what the columns are", "magnitude-phase", "real-imaginary", "magnitude"),
    )
    .addOption(choice("--magnitude <unit>", "magnitude", "linear", "dB"))
    .addOption(choice("--phase <unit>", "phase", "degrees", "radians"))
    .addOption(
      choice(
        "--scale <scale>",
        "Pa·s/m³, ρc/S at the rim, or unknown",
        "absolute",
        "characteristic",
        "relative",
      ),
    )
    .option(
      "--unit <Pa·s/m³>",
      "of an absolute impedance: 1 for Pa·s/m³, 1e6 for MPa·s/m³, 1e5 for the CGS acoustic ohm (guessed); in dB, what they are above",
      unitSize,
    )
    .addOption(choice("--delimiter <name>", "between the columns", "comma", "semicolon", "tab", "space"))
    .addOption(choice("--decimal <name>", "decimal sign", "point", "comma"))
    .addOption(formatOption("table", "csv", "json"))
    .action((path: string, options: Options) => {
      if (path === "-" && options.data === "-")
        throw new InputError(
          "the setup and the measurement cannot both be standard input; give one as a file",
        );
      const text = textOf(options.data, "a measurement's CSV file");
      return forEachSetup(
        path,
        options.format,
        (setup) => study(setup, text, options),
        (answer) => withFormerKeys(asJson(answer), FORMER_KEYS),
        (answer, setup) =>
          options.format === "csv" ? csvOfObjects(asJson(answer).peaks) : report(answer, setup),
      );
    });
}

const positive = (ask: string) => numberParser((value) => value > 0 && value < Infinity, ask);
const count = wholeParser(1, 1000);
const unitSize = positive("give how many Pa·s/m³ one unit is, such as 1e6.");

const hertz = (text: string): number =>
  positive("give a frequency in Hz above 0.")(text.replace(/\s*hz$/i, ""));

const percent = (text: string): number =>
  numberParser(
    (value) => value > 0 && value <= 100,
    "give a percentage above 0, to 100.",
  )(text.replace(/\s*%$/, "")) / 100;

function unknownNames(text: string): UnknownName[] {
  return text.split(",").map((typed) => {
    const found = UNKNOWNS.find((name) => name === typed.trim());
    if (!found)
      throw new InvalidArgumentError(`${quoteTyped(typed)} cannot be fitted: give ${UNKNOWNS.join(", ")}.`);
    return found;
  });
}

function study(given: Setup, text: string, options: Options): Answer {
  const { delimiter, decimal, form, magnitude, phase, unit } = options;
  // who names the unit says that it is known
  const scale = options.scale ?? (unit === undefined ? undefined : "absolute");
  const known = Object.fromEntries(
    Object.entries({ delimiter, decimal, form, magnitude, phase, scale, unit }).filter(([, value]) => value),
  ) as Known;
  const measured = between(
    readMeasured(text, options.data, known),
    options.from ?? 0,
    options.to ?? Infinity,
  );
  if (measured.frequencies.length < 3)
    throw new InputError(
      `between ${options.from ?? 0} and ${options.to ?? "any"} Hz the measurement has ${measured.frequencies.length} frequencies; give --from and --to further apart`,
    );
  const atGap = options.gap === undefined ? given : withGap(given, parseLengthMm(options.gap, given.units));
  const setup = options.bell ? { ...atGap, model: { ...atGap.model, bell: options.bell } } : atGap;
  const before = overlay(setup, measured);
  if (!options.fit) return { measured, before, fit: null, after: null, offers: offersOf(measured, before) };
  const fit = fitted(setup, measured, options.fit, options);
  return {
    measured,
    before,
    fit,
    after: overlay(fit.setup, measured),
    offers: offersOf(measured, before, fit),
  };
}

function offersOf(
  measured: MeasuredImpedance,
  before: Overlay,
  fit: ColumnFit | null = null,
): Answer["offers"] {
  const level = levelWords(before, measured.reading);
  const { scale, unit } = before.level.guess?.read ?? {};
  const asked = scale === "absolute" ? `--unit ${Number(unit!.toPrecision(6))}` : `--scale ${scale}`;
  const isCurved = fit?.curved && fit.curved.told !== "plane";
  return {
    level: level && `${level} To read it so, add: ${asked}`,
    bell: isCurved ? "To fit with curved fronts in the bell, add: --bell multimodal" : null,
  };
}

function fitted(
  setup: Setup,
  measured: MeasuredImpedance,
  keys: readonly UnknownName[],
  { noise, steps }: Pick<Options, "noise" | "steps">,
): ColumnFit {
  return watch(
    columnFitSteps(setup, measured, keys, noise, steps),
    ({ iteration, scatterDb }) => `step ${iteration}: ${scatterDb.toFixed(3)} dB left over`,
  );
}

const FORMER_KEYS: FormerKeys = {
  residual_rms_dB: "scatter_dB",
  residual_rms_degrees: "scatter_degrees",
  start_residual_rms_dB: "start_dB",
  lag_1_autocorrelation: "neighbour_correlation",
  autocorrelation_score: "running_together",
};

const asJson = ({ measured, before, fit, after, offers }: Answer) => ({
  reading: { ...measured.reading, header: measured.hasHeader, frequencies: measured.frequencies.length },
  understood: readingWords(measured),
  gap_mm: before.gapMm,
  rms_dB: before.rmsDb,
  rms_degrees: before.rmsDegrees,
  level_dB: before.level.offsetDb,
  offers: [offers.level, offers.bell].filter((words) => words !== null),
  peaks: before.peaks.map((peak) => ({
    n: peak.n,
    model_Hz: peak.model.frequencyHz,
    measured_Hz: peak.measured?.frequencyHz ?? null,
    difference_cents: peak.cents,
    height_dB: peak.heightDb,
    model_Q: peak.model.Q,
    measured_Q: peak.measured?.Q ?? null,
    ...(after && {
      fitted_difference_cents: after.peaks.find(({ n }) => n === peak.n)?.cents ?? null,
      fitted_height_dB: after.peaks.find(({ n }) => n === peak.n)?.heightDb ?? null,
    }),
  })),
  fit: fit && {
    estimates: fit.estimates.map(({ unknown, value, standard, interval, atBound, smoothMoves, held }) => ({
      unknown: unknown.key,
      unit: unknown.unit,
      start: unknown.start,
      value,
      standard_uncertainty: standard,
      low_95: interval?.[0] ?? null,
      high_95: interval?.[1] ?? null,
      at_bound: atBound,
      hidden_error_moves: smoothMoves,
      held: held.map((one) => ({
        path: one.path,
        unit: one.unit,
        standard_uncertainty: one.standard,
        moves: one.moves,
      })),
    })),
    correlation: fit.correlation,
    residual_rms_dB: fit.scatterDb,
    residual_rms_degrees: fit.scatterDegrees,
    start_residual_rms_dB: fit.startDb,
    lag_1_autocorrelation: fit.lag1Autocorrelation,
    noise_dB: fit.residual.noiseDb,
    noise_stated: fit.residual.isStated,
    reduced_chi_square: fit.residual.chiSquare,
    autocorrelation_score: fit.residual.autocorrelationScore,
    judgement: fit.judgement,
    degrees_of_freedom: fit.degreesOfFreedom,
    converged: fit.converged,
    curved_fronts: fit.curved && {
      told: fit.curved.told,
      scatter_dB: fit.curved.scatterDb,
      moves: fit.curved.moves,
    },
    words: columnFitWords(fit),
  },
});

function report({ measured, before, fit, after, offers }: Answer, setup: Setup): string {
  return [
    `${setup.name}: gap ${formatLength(before.gapMm, "mm")} (${formatLength(before.gapMm, "in")}), ${gapKindWords(setup, before.gapMm)}, against ${measured.frequencies.length} measured points\n`,
    `Read as: ${readingWords(measured)}\n`,
    ...(offers.level ? [`\n${offers.level}\n`] : []),
    `\nMeasured less model${fit ? ", as the setup has it" : ""}\n`,
    differences(before, instrumentOf(setup)),
    ...(fit && after
      ? [
          "\nFitted, at 95 %\n",
          estimates(fit),
          ...correlations(fit),
          "\nMeasured less model, fitted\n",
          differences(after, instrumentOf(setup)),
        ]
      : []),
    ...(fit ? columnFitWords(fit) : []).map((words) => `\n${words}\n`),
    ...(offers.bell ? [`${offers.bell}\n`] : []),
  ].join("");
}

function differences(overlaid: Overlay, instrument: InstrumentKind): string {
  const { peaks } = overlaid;
  const head = ["note", "model/Hz", "measured/Hz", "cents", "height/dB", "model Q", "measured Q"];
  const rows = peaks.map(({ n, model, measured, cents, heightDb }) => [
    noteLabel(n, instrument),
    model.frequencyHz.toFixed(2),
    measured?.frequencyHz.toFixed(2) ?? "–",
    signed(cents, 1),
    signed(heightDb, 2),
    model.Q.toFixed(1),
    measured?.Q.toFixed(1) ?? "–",
  ]);
  return `${textTable(head, rows)}Over all frequencies: ${apartWords(overlaid)} root mean square.\n${peakWords(overlaid, instrument).join("\n")}\n`;
}

function estimates({ estimates: all, scatterDb, scatterDegrees, startDb }: ColumnFit): string {
  const rows = all.map((estimate) => {
    const { name, unit, start } = estimate.unknown;
    const digits = digitsOf(estimate);
    return [
      `${name}${unit && `/${unit}`}`,
      start.toFixed(digits),
      estimate.value.toFixed(digits),
      estimate.standard?.toFixed(digits) ?? "unknown",
      estimate.interval?.[0].toFixed(digits) ?? "–",
      estimate.interval?.[1].toFixed(digits) ?? "–",
    ];
  });
  return (
    textTable(["unknown", "setup", "fitted", "u", "from", "to"], rows) +
    `Left over: ${scatterDb.toFixed(3)} dB${scatterDegrees === null ? "" : ` and ${scatterDegrees.toFixed(2)}°`}, from ${startDb.toFixed(3)} dB.\n`
  );
}

/** As many that the uncertainty has two figures. */
const digitsOf = ({ standard }: Estimate): number =>
  standard === null || !(standard > 0) ? 3 : Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(standard))));

function correlations({ correlation, estimates: all }: ColumnFit): string[] {
  if (!correlation || all.length < 2) return [];
  const pairs = all.flatMap(({ unknown }, i) =>
    all
      .slice(0, i)
      .map((other, k) => `${other.unknown.name} and ${unknown.name} ${signed(correlation[i][k], 2)}`),
  );
  return [`Correlations: ${pairs.join("; ")}.\n`];
}
