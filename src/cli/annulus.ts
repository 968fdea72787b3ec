/**
 * The studies from a terminal. Results go to standard output, messages to standard error; exit 0, 1 (bad input, one line
 * saying what, where and what would be right) or 2 (usage).
 */

import { Command, CommanderError } from "commander";
import { InputError, SetupError } from "../index.ts";
import { OutOfRange } from "../units/outOfRange.ts";
import { cutCommand } from "./bench/cut.ts";
import { fitCommand } from "./bench/fit.ts";
import { gapCommand } from "./bench/gap.ts";
import { gaugeCommand } from "./bench/gauge.ts";
import { wrapCommand } from "./bench/wrap.ts";
import { cavityCommand } from "./instrument/cavity.ts";
import { curveCommand } from "./instrument/curve.ts";
import { flowCommand } from "./instrument/flow.ts";
import { modesCommand } from "./instrument/modes.ts";
import { slotsCommand } from "./instrument/slots.ts";
import { standInCommand } from "./instrument/standIn.ts";
import { sweepCommand } from "./instrument/sweep.ts";
import { uncertaintyCommand } from "./instrument/uncertainty.ts";
import { verdictsCommand } from "./instrument/verdicts.ts";
import { compareCommand } from "./leadpipe/compare.ts";
import { designCommand } from "./leadpipe/design.ts";
import { measuredCommand } from "./leadpipe/measured.ts";
import { excitationCommand } from "./sound/excitation.ts";
import { impedanceCommand } from "./sound/impedance.ts";
import { listenCommand } from "./sound/listen.ts";
import { responseCommand } from "./sound/response.ts";
import { ReadingError } from "./terminal/fileText.ts";

const program = new Command("annulus")
  .description("What the receiver gap of a brass instrument does: measured, modelled, compared.")
  .version("0.1.0")
  .exitOverride()
  .showSuggestionAfterError()
  .configureHelp({ sortSubcommands: false });

for (const add of [
  curveCommand,
  modesCommand,
  sweepCommand,
  slotsCommand,
  compareCommand,
  designCommand,
  uncertaintyCommand,
  verdictsCommand,
  measuredCommand,
  cavityCommand,
  flowCommand,
  gapCommand,
  fitCommand,
  cutCommand,
  wrapCommand,
  gaugeCommand,
  listenCommand,
  excitationCommand,
  responseCommand,
  impedanceCommand,
  standInCommand,
])
  add(program);

// a reader that has seen enough (head, less) is no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

try {
  await program.parseAsync();
} catch (error) {
  if (error instanceof CommanderError) {
    process.exitCode = error.exitCode === 0 ? 0 : 2;
  } else if (
    error instanceof SetupError ||
    error instanceof InputError ||
    error instanceof ReadingError ||
    error instanceof OutOfRange
  ) {
    process.stderr.write(`annulus: ${error.message.replace(/\s*\n\s*/g, " ")}\n`);
    process.exitCode = 1;
  } else throw error;
}
