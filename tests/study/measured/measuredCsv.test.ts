import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CsvError } from "../../../src/bench/fit/partsCsv.ts";
import { readMeasured } from "../../../src/study/measured/measuredCsv.ts";
import type { Reading } from "../../../src/study/measured/measuredReading.ts";
import { readingWords } from "../../../src/words/measured/readingWords.ts";
import { demo } from "../../acoustics/setups.ts";
import { synthetic } from "./measurements.ts";

const { frequencies, re, im } = synthetic(demo(), { step: 5 });

/** The same measurement as different programs would write it. */
function written(
  { delimiter, decimal, form, magnitude, phase }: Omit<Reading, "scale" | "hertz" | "unit">,
  header: string | null,
  factor = 1,
): string {
  const separator = { comma: ",", semicolon: ";", tab: "\t", space: " " }[delimiter];
  const number = (x: number) => {
    const text = `${Number(x.toPrecision(9))}`;
    return decimal === "comma" ? text.replace(".", ",") : text;
  };
  const lines = Array.from(frequencies, (f, i) => {
    const size = factor * Math.hypot(re[i], im[i]);
    const angle = Math.atan2(im[i], re[i]);
    const parts =
      form === "real-imaginary"
        ? [factor * re[i], factor * im[i]]
        : [
            magnitude === "dB" ? 20 * Math.log10(size) : size,
            phase === "degrees" ? (angle * 180) / Math.PI : angle,
          ];
    return [f, ...parts].map(number).join(separator);
  });
  return [...(header === null ? [] : [header]), ...lines].join("\n");
}

function expectSame(text: string, factor = 1, given = {}): ReturnType<typeof readMeasured> {
  const read = readMeasured(text, "x.csv", given);
  expect(read.frequencies).toEqual(frequencies);
  re.forEach((x, i) => {
    expect(
      Math.hypot(read.re[i] - factor * x, read.im[i] - factor * im[i]) / Math.hypot(x, im[i]),
    ).toBeLessThan(1e-6 * factor);
  });
  return read;
}

describe("a measured impedance from CSV", () => {
  it("reads every way of writing it, told by the numbers alone", () => {
    for (const delimiter of ["comma", "semicolon", "tab", "space"] as const)
      for (const decimal of delimiter === "comma" ? (["point"] as const) : (["point", "comma"] as const))
        for (const form of ["magnitude-phase", "real-imaginary"] as const)
          for (const phase of ["degrees", "radians"] as const) {
            const how = { delimiter, decimal, form, magnitude: "linear", phase } as const;
            const { reading } = expectSame(written(how, null));
            expect(reading).toMatchObject({ delimiter, decimal, form, scale: "absolute" });
          }
  });

  it.each([
    ["Frequency (Hz),|Z| (dB),Phase (deg)", "magnitude-phase", "dB", "degrees", "relative"],
    ["f;Magnitude / dB re 1 Pa s/m3;arg Z / rad", "magnitude-phase", "dB", "radians", "absolute"],
    ["freq\tRe Z (Pa·s/m³)\tIm Z (Pa·s/m³)", "real-imaginary", "linear", "radians", "absolute"],
    ["frequency_Hz,re_Pa_s_m3,im_Pa_s_m3", "real-imaginary", "linear", "radians", "absolute"],
    ["Hz;|Z|/Zc;phase [°]", "magnitude-phase", "linear", "degrees", "characteristic"],
  ] as const)("understands the header %s", (header, form, magnitude, phase, scale) => {
    const delimiter = header.includes("\t") ? "tab" : header.includes(";") ? "semicolon" : "comma";
    const factor = scale === "absolute" ? 1 : 1e-7;
    const how = { delimiter, decimal: "point", form, magnitude, phase } as const;
    const read = expectSame(written(how, header, factor), factor);
    expect(read.reading).toMatchObject({ form, magnitude, scale });
    if (form === "magnitude-phase") expect(read.reading.phase).toBe(phase);
    expect(readingWords(read)).toMatch(/^165 frequencies from 80 to 900 Hz; .* with header\.$/);
  });

  it("takes units from the header: kHz, MPa·s/m³", () => {
    const rows = Array.from(frequencies, (f, i) => [f / 1000, re[i] / 1e6, im[i] / 1e6].join(","));
    const read = readMeasured(["f (kHz),Re (MPa·s/m³),Im (MPa·s/m³)", ...rows].join("\n"));
    expect(read.frequencies[0]).toBe(80);
    expect(read.re[3]).toBeCloseTo(re[3], 0);
    expect(read.reading.scale).toBe("absolute");
  });

  it("lets every guess be overruled", () => {
    const how = {
      delimiter: "comma",
      decimal: "point",
      form: "real-imaginary",
      magnitude: "linear",
      phase: "degrees",
    } as const;
    const text = written(how, null, 1e-7);
    expect(readMeasured(text).reading.scale).toBe("relative");
    expect(readMeasured(text, "x", { scale: "characteristic" }).reading.scale).toBe("characteristic");
    const other = readMeasured(written({ ...how, form: "magnitude-phase" }, null), "x", {
      form: "magnitude-phase",
      phase: "radians",
      magnitude: "linear",
    });
    expect(other.reading.phase).toBe("radians");
    expect(Math.atan2(other.im[7], other.re[7])).not.toBeCloseTo(Math.atan2(im[7], re[7]), 3);
  });

  const rows = (count: number) => Array.from({ length: count }, (_, i) => `${100 + i},${1e6 + i},10`);
  it.each([
    ["", /^x\.csv: line 1: there is nothing in it/],
    [rows(5).join("\n"), /^x\.csv: line 5: only 5 frequencies; give at least 20$/],
    [[...rows(20), "ouch,2,3", "130,2,3"].join("\n"), /^x\.csv: line 21: "ouch" in column 1 is no number/],
    [[...rows(20), "121,2"].join("\n"), /^x\.csv: line 21: 2 columns; give three/],
    [
      ["# a remark", "f,re,im", ...rows(20), "119,2,3"].join("\n"),
      /^x\.csv: line 23: 119 Hz comes after 119 Hz/,
    ],
    [
      ["f,|Z| linear,phase", ...rows(20), "121,0,3"].join("\n"),
      /^x\.csv: line 22: an impedance of 0 and 3 has no size/,
    ],
    [
      rows(30)
        .map((row) => `-${row}`)
        .join("\n"),
      /^x\.csv: line 1: -100 Hz is no frequency above 0/,
    ],
    [[...rows(20), "121,NaN,3"].join("\n"), /line 21: "NaN" in column 2 is no number/],
  ])("refuses what it cannot read, with the line: %#", (text, words) => {
    let message = "";
    try {
      readMeasured(text, "x.csv");
    } catch (error) {
      expect(error).toBeInstanceOf(CsvError);
      message = (error as Error).message;
    }
    expect(message).toMatch(words);
    expect(message).not.toContain("\n");
  });

  it("never fails but in words, whatever the text", () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.oneof(fc.double(), fc.string(), fc.integer()), { maxLength: 5 }), {
          maxLength: 40,
        }),
        (cells) => {
          try {
            const { re: real, im: imaginary } = readMeasured(cells.map((row) => row.join(",")).join("\n"));
            for (let i = 0; i < real.length; i++)
              expect(Number.isFinite(real[i]) && Number.isFinite(imaginary[i])).toBe(true);
          } catch (error) {
            expect(error).toBeInstanceOf(CsvError);
          }
        },
      ),
    );
  });
});
