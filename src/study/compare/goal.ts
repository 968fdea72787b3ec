/**
 * What a maker wants, written as an expression over named quantities of a variant: `abs(cents2) + 2*abs(cents5) - height4/10`;
 * the lower its value, the better. Or as weights on notes, `2:1, 3:1, 5:2`: the weighted r.m.s. of their cents.
 *
 * The tree of the expression is walked here, and nothing but arithmetic, the functions below and the
 * quantities gets through. There is nothing to assign to, to call on, to index or to loop with.
 */
import type { MathNode } from "mathjs/number";
import { parseExpression } from "../../units/expression.ts";
import { InputError, quoteTyped } from "../../units/inputError.ts";

/** A goal that cannot be understood; the message is one line. */
export class GoalError extends InputError {
  override name = "GoalError";
}

/** Quantities by name; null where a variant lacks it, as the height of a peak that is not there. */
export type Quantities = Readonly<Record<string, number | null>>;

export interface Goal {
  readonly text: string;
  /** Names it asks for. */
  readonly symbols: readonly string[];
  /** The lower the better; null where a quantity it needs is missing or the value is no finite number. */
  readonly score: (quantities: Quantities) => number | null;
}

const LONGEST = 1000;
const MOST_NODES = 500;

const FUNCTIONS: Readonly<Record<string, (...values: number[]) => number>> = {
  abs: Math.abs,
  sqrt: Math.sqrt,
  exp: Math.exp,
  log: Math.log,
  log2: Math.log2,
  log10: Math.log10,
  min: Math.min,
  max: Math.max,
  hypot: Math.hypot,
  mean: (...values) => values.reduce((sum, value) => sum + value, 0) / values.length,
};
const TAKES_ONE = new Set(["abs", "sqrt", "exp", "log", "log2", "log10"]);

const OPERATORS: Readonly<Record<string, (a: number, b: number) => number>> = {
  add: (a, b) => a + b,
  subtract: (a, b) => a - b,
  multiply: (a, b) => a * b,
  divide: (a, b) => a / b,
  pow: (a, b) => a ** b,
};

/**
 * @param known names that may stand in it
 * @throws {GoalError} naming what is not known and what is
 */
export function parseGoal(text: string, known: readonly string[]): Goal {
  if (text.trim() === "")
    throw new GoalError("the goal is empty; give one such as abs(cents2) + 2*abs(cents5)");
  if (text.length > LONGEST)
    throw new GoalError(`the goal is longer than ${LONGEST} characters; give a shorter one`);
  const expression = weightsAsExpression(text) ?? text;
  let tree: MathNode;
  try {
    tree = parseExpression(expression);
  } catch (error) {
    throw new GoalError(
      `${quoteTyped(text)} is no expression (${(error as Error).message.replace(/\s+/g, " ")}); give one such as abs(cents2) + 2*abs(cents5)`,
    );
  }
  const symbols = new Set<string>();
  let nodes = 0;
  const value = compile(tree);
  if (symbols.size === 0)
    throw new GoalError(`${quoteTyped(text)} names no quantity; known are ${inWords(known)}`);
  return {
    text,
    symbols: [...symbols],
    score: (quantities) => {
      for (const name of symbols) if (typeof quantities[name] !== "number") return null;
      const score = value(quantities as Readonly<Record<string, number>>);
      return Number.isFinite(score) ? score : null;
    },
  };

  type Value = (quantities: Readonly<Record<string, number>>) => number;

  function compile(node: MathNode): Value {
    if (++nodes > MOST_NODES)
      throw new GoalError(`the goal has more than ${MOST_NODES} parts; give a shorter one`);
    // the node classes of mathjs do not make a union that TypeScript could narrow by `type`
    const { type, value, content, fn, args, name, implicit } = node as unknown as {
      type: string;
      value: unknown;
      content: MathNode;
      fn: unknown;
      args: MathNode[];
      name: string;
      implicit?: boolean;
    };
    switch (type) {
      case "ConstantNode":
        if (typeof value === "number" && Number.isFinite(value)) return () => value;
        throw refusal(node);
      case "ParenthesisNode":
        return compile(content);
      case "SymbolNode":
        if (!known.includes(name))
          throw new GoalError(`${quoteTyped(name)} is not known; known are ${inWords(known)}`);
        symbols.add(name);
        return (quantities) => quantities[name];
      case "OperatorNode":
        // a forgotten sign would be taken for a product
        if (implicit && !args.some(({ type: one }) => one === "ConstantNode"))
          throw new GoalError(
            `${quoteTyped(node.toString({ implicit: "hide" }))} has no sign in between; give + - * or /`,
          );
        return operator(node, `${fn}`, args.map(compile));
      case "FunctionNode":
        return call((fn as { name?: string }).name ?? "", args.map(compile));
      default:
        throw refusal(node);
    }
  }

  function operator(node: MathNode, fn: string, args: readonly Value[]): Value {
    const [a, b] = args;
    if (fn === "unaryMinus") return (quantities) => -a(quantities);
    if (fn === "unaryPlus") return a;
    const of = Object.hasOwn(OPERATORS, fn) && args.length === 2 ? OPERATORS[fn] : undefined;
    if (!of) throw refusal(node);
    return (quantities) => of(a(quantities), b(quantities));
  }

  function call(name: string, args: readonly Value[]): Value {
    if (!Object.hasOwn(FUNCTIONS, name))
      throw new GoalError(
        `${quoteTyped(name)} is no function here; known are ${Object.keys(FUNCTIONS).join(", ")}`,
      );
    if (args.length === 0 || (TAKES_ONE.has(name) && args.length > 1))
      throw new GoalError(
        `${name} takes ${TAKES_ONE.has(name) ? "one value" : "one value or more"}; it was given ${args.length}`,
      );
    const of = FUNCTIONS[name];
    return (quantities) => of(...args.map((arg) => arg(quantities)));
  }

  function refusal(node: MathNode): GoalError {
    return new GoalError(
      `${quoteTyped(node.toString())} cannot stand in a goal; give numbers, + - * / ^, ${Object.keys(FUNCTIONS).join(", ")} and quantities`,
    );
  }
}

/** `2:1, 5:2` → sqrt((1*cents2^2 + 2*cents5^2)/(1+2)); null where it is no list of weights. */
function weightsAsExpression(text: string): string | null {
  const parts = text.split(",").map((part) => /^\s*(\d{1,2})\s*:\s*(\d+(?:\.\d+)?)\s*$/.exec(part));
  if (!parts.every((part) => part !== null)) return null;
  const total = parts.reduce((sum, [, , weight]) => sum + Number(weight), 0);
  if (!(total > 0)) throw new GoalError(`${quoteTyped(text)} weighs nothing; give a weight above 0`);
  return `sqrt((${parts.map(([, n, weight]) => `${weight}*cents${n}^2`).join(" + ")})/${total})`;
}

/** `f1, f2, …, f12` is said as `f1 to f12`. */
function inWords(known: readonly string[]): string {
  const families = new Map<string, string[]>();
  for (const name of known) {
    const family = name.replace(/\d+$/, "");
    families.set(family, [...(families.get(family) ?? []), name]);
  }
  return [...families.values()]
    .map((names) => (names.length > 2 ? `${names[0]} to ${names[names.length - 1]}` : names.join(", ")))
    .join(", ");
}
