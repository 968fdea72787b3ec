import { writeFileSync } from "node:fs";
import type { Command } from "commander";
import { exponentialSweep, USUAL_SWEEP, wavBytes } from "../../index.ts";
import { cannotBeWritten } from "../terminal/fileText.ts";
import { numberOf } from "../terminal/numberText.ts";
import { parseHertz } from "./frequencyText.ts";

interface Options {
  readonly seconds: string;
  readonly from: string;
  readonly to: string;
  readonly rate: string;
}

/** `annulus excitation OUT.wav`: the sweep that a small loudspeaker plays into the mouthpiece. */
export function excitationCommand(program: Command): void {
  program
    .command("excitation")
    .description(
      "a sweep to play through a small loudspeaker at the mouthpiece, with silence before and after",
    )
    .argument("<out>", "WAV file to write")
    .option("--seconds <s>", "how long it sweeps, 1 to 60", `${USUAL_SWEEP.seconds}`)
    .option("--from <hertz>", "where it begins", `${USUAL_SWEEP.fromHz}Hz`)
    .option("--to <hertz>", "where it ends", `${USUAL_SWEEP.toHz}Hz`)
    .option("--rate <number>", "samples a second", `${USUAL_SWEEP.rate}`)
    .addHelpText(
      "after",
      "\nStart with the volume turned right down and nothing at an ear: a sweep that is comfortable in the room can be\npainful from an earphone. Raise it until the recording is clearly louder than the room, no further.\n(common practice, no source)",
    )
    .action((path: string, { seconds, from, to, rate }: Options) => {
      const samples = exponentialSweep({
        seconds: numberOf("--seconds", seconds, USUAL_SWEEP.seconds),
        fromHz: parseHertz("--from", from),
        toHz: parseHertz("--to", to),
        rate: numberOf("--rate", rate, USUAL_SWEEP.rate),
      });
      try {
        writeFileSync(path, wavBytes({ samples, rate: Number(rate) }));
      } catch (error) {
        throw cannotBeWritten(path, error);
      }
      process.stderr.write(`annulus: wrote ${path}: start quiet, and never with an earphone at an ear\n`);
    });
}
