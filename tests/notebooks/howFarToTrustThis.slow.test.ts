import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { outcomeOf, partOf, shareNoticed } from "../../notebooks/how-far-to-trust-this/check.ts";
import { CHECKS } from "../../notebooks/how-far-to-trust-this/checks.ts";
import {
  centsOf,
  decibelsOf,
  ofInertance,
  ofReflection,
} from "../../notebooks/how-far-to-trust-this/heard.ts";
import { offAxisEffect, offAxisRows } from "../../notebooks/how-far-to-trust-this/theGap.ts";
import { deviation } from "../../notebooks/how-far-to-trust-this/words.ts";
import { junctionEffect } from "../../notebooks/how-the-gap-is-modelled/junctions.ts";
import { excessAt } from "../../notebooks/how-the-gap-is-modelled/limits.ts";
import type { ChangedMode } from "../../src/study/change/modeChanges.ts";

/** Tables that are no values from outside: setups, and what has a check of its own elsewhere. */
const apart = ["duct/start-horn.setup.json", "listen/truth.json", "response/truth.json"];

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
    const within = readdirSync(new URL("../reference", import.meta.url), {
      recursive: true,
      encoding: "utf8",
    });
    const tables = within.filter((name) => /\.(csv|json)$/.test(name) && !apart.includes(name));
    expect(tables.length).toBeGreaterThan(20);
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

describe("what an error is to a player", () => {
  it("is said in cents, dB or per cent wherever something is heard, and of statistics nothing", () => {
    for (const check of CHECKS) {
      const outcome = outcomeOf(check);
      const heard = Object.values(outcome.heard);
      expect(heard.length > 0, check.name).toBe(check.part !== "statistics and shapes");
      for (const sizes of heard) {
        expect(sizes.length).toBe(outcome.samples.length);
        for (const size of sizes) expect(size >= 0 && Number.isFinite(size), check.name).toBe(true);
      }
    }
  });

  it("is what it is known to be: a thousandth of frequency 1.7 cents, the whole of the gap's fields what they do", () => {
    expect(centsOf(1e-3)).toBeCloseTo(1.73, 2);
    expect(decibelsOf(0.01)).toBeCloseTo(0.0864, 4);
    const most = (of: (mode: ChangedMode) => number | null) =>
      Math.max(
        ...junctionEffect(2.54)
          .ofFields.slice(1, 10)
          .map((mode) => Math.abs(of(mode) ?? 0)),
      );
    const { cents, dB } = ofInertance(excessAt(2.54));
    expect(cents).toBeCloseTo(
      most(({ shiftCents }) => shiftCents),
      9,
    );
    expect(dB).toBeCloseTo(
      most(({ heightDb }) => heightDb),
      9,
    );
    // a wave's way there and back is 4 spacings long at the fourth note: a phase off by a hundredth, over 8π
    const { cents: atFourth = 0 } = ofReflection(0.01, 460);
    expect(atFourth).toBeGreaterThan(0.5);
    expect(atFourth).toBeLessThan(1);
  });

  it("of a shank off its axis is that of a hundredth of a millimetre of gap, and grows with its square", () => {
    const { percent, asGapMm } = offAxisEffect();
    expect(percent).toBeGreaterThan(0.34);
    expect(percent).toBeLessThan(0.4);
    expect(Math.abs(asGapMm - 0.01)).toBeLessThan(0.001);
    for (const { offAxisMm, asGapMm: worth } of offAxisRows.filter((row) => row.offAxisMm > 0))
      expect(worth / (asGapMm * (offAxisMm / 0.2) ** 2)).toBeCloseTo(1, 0);
    expect(offAxisRows).toHaveLength(12);
  });

  it("leaves the gap far below what is noticed and the bell nearest to it", () => {
    const shares = (part: string) =>
      CHECKS.filter((check) => check.part === part).map((check) => shareNoticed(outcomeOf(check)) ?? 0);
    expect(Math.max(...shares("gap"))).toBeLessThan(0.01);
    expect(Math.max(...shares("whole bore"))).toBeLessThan(0.1);
    expect(Math.max(...shares("bell"))).toBeGreaterThan(Math.max(...shares("whole bore")));
  });
});
