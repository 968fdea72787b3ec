import { expect, it, vi } from "vitest";
import { KeptAnswers } from "../../src/study/keptAnswers.ts";

it("finds an answer once, of each subject, and lets go of the one longest unasked", () => {
  const kept = new KeptAnswers<object, number>(2);
  const [one, other] = [{}, {}];
  const find = vi.fn((value: number) => value);
  const ask = (subject: object, question: number) => kept.to(subject, [question], () => find(question));
  expect([ask(one, 1), ask(one, 2), ask(one, 1), ask(other, 1)]).toEqual([1, 2, 1, 1]);
  expect(find).toHaveBeenCalledTimes(3);
  // 2 is the longest unasked
  ask(one, 3);
  ask(one, 1);
  expect(find).toHaveBeenCalledTimes(4);
  ask(one, 2);
  expect(find).toHaveBeenCalledTimes(5);
  // what cannot be found is not kept
  expect(() =>
    kept.to(one, ["none"], () => {
      throw new Error("none");
    }),
  ).toThrow("none");
  expect(kept.to(one, ["none"], () => 7)).toBe(7);
});
