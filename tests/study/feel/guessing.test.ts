import { expect, test } from "vitest";
import { chanceByGuessing } from "../../../src/study/feel/guessing.ts";

// counted by hand from Pascal's triangle
test.each([
  [0, 0, 1],
  [0, 5, 1],
  [1, 1, 1 / 2],
  [4, 4, 1 / 16],
  [8, 10, (45 + 10 + 1) / 1024],
  [5, 9, 1 / 2],
])("%i of %i right", (right, of, chance) => {
  expect(chanceByGuessing(right, of)).toBeCloseTo(chance, 12);
});
