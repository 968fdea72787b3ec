import { InputError, quoteTyped } from "../../index.ts";

const PASCALS: Readonly<Record<string, number>> = { pa: 1, hpa: 100, mbar: 100, kpa: 1000 };

/**
 * How hard the lips are blown, as typed: a pressure (`3kPa`, `2500 Pa`) for all notes, or a multiple of each note's own
 * threshold (`1.3x`).
 */
export function parsePressure(text: string): { pascals: number } | { timesThreshold: number } {
  const match = /^\s*(\d+\.?\d*|\.\d+)\s*(pa|hpa|mbar|kpa|x|×)\s*$/i.exec(text);
  if (!match)
    throw new InputError(
      `${quoteTyped(text)} is no pressure; give one with its unit, such as 3kPa, or a multiple of the starting pressure, such as 1.3x`,
    );
  const value = Number(match[1]);
  const perUnit = PASCALS[match[2].toLowerCase()];
  return perUnit === undefined ? { timesThreshold: value } : { pascals: value * perUnit };
}
