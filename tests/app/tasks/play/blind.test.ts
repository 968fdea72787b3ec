import { describe, expect, test } from "vitest";
import { coin, dealt, guessed, soundOf } from "../../../../src/app/tasks/play/blind.ts";

describe("two gaps as A and B", () => {
  test("one of them is A and the other B", () => {
    for (const heads of [true, false]) {
      const blind = dealt(heads);
      expect(soundOf(blind, "A")).toBe(heads ? "chosen" : "reference");
      expect(soundOf(blind, "B")).toBe(heads ? "reference" : "chosen");
      expect(blind).toMatchObject({ heard: "A", guess: null, right: 0, of: 0 });
    }
  });

  test("a guess is right when its letter is the wider gap, and counts once", () => {
    const blind = dealt(true);
    const right = guessed(blind, "A", "chosen");
    expect(right).toMatchObject({ guess: "A", right: 1, of: 1 });
    expect(guessed(right, "B", "chosen")).toBe(right);
    expect(guessed(blind, "A", "reference")).toMatchObject({ right: 0, of: 1 });
    expect(guessed(blind, "B", "reference")).toMatchObject({ right: 1, of: 1 });
  });

  test("the score goes on into the next round, the guess does not", () => {
    const next = dealt(false, guessed(dealt(true), "A", "chosen"));
    expect(next).toMatchObject({ a: "reference", guess: null, right: 1, of: 1 });
  });

  test("the coin falls on both sides", () => {
    const heads = Array.from({ length: 200 }, coin).filter(Boolean).length;
    // beyond these in fewer than 1 of 10^12 runs
    expect(heads).toBeGreaterThan(50);
    expect(heads).toBeLessThan(150);
  });
});
