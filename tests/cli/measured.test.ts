import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";
const folder = mkdtempSync(join(tmpdir(), "annulus-measured-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** The model's own curve at another gap stands for a measurement. */
const curve = annulus(["curve", demo, "--gap", "3.2mm", "--frequencies", "80:900:2"]).stdout;
const file = join(folder, "curve.csv");
writeFileSync(file, curve);

describe("annulus measured", () => {
  it("sets a measurement beside the model: table, CSV and JSON of the same peaks", () => {
    const table = annulus(["measured", demo, "--data", file]);
    expect(table.status).toBe(0);
    expect(table.stdout).toMatch(
      /Read as: 411 frequencies from 80 to 900 Hz; real and imaginary part, in Pa·s\/m³/,
    );
    const { peaks, fit } = JSON.parse(annulus(["measured", demo, "--data", file, "--format", "json"]).stdout);
    expect(fit).toBeNull();
    expect(peaks.length).toBeGreaterThan(4);
    for (const peak of peaks) {
      expect(peak.difference_cents).toBeLessThan(0);
      expect(table.stdout).toContain(peak.model_Hz.toFixed(2));
    }
    const csv = annulus(["measured", demo, "--data", file, "--format", "csv"]).stdout.trimEnd().split("\n");
    expect(csv[0]).toBe("n,model_Hz,measured_Hz,difference_cents,height_dB,model_Q,measured_Q");
    expect(csv.length).toBe(peaks.length + 1);
  });

  it("fits the gap back, from a file or standard input, within a range", () => {
    for (const [data, input] of [
      [file, ""],
      ["-", curve],
    ]) {
      const args = [
        "measured",
        demo,
        "--data",
        data,
        "--fit",
        "gap,wall-loss",
        "--from",
        "100",
        "--to",
        "800Hz",
      ];
      const { fit, reading } = JSON.parse(annulus([...args, "--format", "json"], input).stdout);
      expect(reading.frequencies).toBe(351);
      expect(fit.estimates.map(({ unknown }: { unknown: string }) => unknown)).toEqual(["gap", "wall-loss"]);
      expect(fit.estimates[0].value).toBeCloseTo(3.2, 3);
      expect(fit.estimates[1].value).toBeCloseTo(1, 3);
    }
    const table = annulus(["measured", demo, "--data", file, "--fit", "gap,temperature"]).stdout;
    expect(table).toMatch(/Fitted, at 95 %/);
    expect(table).toMatch(/Correlations: gap and temperature, effective [+-]0\.\d\d\./);
    expect(table).toMatch(/The temperature is an effective one/);
    expect(table).not.toMatch(/NaN|undefined/);
  });

  it("refuses a broken file, a missing one, and an unknown that is none", () => {
    const broken = join(folder, "broken.csv");
    writeFileSync(broken, curve.replace("\n120,", "\nhundred,"));
    expectRefused(
      annulus(["measured", demo, "--data", broken]),
      /broken\.csv: line 22: "hundred" in column 1 is no number/,
    );
    expectRefused(annulus(["measured", demo, "--data", join(folder, "none.csv")]), /there is no such file/);
    expectRefused(
      annulus(["measured", demo, "--data", file, "--from", "899"]),
      /has 1 frequencies; give --from and --to further apart/,
    );
    const usage = annulus(["measured", demo, "--data", file, "--fit", "length"]);
    expect(usage.status).toBe(2);
    expect(usage.stderr).toMatch(/"length" cannot be fitted: give leadpipe-entry, wall-loss/);
  });

  const withPhase = curve
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.split(",").map(Number));
  const magnitudes = (head: string, number: (size: number) => number) =>
    [head, ...withPhase.map(([f, re, im]) => `${f},${number(Math.hypot(re, im))}`)].join("\n");
  const measured = (data: string, ...options: string[]) =>
    annulus(["measured", demo, "--data", "-", "--format", "json", ...options], data);

  it("takes a magnitude alone, in Pa·s/m³ or in dB above a stated unit, and fits to it", () => {
    const linear = magnitudes("f,|Z| (Pa·s/m³)", (size) => size);
    const level = magnitudes("f,level (dB re 1 MPa s/m3)", (size) => 20 * Math.log10(size / 1e6));
    const bare = magnitudes("f,level (dB)", (size) => 20 * Math.log10(size / 1e6));
    const answers = [
      measured(linear, "--fit", "gap"),
      measured(level, "--fit", "gap"),
      measured(bare, "--unit", "1e6", "--fit", "gap"),
    ].map(({ stdout }) => JSON.parse(stdout));
    for (const { fit, rms_degrees, reading, understood } of answers) {
      expect(fit.estimates[0].value).toBeCloseTo(3.2, 2);
      expect([rms_degrees, fit.scatter_degrees]).toEqual([null, null]);
      expect(reading).toMatchObject({ form: "magnitude", scale: "absolute" });
      expect(understood).toMatch(/without a phase/);
    }
    const table = annulus(["measured", demo, "--data", "-", "--fit", "gap"], linear).stdout;
    expect(table).toMatch(/Without a phase, heights, frequencies and Q are compared/);
    expect(table).not.toMatch(/NaN|undefined|null/);
  });

  it("offers the unit that was probably meant, with the option that reads it so", () => {
    const wrong = magnitudes("f,|Z| (Pa·s/m³)", (size) => size / 1e6);
    const { offers, level_dB } = JSON.parse(measured(wrong).stdout);
    expect(level_dB).toBeCloseTo(-120, 0);
    expect(offers[0]).toMatch(
      /probably in MPa·s\/m³, not in Pa·s\/m³\. .* To read it so, add: --unit 1000000$/,
    );
    const table = annulus(["measured", demo, "--data", "-"], wrong).stdout;
    expect(table).toContain(offers[0]);
    expect(table.indexOf(offers[0])).toBeLessThan(table.indexOf("Measured less model"));
    const right = JSON.parse(measured(wrong, ...offers[0].match(/--unit .*$/)[0].split(" ")).stdout);
    expect(right.offers).toEqual([]);
    expect(Math.abs(right.level_dB)).toBeLessThan(0.5);
  });

  it("offers curved fronts to data that have them, with the option that fits them, and says not converged", () => {
    const data = annulus(["curve", multimodal, "--gap", "3.2mm", "--frequencies", "80:900:2"]).stdout;
    const plane = ["--bell", "plane", "--fit", "gap"];
    const found = JSON.parse(measured(data, ...plane).stdout);
    expect(found.fit.curved_fronts.told).toBe("curved");
    expect(found.offers).toEqual(["To fit with curved fronts in the bell, add: --bell multimodal"]);
    expect(found.fit.words.join(" ")).toMatch(/This measurement shows it: .* gap by about −\d\.\d mm/);
    const curved = JSON.parse(measured(data, "--bell", "multimodal", "--fit", "gap").stdout);
    expect(curved.fit.estimates[0].value).toBeCloseTo(3.2, 3);
    expect([curved.offers, curved.fit.curved_fronts]).toEqual([[], null]);
    const short = JSON.parse(measured(data, ...plane, "--steps", "1").stdout);
    expect([short.fit.converged, short.fit.estimates[0].low_95]).toEqual([false, null]);
    expect(short.fit.words[0]).toMatch(/^Not converged/);
  });

  const multimodal = join(folder, "curved.json");
  const plain = JSON.parse(readFileSync(demo, "utf8"));
  writeFileSync(multimodal, JSON.stringify({ ...plain, model: { ...plain.model, bell: "multimodal" } }));

  it("takes the better bell", () => {
    const flat = join(folder, "plane.json");
    writeFileSync(flat, JSON.stringify({ ...plain, model: { ...plain.model, bell: "plane" } }));
    const setup = JSON.parse(annulus(["modes", flat, "--format", "json"]).stdout);
    const { modes } = JSON.parse(annulus(["modes", multimodal, "--format", "json"]).stdout);
    expect(modes.length).toBe(setup.modes.length);
    expect(modes[9].frequency_Hz).toBeLessThan(setup.modes[9].frequency_Hz - 10);
  });
});
