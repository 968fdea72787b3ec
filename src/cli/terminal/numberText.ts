/** Numbers as typed for options. */
import { InvalidArgumentError } from "commander";
import { InputError, quoteTyped } from "../../index.ts";

/** Not a number where none was typed. */
export const numberTyped = (text: string): number => (text.trim() === "" ? Number.NaN : Number(text));

/** Of an option that takes certain numbers only; any other is wrong usage. @param ask what would be right */
export const numberParser =
  (isRight: (value: number) => boolean, ask: string) =>
  (text: string): number => {
    const value = numberTyped(text);
    if (isRight(value)) return value;
    throw new InvalidArgumentError(ask);
  };

export const wholeParser = (least: number, most: number) =>
  numberParser(
    (value) => Number.isInteger(value) && value >= least && value <= most,
    `give a whole number from ${least} to ${most}.`,
  );

/** How many resonances a person asked for. */
export const modeCount = wholeParser(1, 40);

/** A number that an answer rests on; any other is bad input. @param wanted one that would do, or the least and the most */
export function numberOf(
  option: string,
  text: string,
  wanted: number | readonly [least: number, most: number],
): number {
  const value = numberTyped(text);
  if (typeof wanted === "number") {
    if (Number.isFinite(value)) return value;
    throw new InputError(`${option}: ${quoteTyped(text)} is no number; give one such as ${wanted}`);
  }
  const [least, most] = wanted;
  if (value >= least && value <= most) return value;
  throw new InputError(`${option}: ${quoteTyped(text)} cannot be; give ${least} to ${most}`);
}
