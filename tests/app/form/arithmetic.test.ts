import { afterEach, expect, test, vi } from "vitest";

afterEach(() => vi.resetModules());

/** A page whose grammar is not there yet. */
async function fresh() {
  vi.resetModules();
  const length = await import("../../../src/units/length.ts");
  const form = await import("../../../src/app/form/arithmetic.ts");
  return { ...length, ...form };
}

test("what most people type is read without the grammar, and refused without it", async () => {
  const { parseLengthMm, isReadable } = await fresh();
  const plain = ["2.54", "2,54 mm", "-1/8 in", '1 1/8"', "⅛ in", "1e-1 cm", "+ 3 mm"];
  expect(plain.map((text) => parseLengthMm(text, "mm"))).toEqual([2.54, 2.54, -3.175, 28.575, 3.175, 1, 3]);
  for (const text of ["", "nine", "mm", "3 feet mm", "2026: seen", "0f-3a", "Trumpet 1-2 (old)", "1/0"]) {
    expect(isReadable(text), text).toBe(text !== "1/0");
    if (text !== "1/0") expect(() => parseLengthMm(text, "mm"), text).toThrow(/; give a number with mm/);
  }
});

test("a sum waits for the grammar, which is fetched once", async () => {
  const { parseLengthMm, isReadable, isJsonReadable, fetchArithmetic } = await fresh();
  const kept = JSON.stringify({ depth: ["1 in", '1" - 1/16"'] });
  expect([isReadable("3.2 mm - 1/16 in"), isJsonReadable(kept)]).toEqual([false, false]);
  expect(isJsonReadable(JSON.stringify({ id: "b1-c2", at: "2026-11-28T10:00:00Z", depth: "1 in" }))).toBe(
    true,
  );
  expect(() => parseLengthMm("1 + 1 mm", "mm")).toThrow(
    '"1 + 1 mm" is a sum, and what works out sums could not be loaded; give a number with mm',
  );
  expect(fetchArithmetic()).toBe(fetchArithmetic());
  await fetchArithmetic();
  expect([isReadable("3.2 mm - 1/16 in"), isJsonReadable(kept)]).toEqual([true, true]);
  expect(parseLengthMm("3.2 mm - 1/16 in", "mm")).toBeCloseTo(1.6125, 12);
});
