import { type Command, InvalidArgumentError, Option } from "commander";
import {
  between,
  InputError,
  MOST_STEPS,
  parseLengthMm,
  quoteTyped,
  type Reading,
  readMeasured,
  type Setup,
  UNKNOWNS,
  type UnknownName,
  withGap,
} from "../../index.ts";
import { textOf } from "../terminal/fileText.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { numberParser, wholeParser } from "../terminal/numberText.ts";
import { forEachSetup } from "../terminal/setups.ts";
import { FORMER_KEYS, type MeasuredAnswer, measuredAnswer, measuredJson } from "./measuredAnswer.ts";
import { measuredText } from "./measuredText.ts";

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
      return forEachSetup(path, options.format, {
        study: (setup) => study(setup, text, options),
        json: measuredJson,
        rows: (answer) => measuredJson(answer).peaks,
        print: measuredText,
        formerKeys: FORMER_KEYS,
      });
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

/** The measurement as the options have it read, and what is asked of it. */
function study(given: Setup, text: string, options: Options): MeasuredAnswer {
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
  return measuredAnswer(setup, measured, options.fit ?? [], options);
}
