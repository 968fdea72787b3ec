import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/setup/setup.ts";
import { withGap } from "../../../src/setup/withGap.ts";
import { type Measured, overlay } from "../../../src/study/measured/measured.ts";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import { levelWords } from "../../../src/words/measured/levelWords.ts";
import { demo as assumedDemo } from "../../acoustics/setups.ts";
import { synthetic } from "./measurements.ts";

const demo = (): Setup => assumedDemo();
/** An instrument that is a little other than its setup, measured with noise. */
const real = (): Setup => withGap(demo(), 3.3);
const { frequencies, re, im } = synthetic(real(), { noise: 0.02, step: 2 });

/** A file whose head says `head` and whose magnitudes are `factor` times Pa·s/m³, with a phase. */
function file(head: string, factor: number): string {
  const rows = Array.from(
    frequencies,
    (f, i) => `${f},${factor * Math.hypot(re[i], im[i])},${Math.atan2(im[i], re[i])}`,
  );
  return [`frequency (Hz),${head},phase (rad)`, ...rows].join("\n");
}

const guessOf = (text: string, given = {}) => overlay(demo(), readMeasured(text, "x", given)).level.guess;

describe("a measurement that stands too high or low throughout", () => {
  it.each([
    // said in SI's units, written in their multiples, and the other way about
    ["|Z| (Pa·s/m³)", 1e-6, 1e6],
    ["|Z| (MPa·s/m³)", 1, 1],
    ["|Z| (Pa·s/m³)", 1e-5, 1e5],
    // published MΩ taken for CGS ohms
    ["|Z| (ohm)", 1e-6, 1e6],
    ["|Z| (kPa·s/m³)", 1e-6, 1e6],
  ])("in %s, %s of it too large, suggests the unit that was meant", (head, factor, unit) => {
    const text = file(head, factor);
    expect(guessOf(text)?.read).toEqual({ scale: "absolute", unit });
    // said so, it is at home
    const said = overlay(demo(), readMeasured(text, "x", guessOf(text)?.read));
    expect(Math.abs(said.level.offsetDb)).toBeLessThan(0.5);
    expect(said.level.guess).toBeNull();
  });

  it.each([
    [10, "near a factor of 10."],
    [100, "near a factor of 100."],
    [2 * Math.PI, "near a factor of 2π (hertz"],
    [1 / (2 * Math.PI), "below the model at all frequencies alike, near a factor of 2π"],
    [2, "near a factor of 2."],
    [Math.SQRT2, "near a factor of √2"],
  ])("by a round factor of %s that no unit has is told by its factor", (factor, words) => {
    const measured = readMeasured(file("|Z| (Pa·s/m³)", factor));
    const found = overlay(demo(), measured);
    expect(found.level.guess!.factor).toBeCloseTo(factor, 9);
    expect(levelWords(found, measured.reading)).toContain(words);
    const { read } = found.level.guess!;
    expect(
      Math.abs(overlay(demo(), readMeasured(file("|Z| (Pa·s/m³)", factor), "x", read)).level.offsetDb),
    ).toBeLessThan(0.5);
  });

  it("tells multiples of ρc/S from Pa·s/m³, and an unknown unit by its level", () => {
    const over = overlay(demo(), readMeasured(file("|Z|/Zc", 1))).unit;
    expect(guessOf(file("|Z|/Zc", 1))?.read).toEqual({ scale: "absolute", unit: 1 });
    expect(guessOf(file("|Z| (Pa·s/m³)", 1 / over))?.read).toEqual({ scale: "characteristic" });
    expect(guessOf(file("|Z|", 1e-6))).toEqual({ read: { scale: "absolute", unit: 1e6 }, factor: null });
    expect(guessOf(file("|Z|", 3.7e-8))).toBeNull();
  });

  it("is offered and never applied: heights stay as they were read", () => {
    const { peaks, unit } = overlay(demo(), readMeasured(file("|Z| (Pa·s/m³)", 10)));
    expect(unit).toBe(1);
    expect(peaks.length).toBeGreaterThan(4);
    for (const { heightDb } of peaks) expect(Math.abs(heightDb! - 20)).toBeLessThan(1);
  });

  it("suggests nothing where it is right, a little off, or not off by the same everywhere", () => {
    expect(guessOf(file("|Z| (Pa·s/m³)", 1))).toBeNull();
    expect(guessOf(file("|Z| (Pa·s/m³)", 1.1))).toBeNull();
    expect(guessOf(file("|Z| (Pa·s/m³)", 4.6))).toBeNull();
    const clean = synthetic(real(), { step: 2 });
    const tilted: Measured = {
      ...clean,
      re: clean.re.map((x, i) => x * 10 ** (i / clean.re.length)),
      im: clean.im.map((x, i) => x * 10 ** (i / clean.im.length)),
    };
    expect(overlay(demo(), tilted).level.guess).toBeNull();
  });
});
