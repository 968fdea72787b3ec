import { expect, test } from "vitest";
import { answersToOtherLetters } from "./otherLetters.ts";

test.each([1, 2, 3, 4, 5, 6, 7, 8])(
  "any other letter at the end of a shared document is noticed, whatever its length (%i)",
  async (more) => {
    const answers = await answersToOtherLetters(more);
    expect(answers).toHaveLength(9 * 63);
    expect(new Set(answers)).toEqual(new Set([true]));
  },
);
