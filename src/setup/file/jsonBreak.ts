/**
 * Where a text stops being JSON. The engines' own messages differ and some name no place, so the text is read once
 * more: token by token, with a stack of open brackets in place of recursion so that no nesting is too deep.
 */
import { quoteTyped } from "../../units/inputError.ts";

const string = String.raw`"(?:[ !#-[\]-\uFFFF]|\\(?:["\\/bfnrt]|u[\dA-Fa-f]{4}))*"`;
const scalar = String.raw`-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[Ee][+-]?\d+)?|true|false|null`;
const token = new RegExp(String.raw`[\t\n\r ]*(?:([{}[\],:])|(${string})|(?:${scalar})(?![\w.+-]))`, "y");

/** What may come next: `firstKey` and `firstItem` also allow the bracket to close. */
type Expected = "value" | "firstItem" | "firstKey" | "key" | "colon" | "commaOrEnd";

/** Line and column (from 1) of the first character that cannot stand where it stands, and what was found, in words. */
export function jsonBreak(text: string): { line: number; column: number; found: string } {
  const offset = breakOffset(text);
  const before = text.slice(0, offset).split(/\r\n|\n|\r/);
  const character = text.slice(offset).match(/^./su)?.[0];
  return {
    line: before.length,
    column: before[before.length - 1].length + 1,
    found: character === undefined ? "the text ends too early" : `unexpected ${quoteTyped(character)}`,
  };
}

function breakOffset(text: string): number {
  const open: ("{" | "[")[] = [];
  let expected: Expected = "value";
  let offset = 0;
  const afterSpace = () => offset + text.slice(offset).search(/[^\t\n\r ]|$/);

  while (!(expected === "commaOrEnd" && open.length === 0)) {
    token.lastIndex = offset;
    const match = token.exec(text);
    if (match === null) return afterSpace();
    const next = after(match[1] ?? (match[2] === undefined ? "scalar" : "string"), expected, open);
    if (next === undefined) return afterSpace();
    expected = next;
    offset = token.lastIndex;
  }
  return afterSpace();
}

/** What may follow a token where `expected` was due; undefined when the token may not stand there. Keeps `open` up to date. */
function after(found: string, expected: Expected, open: ("{" | "[")[]): Expected | undefined {
  const isValueDue = expected === "value" || expected === "firstItem";
  const inside = open[open.length - 1];
  switch (found) {
    case "{":
    case "[":
      if (!isValueDue) return undefined;
      open.push(found);
      return found === "{" ? "firstKey" : "firstItem";
    case "}":
    case "]": {
      const isDue = found === "}" ? expected === "firstKey" : expected === "firstItem";
      const closes = expected === "commaOrEnd" && inside === (found === "}" ? "{" : "[");
      if (!isDue && !closes) return undefined;
      open.pop();
      return "commaOrEnd";
    }
    case ",":
      if (expected !== "commaOrEnd") return undefined;
      return inside === "{" ? "key" : "value";
    case ":":
      return expected === "colon" ? "value" : undefined;
    case "string":
      if (expected === "key" || expected === "firstKey") return "colon";
      return isValueDue ? "commaOrEnd" : undefined;
    default:
      return isValueDue ? "commaOrEnd" : undefined;
  }
}
