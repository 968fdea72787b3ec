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

  it("takes the better bell", () => {
    const setup = JSON.parse(annulus(["modes", demo, "--format", "json"]).stdout);
    const other = join(folder, "multimodal.json");
    const plain = JSON.parse(readFileSync(demo, "utf8"));
    writeFileSync(other, JSON.stringify({ ...plain, model: { ...plain.model, bell: "multimodal" } }));
    const { modes } = JSON.parse(annulus(["modes", other, "--format", "json"]).stdout);
    expect(modes.length).toBe(setup.modes.length);
    expect(modes[9].frequency_Hz).toBeLessThan(setup.modes[9].frequency_Hz - 10);
  });
});
