import type { Command } from "commander";
import { cavityElements, InputError, parseLengthMm } from "../../index.ts";
import { formatOption } from "../terminal/formatOption.ts";

interface Options {
  readonly shankExit: string;
  readonly cavity: string;
  readonly leadpipe: string;
  readonly gap: string;
  readonly format: string;
}

/** `annulus cavity`: the gap region's inertance and compliance from three diameters and a length. */
export function cavityCommand(program: Command): void {
  program
    .command("cavity")
    .description("inertance and compliance of the gap between three straight bores")
    .requiredOption("--shank-exit <diameter>", "inner diameter at the shank's end, e.g. 8.5mm")
    .requiredOption("--cavity <diameter>", "inner diameter of the receiver around the gap")
    .requiredOption("--leadpipe <diameter>", "inner diameter at the leadpipe's start")
    .requiredOption("--gap <length>", "shank end to leadpipe")
    .addOption(formatOption("table", "json"))
    .action((options: Options) => {
      const dimensions = {
        shankExitMm: diameter("--shank-exit", options.shankExit),
        cavityMm: diameter("--cavity", options.cavity),
        leadpipeMm: diameter("--leadpipe", options.leadpipe),
        gapMm: gap(options.gap),
      };
      if (
        dimensions.cavityMm < Math.max(dimensions.shankExitMm, dimensions.leadpipeMm) &&
        dimensions.gapMm > 0
      )
        process.stderr.write(
          "annulus: note: a cavity narrower than a bore beside it is a constriction, not a gap\n",
        );
      const { inertanceOverDensity, compliance } = cavityElements(dimensions);
      process.stdout.write(
        options.format === "json"
          ? `${JSON.stringify({ inertance_over_density_per_m: inertanceOverDensity, compliance_m3_per_Pa: compliance }, null, 1)}\n`
          : `inertance / density  ${inertanceOverDensity.toPrecision(6)} 1/m\n` +
              `compliance           ${compliance.toPrecision(6)} m³/Pa (22 °C, half humid air)\n`,
      );
    });
}

function diameter(option: string, text: string): number {
  const mm = parseLengthMm(text, "mm");
  if (mm >= 0.1 && mm <= 1000) return mm;
  throw new InputError(
    `${option}: ${text} is no bore; give a diameter from 0.1 mm to 1000 mm, such as 8.5mm`,
  );
}

function gap(text: string): number {
  const mm = parseLengthMm(text, "mm");
  if (mm >= 0 && mm <= 1000) return mm;
  throw new InputError(`--gap: ${text} is no gap; give a length from 0 to 1000 mm, such as 2.54mm`);
}
