/**
 * The gate before the schema: is this plain JSON of a sane size? What passes can be walked by recursion and handed to
 * the schema validator, which trips over values that JSON does not have, broken Unicode in keys and endless lists.
 */
import { type Problem, pathText, valueText } from "../problem.ts";

const deepest = 8;
const longestList = 5000;
const mostKeys = 100;

/** What is not plain JSON in a value, or is larger than any setup; empty when all is well. */
export function plainJsonProblems(json: unknown): Problem[] {
  const problems: Problem[] = [];
  // where the walk stands; one list that grows and shrinks, since a bore has hundreds of numbers
  const keys: (string | number)[] = [];
  const refuse = (value: unknown, message: string) => problems.push({ path: pathText(keys), value, message });
  const into = (key: string | number, visit: () => void) => {
    keys.push(key);
    visit();
    keys.pop();
  };

  const walk = (value: unknown): void => {
    if (problems.length >= 20) return;
    if (value === null || typeof value === "string" || typeof value === "boolean") return;
    if (typeof value === "number") {
      if (!Number.isFinite(value))
        refuse(value, "the number is too large or not a number; give a finite number");
    } else if (Array.isArray(value)) {
      if (value.length > longestList)
        refuse(value, `${valueText(value)} entries; give at most ${longestList}`);
      else if (keys.length >= deepest) refuse(value, "nested too deeply for a setup");
      else if (Object.keys(value).length !== value.length)
        refuse(value, "a list with holes or names; give a plain list");
      else for (let i = 0; i < value.length; i++) into(i, () => walk(value[i]));
    } else if (isPlainObject(value)) {
      const entries = Object.entries(value);
      if (entries.length > mostKeys) refuse(value, `an object of ${entries.length} keys; a setup has fewer`);
      else if (keys.length >= deepest) refuse(value, "nested too deeply for a setup");
      else
        for (const [key, entry] of entries)
          into(key, () => {
            if (/\p{Surrogate}/u.test(key)) refuse(entry, "the key is broken text; remove it");
            else walk(entry);
          });
    } else refuse(value, `${valueText(value)}; give a number, text, list or object`);
  };

  walk(json);
  return problems;
}

function isPlainObject(value: unknown): value is object {
  if (typeof value !== "object" || value === null) return false;
  const prototype = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
}
