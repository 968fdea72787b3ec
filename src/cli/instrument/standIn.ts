import type { Command } from "commander";
import { FAMILY, InputError, isStandIn, quoteTyped, STAND_INS, standIn, writeSetup } from "../../index.ts";

/** `annulus standin cornet`: the setup file of an invented, ordinary instrument of a family, to begin with. */
export function standInCommand(program: Command): void {
  program
    .command("standin")
    .description("a setup file to begin with: an invented, ordinary instrument of a family")
    .argument("[family]", "which, as --list names them")
    .option("--list", "the families there are")
    .action(async (family: string | undefined, { list }: { list?: true }) => {
      if (list) {
        const width = Math.max(...STAND_INS.map(({ length }) => length));
        for (const id of STAND_INS) process.stdout.write(`${id.padEnd(width)}  ${FAMILY[id].name}\n`);
        return;
      }
      if (family === undefined || !isStandIn(family))
        throw new InputError(
          `standin: ${family === undefined ? "no family is named" : `there is no ${quoteTyped(family)}`}; give one of ${STAND_INS.join(", ")}`,
        );
      process.stdout.write(`${JSON.stringify(writeSetup(await standIn(family)), null, 1)}\n`);
    });
}
