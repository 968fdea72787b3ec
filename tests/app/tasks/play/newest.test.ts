import { expect, test } from "vitest";
import { newest } from "../../../../src/app/work/newest.ts";

test("one question is under way at a time, and of those that wait only the newest is asked", async () => {
  const asked: number[] = [];
  const answers: (() => void)[] = [];
  const ask = newest(
    (question: number) =>
      new Promise<void>((done) => {
        asked.push(question);
        answers.push(done);
      }),
  );
  for (const question of [1, 2, 3]) ask(question);
  expect(asked).toEqual([1]);
  answers[0]();
  await new Promise((done) => setTimeout(done));
  expect(asked).toEqual([1, 3]);
  answers[1]();
  await new Promise((done) => setTimeout(done));
  ask(4);
  expect(asked).toEqual([1, 3, 4]);
});
