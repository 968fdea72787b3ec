import type { Command } from "commander";
import { formatLength } from "../units/formatLength.ts";
import { parseLengthMm } from "../units/length.ts";
import { formatOption } from "./formatOption.ts";

interface Options {
  readonly depth: readonly string[];
  readonly insertion: readonly string[];
  readonly resolution?: string;
  readonly format: string;
}

/** `annulus gap`: the gap from repeat readings, with its uncertainty. */
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
    .option("--resolution <length>", "smallest step the measuring tool shows, e.g. 0.01mm")
    .addOption(formatOption("table", "json"))
    .action(async (options: Options) => {
      // statistics tables take a while to load, and only this command needs them
      const { gapFromReadings } = await import("../bench/gap.ts");
      const mm = (text: string) => parseLengthMm(text, "mm");
      const measured = gapFromReadings({
        depthMm: options.depth.map(mm),
        insertionMm: options.insertion.map(mm),
        ...(options.resolution === undefined ? {} : { resolutionMm: mm(options.resolution) }),
      });
      const {
        gapMm,
        standardUncertaintyMm,
        degreesOfFreedom,
        coverageFactor,
        intervalMm,
        confidence,
        advice,
      } = measured;
      // no gap is negative: some reading is wrong, which the advice names
      if (measured.isNegative) process.exitCode = 1;
      if (options.format === "json") {
        const finite = (value: number | undefined) =>
          value !== undefined && Number.isFinite(value) ? value : null;
        process.stdout.write(
          `${JSON.stringify(
            {
              gap_mm: gapMm,
              standard_uncertainty_mm: finite(standardUncertaintyMm),
              degrees_of_freedom: finite(degreesOfFreedom),
              coverage_factor: finite(coverageFactor),
              interval_mm: intervalMm ?? null,
              confidence,
              advice,
            },
            null,
            1,
          )}\n`,
        );
        return;
      }
      const both = (lengthMm: number, extra = 0) =>
        `${formatLength(lengthMm, "mm", 2 + extra)} (${formatLength(lengthMm, "in", 3 + extra)})`;
      const lines = [`gap                   ${both(gapMm)}`];
      if (standardUncertaintyMm !== undefined)
        lines.push(`standard uncertainty  ${both(standardUncertaintyMm, 1)}`);
      if (intervalMm)
        lines.push(`${100 * confidence} % interval         ${both(intervalMm[0])} to ${both(intervalMm[1])}`);
      process.stdout.write(`${lines.join("\n")}\n`);
      for (const line of advice) process.stderr.write(`annulus: ${line}\n`);
    });
}
