/**
 * Lengths as a person types them at a bench: `2.54 mm`, `1/8 in`, `1 1/8"`, `0,5 cm`, `3.2mm - 1/16 in`.
 *
 * The tree of the expression is walked here and just arithmetic on lengths gets through. The unit system of mathjs is left
 * out because it would add 50 kB to know one dimension.
 */
import type { MathNode } from "mathjs/number";
import { grammarOfArithmetic } from "./arithmetic.ts";
import { InputError, quoteTyped } from "./inputError.ts";
import { mmPerUnit } from "./lengthUnit.ts";
import { withoutRoundingNoise } from "./roundingNoise.ts";

/** A length that could not be read; the message is one line. */
export class LengthError extends InputError {
  override name = "LengthError";
}

export type LengthUnit = "mm" | "in";

/** A number, or a length in mm; which of the two decides what may be done with it. */
interface Quantity {
  readonly value: number;
  readonly isLength: boolean;
}

/** Why a text is not a length; becomes part of a `LengthError`. */
class Refusal extends Error {}

/** A number, a fraction, or a whole number and a fraction, and perhaps its unit. */
const PLAIN =
  /^([-+]?) ?(?:\((\d+)\+(\d+)\/(\d+)\)|(\d+)\/(\d+)|((?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)) ?([a-z]+)?$/i;

const longestText = 200;
const accepted = 'give a number with mm, cm, m, in or ", such as 2.54 mm, 0.100 in or 1 1/8 in';

/**
 * The length in mm that `text` stands for.
 *
 * Sums, differences, and multiples of lengths are worked out; a bare number is in `defaultUnit`, also as a term of a sum.
 *
 * @throws {LengthError} when it is anything but a finite length.
 */
export function parseLengthMm(text: string | number, defaultUnit: LengthUnit): number {
  const bareUnitMm = mmPerUnit(defaultUnit)!;
  if (typeof text === "number") {
    if (!Number.isFinite(text * bareUnitMm))
      throw new LengthError(`a length must be a finite number; ${accepted}`);
    return withoutRoundingNoise(text * bareUnitMm);
  }
  try {
    if (text.length > longestText) throw new Refusal(`is longer than ${longestText} characters`);
    const notation = toPlainNotation(text);
    const { value, isLength } = plain(notation) ?? evaluate(treeOf(notation), bareUnitMm);
    const lengthMm = isLength ? value : value * bareUnitMm;
    if (!Number.isFinite(lengthMm)) throw new Refusal("is too large");
    return withoutRoundingNoise(lengthMm);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    throw new LengthError(`${quoteTyped(text)} ${error.message}; ${accepted}`);
  }
}

/** Whether a text can only be read with the grammar of arithmetic. */
export function needsArithmetic(text: string): boolean {
  try {
    const notation = toPlainNotation(text);
    return text.length <= longestText && plain(notation) === null && unreadable(notation) === null;
  } catch (error) {
    if (error instanceof Refusal) return false;
    throw error;
  }
}

/** Why a text that is not plain is not arithmetic on lengths either, as far as its letters tell; null: they do not. */
function unreadable(notation: string): string | null {
  if (notation === "") return "is empty";
  if (!ALPHABET.test(notation) || /\b0[xbo]/i.test(notation)) return "is not a length";
  const words = notation.replace(/(\d\.?)e(?=[-+]?\d)/gi, "$1").match(/[a-z_]\w*/gi) ?? [];
  const unknown = words.find((word) => mmPerUnit(word) === undefined);
  if (unknown !== undefined) return notALengthUnit(unknown);
  if (/[-+*/(]/.test(notation)) return null;
  return words.length === 1 && notation === words[0] ? "has a unit without a number" : "is not a length";
}

const ALPHABET = /^[\w\s.+\-*/()]*$/;

/** What most people type, and nothing is worked out; null: it is no such text, or none that can be. */
function plain(notation: string): Quantity | null {
  const [, sign, whole, above, below, top, bottom, decimal, unit] = PLAIN.exec(notation) ?? [];
  if (sign === undefined) return null;
  const size = decimal ? Number(decimal) : above ? +whole + +above / +below : +top / +bottom;
  const unitMm = unit === undefined ? 1 : mmPerUnit(unit);
  if (unitMm === undefined || !Number.isFinite(size)) return null;
  return { value: (sign === "-" ? -size : size) * unitMm, isLength: unit !== undefined };
}

function treeOf(notation: string): MathNode {
  const why = unreadable(notation);
  if (why !== null) throw new Refusal(why);
  const parse = grammarOfArithmetic();
  if (!parse) throw new Refusal("is a sum, and what works out sums could not be loaded");
  try {
    return parse(notation);
  } catch {
    throw new Refusal("is not a length");
  }
}

/** What people write, in the notation that the parser knows. */
function toPlainNotation(text: string): string {
  // ⅛ is one character; normalising it in place would glue it to a whole number in front of it.
  const plain = text
    .replace(/[¼-¾⅐-⅞]/gu, (fraction) => ` ${fraction.normalize("NFKC").replace("⁄", "/")}`)
    .replace(/−/gu, "-")
    .replace(/[µμ]/gu, "u")
    .replace(/["″”]|''/gu, " inch")
    .replace(/\s+/gu, " ")
    .trim();
  // 1,030 is 1.03 to one reader and 1030 to the next: a cut cannot be undone, so ask.
  if (/(?<![\d.,])[1-9]\d{0,2}(,\d{3})+(?!\d)/.test(plain))
    throw new Refusal("can be read in two ways (comma for thousands or for decimals): write it with a point");
  if (/(?<![\d./])\d+-\d+\/\d/.test(plain))
    throw new Refusal(
      "can be read in two ways (1-1/8 is 1 1/8 or 1 less 1/8): write a space, or spaces round the minus",
    );
  return (
    plain
      .replace(/(?<!,\d*),(?=\d)(?!\d*,)/g, ".")
      // To the parser `in` is also an operator.
      .replace(/(?<![a-z])in(?![a-z])/gi, "inch")
      .replace(/(?<![\w./])(\d+) (\d+\/\d+)(?![\d.])/g, "($1+$2)")
  );
}

function evaluate(node: MathNode, bareUnitMm: number): Quantity {
  // The node classes of mathjs do not make a union that TypeScript could narrow by `type`.
  const { type, value, content, fn, args, implicit, name } = node as unknown as {
    type: string;
    value: unknown;
    content: MathNode;
    fn: unknown;
    args: MathNode[];
    implicit: boolean;
    name: string;
  };
  if (type === "ParenthesisNode") return evaluate(content, bareUnitMm);
  if (type === "ConstantNode" && typeof value === "number") {
    if (!Number.isFinite(value)) throw new Refusal("is not a finite length");
    return { value, isLength: false };
  }
  if (type === "SymbolNode")
    throw new Refusal(mmPerUnit(name) === undefined ? notALengthUnit(name) : "has a unit without a number");
  if (type !== "OperatorNode") throw new Refusal("is not arithmetic on lengths");

  if (implicit) return measured(evaluate(args[0], bareUnitMm), args[1]);
  const [a, b] = args.map((argument) => evaluate(argument, bareUnitMm));
  switch (args.length === 1 ? `${fn}` : `binary ${fn}`) {
    case "unaryPlus":
      return a;
    case "unaryMinus":
      return { ...a, value: -a.value };
    case "binary add":
      return sum(a, b, 1, bareUnitMm);
    case "binary subtract":
      return sum(a, b, -1, bareUnitMm);
    case "binary multiply":
      if (a.isLength && b.isLength) throw new Refusal("multiplies two lengths");
      return { value: a.value * b.value, isLength: a.isLength || b.isLength };
    case "binary divide":
      if (b.isLength) throw new Refusal("divides by a length");
      if (b.value === 0) throw new Refusal("divides by zero");
      return { value: a.value / b.value, isLength: a.isLength };
    default:
      throw new Refusal("is not arithmetic on lengths");
  }
}

/** A number followed by a unit. */
function measured(number: Quantity, unit: MathNode): Quantity {
  const { type, name } = unit as unknown as { type: string; name: string };
  if (type !== "SymbolNode" || number.isLength) throw new Refusal("is not a length");
  const unitMm = mmPerUnit(name);
  if (unitMm === undefined) throw new Refusal(notALengthUnit(name));
  return { value: number.value * unitMm, isLength: true };
}

/** a ± b. A bare number beside a length is a length in the default unit; two bare numbers stay one. */
function sum(a: Quantity, b: Quantity, sign: 1 | -1, bareUnitMm: number): Quantity {
  const isLength = a.isLength || b.isLength;
  const inMm = (q: Quantity) => (isLength && !q.isLength ? q.value * bareUnitMm : q.value);
  return { value: inMm(a) + sign * inMm(b), isLength };
}

const notALengthUnit = (name: string): string => `is not a length (${quoteTyped(name)} is no unit of length)`;
