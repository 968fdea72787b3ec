/**
 * The studies from a terminal. Results go to standard output, messages to standard error; exit 0, 1 (bad input, one line
 * saying what, where and what would be right) or 2 (usage).
 */

import { answer } from "./answer.ts";

// a reader that has seen enough (head, less) is no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

process.exitCode = await answer(process.argv.slice(2));
