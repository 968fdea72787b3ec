import { describe, expect, test } from "vitest";
import {
  foundWords,
  isIdle,
  readFitAsked,
  readMeasurement,
  tooLong,
} from "../../../../src/app/state/bench/measuredImpedance.ts";
import { compareForm } from "../../../../src/app/state/notes/compare.ts";
import {
  LONGEST_MEASURED,
  type MeasuredNotes,
  measuredPart,
} from "../../../../src/app/state/notes/measured.ts";

/** A resonance at 150 Hz: in magnitude and degrees. */
const rows = [
  "frequency,magnitude,phase (deg)",
  ...Array.from({ length: 101 }, (_, i) => {
    const f = 100 + i;
    const x = 40 * (f / 150 - 1);
    return `${f},${(30 / Math.hypot(1, x)).toPrecision(6)},${((-180 / Math.PI) * Math.atan(x)).toFixed(3)}`;
  }),
];
const noted = (text: string, written: Partial<MeasuredNotes> = {}): MeasuredNotes => ({
  ...measuredPart.empty,
  ...written,
  text,
});
const whole = (notes: MeasuredNotes) => {
  const reading = readMeasurement(notes);
  if (!reading || !("measured" in reading)) throw new Error("a measurement is expected");
  return reading.measured;
};

describe("a measurement on the page", () => {
  test("is what was found until it is said otherwise, and every reading can be said", () => {
    expect(readMeasurement(noted(" \n"))).toBeNull();
    const found = whole(noted(rows.join("\n")));
    expect(found.reading).toMatchObject({ form: "magnitude-phase", phase: "degrees", scale: "relative" });
    expect(foundWords("scale", found.reading)).toBe("unknown");
    expect(isIdle("unit", found.reading)).toBe(true);
    const said = { ...measuredPart.empty.said, scale: "absolute", unit: "1000000", hertz: "1000" };
    const other = whole(noted(rows.join("\n"), { said }));
    expect(other.frequencies[0]).toBe(100_000);
    expect(Math.max(...other.re)).toBeCloseTo(30e6, -3);
    expect(isIdle("unit", other.reading)).toBe(false);
    const parts = whole(
      noted(rows.join("\n"), { said: { ...measuredPart.empty.said, form: "real-imaginary" } }),
    );
    expect([parts.re[50], parts.im[0]]).toEqual([found.re[50], Number(rows[1].split(",")[2])]);
    expect(isIdle("phase", parts.reading)).toBe(true);
  });

  test("that cannot be read is answered line by line", () => {
    const broken = rows.with(3, "102,abc,1");
    expect(readMeasurement(noted(broken.join("\n")))).toEqual({
      problems: [expect.stringMatching(/^Line 4: "abc" in column 2 is no number; give one/)],
    });
    expect(readMeasurement(noted(rows.slice(0, 6).join("\n")))).toEqual({
      problems: [expect.stringMatching(/only 5 frequencies; give at least 20/)],
    });
    expect(tooLong(LONGEST_MEASURED)).toBeNull();
    expect(tooLong(LONGEST_MEASURED + 1)).toMatch(/is not taken: 1000000 are as many as can be kept/);
  });

  test("range, noise and unknowns are read, or what is wrong with them said", () => {
    const all = whole(noted(rows.join("\n")));
    const asked = readFitAsked(noted("", { from: "120 Hz", to: "180", noise: "0.5 %" }), all);
    expect(asked).toMatchObject({ problems: {}, noise: 0.005, unknowns: ["wall-loss", "gap"] });
    expect([asked.measured!.frequencies[0], asked.measured!.frequencies.length]).toEqual([120, 61]);
    expect(readFitAsked(measuredPart.empty, all).noise).toBeNull();
    const wrong = readFitAsked(noted("", { from: "low", to: "110", noise: "none", unknowns: ["bell"] }), all);
    expect(wrong).toMatchObject({
      measured: null,
      noise: null,
      problems: {
        from: expect.stringMatching(/is not a number; give a number from 0 to 20000/),
        to: expect.stringMatching(/Only 11 frequencies lie in between/),
        noise: expect.stringMatching(/is not a number/),
        unknowns: "Tick one unknown or more.",
      },
    });
  });

  test("is kept as it was typed", () => {
    const measured = noted("100,x,1", { name: "mine.csv", isTaken: true, from: "80", unknowns: [] });
    expect(compareForm.ofJson(JSON.parse(JSON.stringify({ measured }))).measured).toEqual(measured);
    expect(compareForm.ofJson({ measured: { text: 7, said: 1, unknowns: "gap" } }).measured).toEqual(
      measuredPart.empty,
    );
  });
});
