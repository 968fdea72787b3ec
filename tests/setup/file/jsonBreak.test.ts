import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jsonBreak } from "../../../src/setup/file/jsonBreak.ts";

/** The text up to the place that is named. */
function upTo(text: string): string {
  const { line, column } = jsonBreak(text);
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/);
  return lines.slice(0, line - 1).join("") + (lines[line - 1] ?? "").slice(0, column - 1);
}

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

describe("jsonBreak", () => {
  it("reads JSON to its end", () =>
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(undefined, 2, "\t"), (json, space) => {
        const text = JSON.stringify(json, null, space);
        expect(upTo(text)).toBe(text);
      }),
    ));

  it("stops short of the end in all that JSON.parse refuses, unless the text ends too early", () => {
    const pieces = fc.constantFrom(...'{ } [ ] , : "a" " 1 -1.5e3 01 true nul \\ \'x\' \n \t'.split(" "));
    fc.assert(
      fc.property(
        fc.array(pieces, { maxLength: 8 }).map((parts) => parts.join("")),
        (text) => {
          fc.pre(!isJson(text));
          const { found } = jsonBreak(text);
          if (upTo(text) === text) expect(found).toBe("the text ends too early");
          else expect(found).toMatch(/^unexpected "/);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
