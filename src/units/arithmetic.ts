/**
 * Where arithmetic is parsed. mathjs's grammar (`expression.ts`) puts itself here when it is loaded: at the start in the terminal,
 * and on the page after its first curve, which few lengths need it for.
 */
import type { MathNode } from "mathjs/number";

type Parse = (text: string) => MathNode;

let grammar: Parse | null = null;

export function readArithmeticWith(parse: Parse): void {
  grammar = parse;
}

export const isArithmeticThere = (): boolean => grammar !== null;

/** Null where the grammar has not been loaded. */
export const grammarOfArithmetic = (): Parse | null => grammar;
