/**
 * mathjs's grammar, which few typed lengths need: fetched after the first curve, or before whatever cannot be read without it.
 */
import { isArithmeticThere } from "../../units/arithmetic.ts";
import { needsArithmetic } from "../../units/length.ts";

let fetched: Promise<unknown> | null = null;

/** Resolves when arithmetic can be read; rejects where it cannot be fetched, and the next call tries again. */
export function fetchArithmetic(): Promise<unknown> {
  fetched ??= import("../../units/expression.ts").catch((error: unknown) => {
    fetched = null;
    throw error;
  });
  return fetched;
}

/** Whether nothing that a person typed waits for it. */
export const isReadable = (typed: string): boolean => isArithmeticThere() || !needsArithmetic(typed);

/** As `isReadable`, of all that a JSON text holds. */
export const isJsonReadable = (json: string): boolean =>
  isArithmeticThere() ||
  [...json.matchAll(/"((?:[^"\\]|\\.)*)"/g)].every(
    ([, text]) => !needsArithmetic(text.replaceAll('\\"', '"')),
  );
