import type { Command } from "commander";
import { type BudgetRow, formatLength, type GapMeasurement, InputError, parseLengthMm } from "../../index.ts";
import { componentName } from "../../words/bench/budget.ts";
import { adviceWords } from "../../words/bench/gapAdvice.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { type FormerKeys, withFormerKeys } from "../terminal/formerNames.ts";
import { textTable } from "../terminal/table.ts";

interface Options {
  readonly depth: readonly string[];
  readonly insertion: readonly string[];
  readonly resolution?: string;
  readonly depthResolution?: string;
  readonly insertionResolution?: string;
  readonly depthZero?: string;
  readonly insertionZero?: string;
  readonly zeroUncertainty?: string;
  readonly depthZeroUncertainty?: string;
  readonly insertionZeroUncertainty?: string;
  readonly sameTool?: boolean;
  readonly format: string;
}

/** `annulus gap`: the gap from repeat readings, with its uncertainty and what that is made of. */
export function gapCommand(program: Command): void {
  program
    .command("gap")
    .description("the gap from measurements: receiver depth less insertion, with its uncertainty")
    .requiredOption(
      "--depth <length...>",
      "receiver's face to the start of the leadpipe; repeat readings allowed",
    )
    .requiredOption(
      "--insertion <length...>",
      "shank's end to the mark made at the receiver's face; repeat readings allowed",
    )
    .option("--resolution <length>", "smallest step the measuring tools show, e.g. 0.01mm")
    .option("--depth-resolution <length>", "the same of the depth's tool alone")
    .option("--insertion-resolution <length>", "the same of the insertion's tool alone")
    .option("--depth-zero <length>", "what the depth's tool shows at zero; subtracted from its readings")
    .option("--insertion-zero <length>", "what the insertion's tool shows at zero")
    .option("--zero-uncertainty <length>", "standard uncertainty of each tool's zero")
    .option("--depth-zero-uncertainty <length>", "the same of the depth's tool alone")
    .option("--insertion-zero-uncertainty <length>", "the same of the insertion's tool alone")
    .option("--same-tool", "one tool, that of the depth, measured both: its zero error cancels")
    .addOption(formatOption("table", "json"))
    .action(async (options: Options) => {
      // statistics tables take a while to load, and only this command needs them
      const { gapFromReadings } = await import("../../bench/measure/gap.ts");
      const insertionTool = toolOf(
        options.insertionResolution,
        options.insertionZero,
        options.insertionZeroUncertainty,
      );
      if (options.sameTool && Object.keys(insertionTool).length > 0)
        throw new InputError("--same-tool: one tool measured both; give the --depth-… options alone");
      const uncertainty = options.zeroUncertainty;
      const measured = gapFromReadings({
        depthMm: options.depth.map(mm),
        insertionMm: options.insertion.map(mm),
        ...(options.resolution === undefined ? {} : { resolutionMm: mm(options.resolution) }),
        depthTool: toolOf(
          options.depthResolution,
          options.depthZero,
          options.depthZeroUncertainty ?? uncertainty,
        ),
        ...(options.sameTool
          ? { sameTool: true }
          : {
              insertionTool: {
                ...(uncertainty === undefined ? {} : { zeroUncertaintyMm: mm(uncertainty) }),
                ...insertionTool,
              },
            }),
      });
      // no gap is negative: some reading is wrong, which the advice names
      if (measured.isNegative) process.exitCode = 1;
      if (options.format === "json") {
        process.stdout.write(`${JSON.stringify(withFormerKeys(asJson(measured), FORMER_KEYS), null, 1)}\n`);
        return;
      }
      process.stdout.write(table(measured));
      for (const one of measured.advice) process.stderr.write(`annulus: ${adviceWords(one, "mm")}\n`);
    });
}

const mm = (text: string): number => parseLengthMm(text, "mm");

const toolOf = (resolution?: string, zero?: string, zeroUncertainty?: string) => ({
  ...(resolution === undefined ? {} : { resolutionMm: mm(resolution) }),
  ...(zero === undefined ? {} : { zeroMm: mm(zero) }),
  ...(zeroUncertainty === undefined ? {} : { zeroUncertaintyMm: mm(zeroUncertainty) }),
});

/** JSON has no infinity: what is known exactly has null degrees of freedom. */
const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;
const inches = (lengthMm: number): number => lengthMm / 25.4;

const FORMER_KEYS: FormerKeys = { outliers: "outlying" };

function asJson(measured: GapMeasurement) {
  const { gapMm, standardUncertaintyMm: u, intervalMm, outliers } = measured;
  return {
    gap_mm: gapMm,
    gap_in: inches(gapMm),
    standard_uncertainty_mm: finite(u),
    standard_uncertainty_in: u === undefined ? null : inches(u),
    degrees_of_freedom: finite(measured.degreesOfFreedom),
    coverage_factor: finite(measured.coverageFactor),
    interval_mm: intervalMm ?? null,
    interval_in: intervalMm?.map(inches) ?? null,
    confidence: measured.confidence,
    depth_mm: measured.depthMm,
    insertion_mm: measured.insertionMm,
    budget: measured.budget.map((row) => ({
      component: componentName(row.component),
      standard_uncertainty_mm: finite(row.standardUncertainty),
      degrees_of_freedom: finite(row.degreesOfFreedom),
      variance_share: finite(row.varianceShare),
    })),
    outliers: (["depth", "insertion"] as const).flatMap((what) => {
      const outlier = outliers[what];
      return outlier === undefined
        ? []
        : [
            {
              what,
              number: outlier.index + 1,
              reading_mm: outlier.readingMm,
              grubbs: outlier.statistic,
              critical: outlier.criticalValue,
            },
          ];
    }),
    advice: measured.advice.map((one) => adviceWords(one, "mm")),
  };
}

function table(measured: GapMeasurement): string {
  const { gapMm, standardUncertaintyMm, intervalMm, confidence, budget } = measured;
  const both = (lengthMm: number, extra = 0) =>
    `${formatLength(lengthMm, "mm", 2 + extra)} (${formatLength(lengthMm, "in", 3 + extra)})`;
  const lines = [`gap                   ${both(gapMm)}`];
  if (standardUncertaintyMm !== undefined)
    lines.push(`standard uncertainty  ${both(standardUncertaintyMm, 1)}`);
  if (intervalMm)
    lines.push(`${100 * confidence} % interval         ${both(intervalMm[0])} to ${both(intervalMm[1])}`);
  return `${lines.join("\n")}\n\n${budgetTable(budget)}`;
}

function budgetTable(budget: readonly BudgetRow[]): string {
  const width = Math.max(...budget.map(({ component }) => componentName(component).length));
  return textTable(
    ["component".padEnd(width), "u/mm", "degrees of freedom", "share of variance"],
    budget.map(({ component, standardUncertainty, degreesOfFreedom, varianceShare }) => [
      componentName(component).padEnd(width),
      standardUncertainty === undefined ? "unknown" : standardUncertainty.toFixed(4),
      degreesOfFreedom === undefined
        ? "–"
        : Number.isFinite(degreesOfFreedom)
          ? `${degreesOfFreedom}`
          : "infinite",
      varianceShare === undefined ? "–" : `${(100 * varianceShare).toFixed(0)} %`,
    ]),
  );
}
