// @vitest-environment jsdom
import { expect, test } from "vitest";
import { scoreWords } from "../../../../src/app/tasks/play/blindPanel.ts";

test.each([
  [8, 10, "8 of 10 right: a guesser does as well in 5 % of cases."],
  [1, 1, "1 of 1 right: a guesser does as well in 50 % of cases."],
  [0, 3, "0 of 3 right: a guesser does as well in 100 % of cases."],
  [20, 20, "20 of 20 right: a guesser does as well in less than 1 % of cases."],
])("%i of %i", (right, of, words) => {
  expect(scoreWords({ right, of })).toBe(words);
});
