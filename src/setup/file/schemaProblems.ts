/**
 * What the JSON Schema says about a setup, in words. The validator compiles nothing, so a page's content security
 * policy may forbid eval. Its own messages name schema keywords; ours name the place, the value and what is accepted.
 */
import { type Schema, Validator } from "@cfworker/json-schema";
import setupSchema from "../../../shared/annulus-setup.schema.json" with { type: "json" };
import { type Problem, pathText, valueText } from "../problem.ts";

/** A copy with what each `$ref` stands for in its place, which the validator would look up for every number of a bore. */
const schema = inlined(setupSchema) as Schema;
const validator = new Validator(schema, "2020-12", false);

/** Keywords by which a schema refuses a value itself; all others only pass on what a part of theirs refused. */
const refusing = new Set(
  "type const enum minimum maximum minItems maxItems maxLength required additionalProperties".split(" "),
);

/** Every place where a value departs from the schema; at most one problem a place. `json` must be plain JSON. */
export function schemaProblems(json: unknown): Problem[] {
  const problems = new Map<string, Problem>();
  const refuse = (keys: readonly (string | number)[], value: unknown, message: string) => {
    const path = pathText(keys);
    if (!problems.has(path)) problems.set(path, { path, value, message });
  };

  for (const { keyword, keywordLocation, instanceLocation } of validator.validate(json).errors) {
    if (!refusing.has(keyword)) continue;
    const { keys, value } = follow(json, instanceLocation);
    const asked = schemaAt(keywordLocation, 1);
    if (keyword === "required") {
      for (const key of asked.required ?? [])
        if (!Object.hasOwn(value as object, key)) {
          refuse(
            [...keys, key],
            undefined,
            `missing; give ${acceptedText(asked.properties?.[key] as Schema)}`,
          );
        }
    } else if (keyword === "additionalProperties") {
      const known = Object.keys(asked.properties ?? {});
      for (const [key, entry] of Object.entries(value as object))
        if (!known.includes(key))
          refuse([...keys, key], entry, `unknown key; the keys here are ${known.join(", ")}`);
    } else {
      refuse(keys, value, `${valueText(value)} is not accepted; give ${acceptedText(asked)}`);
    }
  }
  return [...problems.values()];
}

/** What a part of the schema takes, in words. */
function acceptedText(asked: Schema): string {
  if (asked.const !== undefined) return JSON.stringify(asked.const);
  if (asked.enum !== undefined) return asked.enum.map((value) => JSON.stringify(value)).join(" or ");
  if (asked.type?.includes("object") && Array.isArray(asked.type))
    return 'a standard uncertainty: a number, text with a unit such as "0.02 mm", or an object with standard and degreesOfFreedom';
  if (Array.isArray(asked.type)) return 'a length: a number, or text with a unit such as "0.100 in"';
  switch (asked.type) {
    case "number":
      return `a number from ${asked.minimum} to ${asked.maximum}`;
    case "string":
      return `text of at most ${asked.maxLength} characters`;
    case "array":
      return asked.maxItems === 2
        ? "a pair [position, inner diameter]"
        : `a list of 2 to ${asked.maxItems} pairs [position, inner diameter]`;
    default:
      return `an object${asked.properties ? ` with ${Object.keys(asked.properties).join(", ")}` : ""}`;
  }
}

/** The place in the file that a JSON pointer such as `#/leadpipe/profile/3/0` names, and what stands there. */
function follow(json: unknown, pointer: string): { keys: (string | number)[]; value: unknown } {
  const keys: (string | number)[] = [];
  let value = json;
  for (const token of tokens(pointer)) {
    const key = Array.isArray(value) ? Number(token) : token;
    keys.push(key);
    value = (value as Record<string | number, unknown>)[key];
  }
  return { keys, value };
}

/** The part of the schema that a pointer names, `up` tokens short of its end. */
function schemaAt(pointer: string, up: number): Schema {
  const path = tokens(pointer);
  return valueUnder(schema, path.slice(0, path.length - up)) as Schema;
}

function valueUnder(value: unknown, path: readonly string[]): unknown {
  return path.reduce((part, token) => (part as Record<string, unknown>)[token], value);
}

/** A part of the setup's schema, whose references are to itself and never go round in a circle. */
function inlined(part: unknown): unknown {
  if (Array.isArray(part)) return part.map(inlined);
  if (typeof part !== "object" || part === null) return part;
  const { $ref, $defs, ...rest } = part as Schema;
  const own = Object.fromEntries(Object.entries(rest).map(([key, value]) => [key, inlined(value)]));
  return $ref === undefined ? own : { ...(inlined(valueUnder(setupSchema, tokens($ref))) as object), ...own };
}

function tokens(pointer: string): string[] {
  return pointer
    .split("/")
    .slice(1)
    .map((token) => decodeURIComponent(token).replaceAll("~1", "/").replaceAll("~0", "~"));
}
