import { describe, expect, it } from "vitest";
import { withGap } from "../../../src/setup/withGap.ts";
import { overlay } from "../../../src/study/measured/measured.ts";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import { peakWords } from "../../../src/words/measured/peakWords.ts";
import { readingWords } from "../../../src/words/measured/readingWords.ts";
import { demo } from "../../acoustics/setups.ts";
import { synthetic } from "./measurements.ts";

const whole = synthetic(withGap(demo(), 3.2), { step: 1 });
const { frequencies, re, im } = whole;
const sizes = re.map((x, i) => Math.hypot(x, im[i]));

const written = (head: string | null, number: (size: number) => number, rest = ""): string =>
  [
    ...(head === null ? [] : [head]),
    ...Array.from(frequencies, (f, i) => `${f},${Number(number(sizes[i]).toPrecision(9))}${rest}`),
  ].join("\n");
const decibels = (reference: number) => (size: number) => 20 * Math.log10(size / reference);

describe("a measurement without a phase", () => {
  it.each([
    ["frequency (Hz),|Z| (Pa·s/m³)", (size: number) => size, "linear", 1],
    ["frequency (Hz),|Z| (MPa·s/m³)", (size: number) => size / 1e6, "linear", 1e6],
    ["f,level (dB re 1 Pa·s/m³)", decibels(1), "dB", 1],
    ["f,level (dB re 1 MPa s/m3)", decibels(1e6), "dB", 1e6],
    ["f,|Z| in dB re 1 MOhm", decibels(1e6), "dB", 1e6],
  ] as const)("is read from %s", (head, number, magnitude, unit) => {
    const measured = readMeasured(written(head, number));
    expect(measured.reading).toMatchObject({ form: "magnitude", magnitude, scale: "absolute", unit });
    sizes.forEach((size, i) => {
      expect(measured.re[i] / size).toBeCloseTo(1, 6);
    });
    expect(readingWords(measured)).toContain("without a phase");
  });

  it.each([
    ["two columns of numbers", null, (size: number) => size, "linear", "absolute"],
    ["two columns of levels", null, decibels(1), "dB", "absolute"],
    ["levels that turn negative", null, decibels(1e7), "dB", "relative"],
    ["a level over nothing that is stated", "f,level (dB)", decibels(1e4), "dB", "relative"],
    ["a sound pressure level", "f,level (dB re 20 µPa)", decibels(1), "dB", "relative"],
    ["a voltage", "f,level (dB re 1 V)", decibels(1e8), "dB", "relative"],
    ["multiples of ρc/S", "f,|Z|/Zc", (size: number) => size / 2e6, "linear", "characteristic"],
  ] as const)("is understood as %s", (_, head, number, magnitude, scale) => {
    expect(readMeasured(written(head, number)).reading).toMatchObject({
      form: "magnitude",
      magnitude,
      scale,
    });
  });

  it("is taken from beside an uncertainty or a coherence, or where one says so", () => {
    const uncertain = readMeasured(written("f,|Z| (Pa·s/m³),|Z|_u", (size) => size, ",3"));
    expect(uncertain.reading.form).toBe("magnitude");
    expect(readMeasured(written("f,|Z| (Pa·s/m³),coherence", (size) => size, ",1")).reading.form).toBe(
      "magnitude",
    );
    const said = readMeasured(
      written("f,a,b", (size) => size, ",1"),
      "x",
      { form: "magnitude" },
    );
    expect([said.reading.form, said.im.every((x) => x === 0)]).toEqual(["magnitude", true]);
  });

  it("has the heights and frequencies of the whole, and no degrees", () => {
    const one = overlay(demo(), readMeasured(written("f,|Z| (Pa·s/m³)", (size) => size)));
    const other = overlay(demo(), whole);
    expect(one.peaks.length).toBeGreaterThan(5);
    one.peaks.forEach((peak, i) => {
      expect(peak.cents).toBeCloseTo(other.peaks[i].cents!, 4);
      expect(peak.heightDb).toBeCloseTo(other.peaks[i].heightDb!, 6);
      expect(peak.quality).toBeCloseTo(other.peaks[i].quality!, 6);
    });
    expect(one.rmsDb).toBeCloseTo(other.rmsDb, 6);
    expect(other.rmsDegrees).toBeGreaterThan(0);
    expect(one.rmsDegrees).toBeNull();
    expect(peakWords(one).join(" ")).toMatch(/Without a phase, .* a delay, .* cannot be told/);
    expect(peakWords(other).join(" ")).not.toMatch(/Without a phase/);
  });

  it("is refused where it is half of a complex number, or one column short of what was said", () => {
    const text = (head: string) => written(head, (size) => size);
    expect(() => readMeasured(text("f,Re Z"), "x")).toThrow(/x: line 1: "Re Z" alone is half an impedance/);
    expect(() => readMeasured(text("f,phase (deg)"), "x")).toThrow(
      /"phase \(deg\)" alone is half an impedance/,
    );
    expect(() => readMeasured(text("f,|Z|"), "x", { form: "magnitude-phase" })).toThrow(
      /2 columns; give three: a frequency and the two parts/,
    );
    expect(() => readMeasured(text("f,|Z|").replace("\n82,", "\n81.5\n82,"), "x")).toThrow(
      /1 column; give two: a frequency and a magnitude/,
    );
    expect(() => readMeasured(text("f,|Z|").replace(/,[^,]*$/, ",0"), "x")).toThrow(
      /an impedance of 0 has no size above 0/,
    );
  });
});
