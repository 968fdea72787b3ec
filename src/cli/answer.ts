/** All commands of the terminal, and one call of any of them. */

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

const COMMANDS = [
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
];

/**
 * Answers one call, as typed behind the program's name.
 *
 * @returns what to exit with; a command that has answered and is to be told from a good answer says so in `process.exitCode`
 */
export async function answer(words: readonly string[]): Promise<number> {
  const program = new Command("annulus")
    .description("What the receiver gap of a brass instrument does: measured, modelled, compared.")
    .version("0.1.0")
    .exitOverride()
    .showSuggestionAfterError()
    .configureHelp({ sortSubcommands: false });
  for (const add of COMMANDS) add(program);
  try {
    await program.parseAsync(words, { from: "user" });
    return Number(process.exitCode ?? 0);
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    const isForPeople =
      error instanceof SetupError ||
      error instanceof InputError ||
      error instanceof ReadingError ||
      error instanceof OutOfRange;
    if (!isForPeople) throw error;
    process.stderr.write(`annulus: ${error.message.replace(/\s*\n\s*/g, " ")}\n`);
    return 1;
  }
}
