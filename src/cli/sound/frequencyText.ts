import { InputError, quoteTyped } from "../../index.ts";

/** A frequency as typed, with its unit or without: `466Hz`, `466.2 hz`, `466`. */
export function parseHertz(option: string, text: string): number {
  const match = /^\s*(\d+\.?\d*|\.\d+)\s*(?:hz)?\s*$/i.exec(text);
  if (!match || Number(match[1]) === 0)
    throw new InputError(`${option}: ${quoteTyped(text)} is no frequency; give one such as 466Hz`);
  return Number(match[1]);
}

/** Several of them, with commas between. */
export const parseHertzList = (option: string, text: string): number[] =>
  text.split(",").map((part) => parseHertz(option, part));
