import { expect, it } from "vitest";
import { unlessEnded } from "../../../src/app/work/unlessEnded.ts";
import { heldBytes } from "../../heldBytes.ts";

const never = new Promise<never>(() => {});

it("gives the answer, or why there was none", async () => {
  expect(await unlessEnded(Promise.resolve(1), [never])).toBe(1);
  await expect(unlessEnded(Promise.reject(new Error("wrong")), [never])).rejects.toThrow("wrong");
});

it("tells everybody who waits that it ended, and everybody who asks afterwards", async () => {
  let end = (_: Error) => {};
  const died = new Promise<never>((_, reject) => {
    end = reject;
  });
  const both = [1, 2].map(() => unlessEnded(new Promise(() => {}), [never, died]));
  end(new Error("died"));
  for (const one of both) await expect(one).rejects.toThrow("died");
  for (let again = 0; again < 2; again++)
    await expect(unlessEnded(new Promise(() => {}), [died])).rejects.toThrow("died");
});

it("holds no answer, however many there were", async () => {
  const answer = () => unlessEnded(Promise.resolve(new Float64Array(1e5)), [never]);
  await answer();
  const before = heldBytes();
  // eighty megabytes
  for (let i = 0; i < 100; i++) expect((await answer()).length).toBe(1e5);
  // what was awaited last may still be on its way
  await new Promise((resolve) => setTimeout(resolve));
  expect(heldBytes() - before).toBeLessThan(4e6);
});
