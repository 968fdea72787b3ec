/**
 * The studies from a terminal. Results go to standard output, messages to standard error; exit 0, 1 (bad input, one line
 * saying what, where and what would be right) or 2 (usage).
 */

import { Command, CommanderError } from "commander";
import { InputError, SetupError } from "../index.ts";
import { OutOfRange } from "../units/outOfRange.ts";
import { cavityCommand } from "./cavity.ts";
import { compareCommand } from "./compare.ts";
import { curveCommand } from "./curve.ts";
import { cutCommand } from "./cut.ts";
import { designCommand } from "./design.ts";
import { excitationCommand } from "./excitation.ts";
import { ReadingError } from "./fileText.ts";
import { fitCommand } from "./fit.ts";
import { flowCommand } from "./flow.ts";
import { gapCommand } from "./gap.ts";
import { gaugeCommand } from "./gauge.ts";
import { impedanceCommand } from "./impedance.ts";
import { listenCommand } from "./listen.ts";
import { measuredCommand } from "./measured.ts";
import { modesCommand } from "./modes.ts";
import { responseCommand } from "./response.ts";
import { slotsCommand } from "./slots.ts";
import { standInCommand } from "./standIn.ts";
import { sweepCommand } from "./sweep.ts";
import { uncertaintyCommand } from "./uncertainty.ts";
import { verdictsCommand } from "./verdicts.ts";
import { wrapCommand } from "./wrap.ts";

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
