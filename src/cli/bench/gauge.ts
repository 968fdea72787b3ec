import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { type Command, Option } from "commander";
import {
  type DrawnGauge,
  drawnGauge,
  GAUGE_KINDS,
  type GaugeKind,
  type GaugeOptions,
  InputError,
  type LengthUnit,
  parseLengthMm,
  type Setup,
  toDxf,
  toSvg,
  unknownLettersWords,
} from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { forEachSetup } from "../terminal/setups.ts";

interface Options {
  readonly kind: GaugeKind;
  readonly unit?: LengthUnit;
  readonly tolerance?: string;
  readonly step?: string;
  readonly gapFrom?: string;
  readonly gapTo?: string;
  readonly wall?: string;
  readonly springBack?: string;
  readonly overrun?: string;
  readonly format: "svg" | "pdf" | "dxf" | "json";
}

/** `annulus gauge SETUP`: a drawing to make a gauge, a leadpipe or a mandrel by. */
export function gaugeCommand(program: Command): void {
  program
    .command("gauge")
    .description("a workshop drawing: depth plug, go/no-go ring for the shank, leadpipe or its mandrel")
    .argument("<setup>", "setup file, or - for standard input")
    .addOption(new Option("--kind <kind>", "what is drawn").choices([...GAUGE_KINDS]).makeOptionMandatory())
    .addOption(new Option("--unit <unit>", "the shop's unit, the setup's if absent").choices(["mm", "in"]))
    .option("--tolerance <length>", "± on every dimension without its own (0.02mm or 0.001in)")
    .option("--step <length>", "plug: between shoulders; ring: between gap marks (0.5mm or 0.02in)")
    .option("--gap-from <length>", "ring: smallest gap that is right")
    .option("--gap-to <length>", "ring: largest (both: the setup's gap ± 0.25mm or 0.01in)")
    .option("--wall <length>", "leadpipe: thickness of its wall (0.5mm or 0.02in)")
    .option("--spring-back <length>", "mandrel: how much wider the tube comes off it, on the diameter (0)")
    .option("--overrun <length>", "mandrel: beyond each end of the tube (10mm or 0.4in)")
    .addOption(formatOption("svg", "pdf", "dxf", "json"))
    .addHelpText(
      "after",
      "\nPDF and SVG print at true size: choose 100 %, not “fit to page”. DXF is in millimetres.\nCommon practice, no source; a qualified repairer comes before any drawing.",
    )
    .action((path: string, options: Options) => {
      const { kind, format } = options;
      return forEachSetup(path, format, {
        study: (setup) => {
          const drawn = drawnGauge(setup, kind, gaugeOptions(setup, options));
          if ("refused" in drawn) throw new InputError(`--kind ${kind}: ${drawn.refused}`);
          if (format === "pdf" && process.stdout.isTTY)
            throw new InputError(
              "--format pdf: a PDF is no text for a terminal; send it to a file, > gauge.pdf",
            );
          return drawn;
        },
        json: asJson,
        print: ({ sheet }) => fileOf(sheet, format),
      });
    });
}

const asJson = ({ kind, sheet, gauge, notes, cautions }: DrawnGauge) => ({
  kind,
  title: sheet.title,
  ...inSnakeCase(gauge),
  notes,
  cautions,
});

function gaugeOptions(setup: Setup, options: Options): GaugeOptions {
  const { gapFrom, gapTo, unit = setup.units } = options;
  if ((gapFrom === undefined) !== (gapTo === undefined))
    throw new InputError(
      "--gap-from and --gap-to go together; give both, or neither for the setup's own gap",
    );
  const length = (name: keyof GaugeOptions, typed: string | undefined) =>
    typed === undefined ? {} : { [name]: parseLengthMm(typed, unit) };
  return {
    unit,
    ...length("toleranceMm", options.tolerance),
    ...length("stepMm", options.step),
    ...length("wallMm", options.wall),
    ...length("springBackMm", options.springBack),
    ...length("overrunMm", options.overrun),
    ...(gapFrom !== undefined &&
      gapTo !== undefined && { limitsMm: [parseLengthMm(gapFrom, unit), parseLengthMm(gapTo, unit)] }),
  };
}

async function fileOf(sheet: DrawnGauge["sheet"], format: Options["format"]): Promise<string | Uint8Array> {
  if (format === "dxf") return toDxf(sheet);
  if (format === "pdf") return pdfOf(sheet);
  return toSvg(sheet);
}

/** Its library is large, and no other command needs it. */
async function pdfOf(sheet: DrawnGauge["sheet"]): Promise<Uint8Array> {
  const { toPdf } = await import("../../drawing/toPdf.ts");
  const { resolve } = createRequire(import.meta.url);
  const { bytes, unknownLetters } = await toPdf(sheet, (name) =>
    readFile(resolve(`@fontsource/source-sans-3/files/${name}`)),
  );
  if (unknownLetters.length > 0) process.stderr.write(`annulus: ${unknownLettersWords(unknownLetters)}\n`);
  return bytes;
}

/** Names of the terminal's JSON: `noseDiameterMm` is `nose_diameter_mm`; what there is none of is null. */
function inSnakeCase(value: object): Record<string, unknown> {
  const plain = (one: unknown): unknown =>
    Array.isArray(one)
      ? one.map(plain)
      : typeof one === "object" && one !== null
        ? inSnakeCase(one)
        : (one ?? null);
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => [
      name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`),
      plain(one),
    ]),
  );
}
