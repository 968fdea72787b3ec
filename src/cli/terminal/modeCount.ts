import { InvalidArgumentError } from "commander";

/** How many resonances a person asked for. */
export function modeCount(text: string): number {
  const count = Number(text);
  if (!Number.isInteger(count) || count < 1 || count > 40)
    throw new InvalidArgumentError("give a whole number from 1 to 40.");
  return count;
}
