import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";

describe("annulus uncertainty", () => {
  const ask = ["uncertainty", demo, "--compared-with", "2.5mm", "--gap", "5.04mm"];

  /** The demo with its stated uncertainties alone: nothing of it assumed. */
  const { provenance, ...stated } = JSON.parse(
    readFileSync(new URL(`../../${demo}`, import.meta.url), "utf8"),
  );
  const askOfStated = () =>
    annulus(
      ["uncertainty", "-", ...ask.slice(2), "--monte-carlo", "40", "--format", "json"],
      JSON.stringify(stated),
    );

  it("says how well each change is known, from which dimension, and the same by drawing", () => {
    expect(provenance).toBeDefined();
    const { stdout, status } = askOfStated();
    expect(status).toBe(0);
    const { random_trials: drawn, left_out, rows } = JSON.parse(stdout);
    expect([drawn, left_out, rows.length]).toEqual([40, 0, 12]);
    for (const row of rows) {
      expect(row.u_shift_cents).toBeGreaterThan(0);
      expect(row.U95_shift_cents / row.u_shift_cents).toBeCloseTo(1.96, 2);
      expect(row.largest_source_of_shift_cents).toMatch(/^insertion at the (reference|chosen) gap$/);
      expect(row.monte_carlo_low_shift_cents).toBeLessThan(row.shift_cents);
      expect(row.monte_carlo_high_shift_cents).toBeGreaterThan(row.shift_cents);
    }
    expect(rows[11].u_spacing_change_cents).toBeNull();
    expect(askOfStated().stdout).toBe(stdout);
  });

  it("has tables for people and CSV for a spreadsheet", () => {
    const table = annulus(ask).stdout;
    expect(table).toMatch(/from 2\.50 mm \(0\.098 in\), [\w ,]+, to 5\.04 mm \(0\.198 in\), what if/);
    expect(table).toMatch(/Shift of the resonance, cents\n +note +change +±U95 +u +most from/);
    const [head, first] = annulus([...ask, "--format", "csv"]).stdout.split("\n");
    expect(head.split(",").slice(0, 4)).toEqual(["n", "shift_cents", "u_shift_cents", "U95_shift_cents"]);
    expect(first.split(",")).toHaveLength(head.split(",").length);
    expect(table + first).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("takes all as exact where the file says nothing, and says so", () => {
    const { stdout } = annulus([
      "uncertainty",
      "tests/reference/duct/start-horn.setup.json",
      "--compared-with",
      "1mm",
    ]);
    expect(stdout).toContain("all are taken as exact");
    expect(stdout).toMatch(/0\.00 +0\.00 +–/);
  });

  it("refuses in words", () => {
    expectRefused(annulus([...ask.slice(0, 3), "99mm"]), /no gap of this receiver/);
    const { status, stderr } = annulus([...ask, "--monte-carlo", "1"]);
    expect(status).toBe(2);
    expect(stderr).toContain("give a whole number from 2 to 100000");
  });
});
