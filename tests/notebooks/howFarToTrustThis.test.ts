import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { outcomeOf, partOf } from "../../notebooks/how-far-to-trust-this/check.ts";
import { CHECKS } from "../../notebooks/how-far-to-trust-this/checks.ts";
import { deviation } from "../../notebooks/how-far-to-trust-this/words.ts";

/** Tables that are no values from outside: setups, and what has a check of its own elsewhere. */
const apart = ["start-horn.setup.json"];

describe("how far to trust this", () => {
  // the tolerances are those of the tests beside the code
  it.each(CHECKS)("$part: $name", (check) => {
    const { worst, isWithin, samples } = outcomeOf(check);
    expect(samples.length).toBeGreaterThan(2);
    for (const { ours, theirs } of samples)
      expect(Number.isFinite(ours) && Number.isFinite(theirs)).toBe(true);
    expect(isWithin, `${worst.of}: ${worst.off} of ${worst.asked}`).toBe(true);
  });

  it("leaves out no table of outside values", () => {
    const tables = readdirSync(new URL("../reference", import.meta.url)).filter(
      (name) => /\.(csv|json)$/.test(name) && !apart.includes(name),
    );
    const shown = new Set(CHECKS.flatMap(({ table }) => table.split(", ")));
    expect(tables.filter((name) => !shown.has(name))).toEqual([]);
  });

  it("would say so if a value were beyond what is asked, or not a number", () => {
    const check = { ...CHECKS[0], samples: () => [{ of: "it", ours: 1, theirs: 2, off: 0.5, asked: 0.1 }] };
    expect(outcomeOf(check).isWithin).toBe(false);
    expect(partOf({ of: "it", ours: Number.NaN, theirs: 2, off: Number.NaN, asked: 0.1 })).toBe(Infinity);
    expect(() => outcomeOf({ ...check, samples: () => [] })).toThrow(/has no row/);
  });

  it.each([
    [0, "1", "none"],
    [1.686e-4, "1", "0.017 %"],
    [1.466e-7, "1", "1.5·10⁻⁷"],
    [5.7e-4, "cents", "5.7·10⁻⁴ cents"],
    [0.0894, "cents", "0.089 cents"],
    [8.6e-5, "°", "8.6·10⁻⁵°"],
  ] as const)("writes %s %s as %s", (off, unit, text) => {
    expect(deviation(off, unit)).toBe(text);
  });
});
