import type { Command } from "commander";
import { breathOf, impedanceCurve, parseFrequencyRange, parseLengthMm } from "../../index.ts";
import { csvOfRows } from "../../units/delimitedText.ts";
import { breathOption } from "../terminal/breathOption.ts";
import { formatOption } from "../terminal/formatOption.ts";
import { forEachSetup } from "../terminal/setups.ts";

/** `annulus curve SETUP`: input impedance at the rim against frequency. */
export function curveCommand(program: Command): void {
  program
    .command("curve")
    .description("input impedance at the rim against frequency")
    .argument("<setup>", "setup file, or - for standard input")
    .option("--gap <length>", "gap instead of the setup's own, e.g. 2.54mm or 0.1in")
    .option("--frequencies <range>", "start:stop:step in Hz, or a list", "40:2000:0.5")
    .addOption(breathOption())
    .addOption(formatOption("csv", "json"))
    .action(
      (path: string, options: { gap?: string; frequencies: string; breath: number; format: string }) => {
        const frequencies = parseFrequencyRange(options.frequencies);
        return forEachSetup(path, options.format, {
          study: (setup) =>
            impedanceCurve(
              setup,
              frequencies,
              options.gap === undefined ? undefined : parseLengthMm(options.gap, setup.units),
              breathOf(setup, options.breath),
            ),
          json: ({ frequencies, re, im }) => ({
            frequency_Hz: Array.from(frequencies),
            re_Pa_s_m3: Array.from(re),
            im_Pa_s_m3: Array.from(im),
          }),
          print: ({ frequencies, re, im }) =>
            csvOfRows([
              ["frequency_Hz", "re_Pa_s_m3", "im_Pa_s_m3"],
              ...Array.from(frequencies, (f, i) => [f, re[i], im[i]]),
            ]),
        });
      },
    );
}
