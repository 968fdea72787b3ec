import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";
const parts = [
  "fit",
  "--mouthpieces",
  "shared/demo.bench.mouthpieces.csv",
  "--instruments",
  "shared/demo.bench.instruments.csv",
];

describe("annulus gap", () => {
  const readings = "gap --depth 24.56mm 24.54 24.55 24.55 24.95 --insertion 22.0mm 21.98mm 22.02mm".split(
    " ",
  );
  const tools = "--resolution 0.01mm --depth-zero 0.02mm --zero-uncertainty 0.005mm".split(" ");

  it("subtracts zeros and gives its budget in JSON", () => {
    const { stdout, status } = annulus([...readings, ...tools, "--format", "json"]);
    expect(status).toBe(0);
    const json = JSON.parse(stdout);
    expect(json.depth_mm).toBeCloseTo(24.61, 9);
    expect(json.gap_mm).toBeCloseTo(2.61, 9);
    expect(json.gap_in).toBeCloseTo(2.61 / 25.4, 9);
    expect(json.budget.length).toBe(6);
    expect(json.budget[2].degrees_of_freedom).toBe(null);
    const shares = json.budget.map((row: { variance_share: number }) => row.variance_share);
    expect(shares.reduce((a: number, b: number) => a + b)).toBeCloseTo(1, 9);
    expect(json.outliers).toMatchObject([{ what: "depth", number: 5, reading_mm: 24.95 }]);
  });

  it("prints the budget as a table, and points at the outlying reading", () => {
    const { stdout, stderr } = annulus([...readings, ...tools]);
    expect(stdout).toMatch(/component +u\/mm +degrees of freedom +share of variance/);
    expect(stdout).toMatch(/depth: zero of the tool +0\.0050 +infinite/);
    expect(stderr).toMatch(/reading number 5, 24\.950 mm, stands apart/);
    expectRefused(
      annulus([...readings, "--same-tool", "--insertion-zero", "0.1"]),
      /--same-tool: one tool measured both/,
    );
  });
});

describe("annulus fit", () => {
  it("answers as table, CSV and JSON", () => {
    const table = annulus([...parts, "--preferred", "2.5mm"]).stdout;
    expect(table).toMatch(/Kettle Lane 7 +2\.50 ± 0\.16/);
    expect(table).toMatch(/Kettle Lane 10 +unknown/);
    expect(table).toMatch(/Shares of its variance: receiver mouth diameter/);
    expect(table).not.toMatch(/NaN|undefined/);
    const json = JSON.parse(annulus([...parts, "--format", "json"]).stdout);
    expect(json.cells.length).toBe(60);
    expect(json.by_mouthpiece.length).toBe(5);
    expect(json.by_instrument.length).toBe(12);
    const csv = annulus([...parts, "--format", "csv"])
      .stdout.trimEnd()
      .split("\n");
    expect(csv.length).toBe(61);
    expect(csv[0]).toMatch(/^mouthpiece,instrument,outcome,insertion_mm,gap_mm/);
  });

  it("reads one table from standard input, and refuses a bad one with its line", () => {
    const folder = mkdtempSync(join(tmpdir(), "annulus-"));
    const path = join(folder, "one.csv");
    writeFileSync(path, "name,end diameter (mm),taper\nA,9.7,1:20\n");
    const receiver = "name,mouth diameter (mm),taper,depth (mm)\nB,10.8,1:20,24.5\n";
    const args = ["fit", "--mouthpieces", path, "--instruments", "-", "--format", "csv"];
    expect(annulus(args, receiver).stdout).toMatch(/^A,B,seated,22,2\.5,/m);
    expectRefused(
      annulus(args, receiver.replace("10.8", "wide")),
      /-: line 2: "mouth diameter \(mm\)": "wide"/,
    );
    expectRefused(
      annulus(["fit", "--mouthpieces", "none.csv", "--instruments", "-"]),
      /none\.csv: there is no/,
    );
    expect(annulus(["fit"]).status).toBe(2);
  });
});

describe("annulus cut", () => {
  const cut = (...more: string[]) =>
    annulus(["cut", demo, "--planned", "2.0mm", "--uncertainty", "0.03mm", ...more]);

  it("answers as table and JSON", () => {
    const table = cut().stdout;
    expect(table).toMatch(/gap 2\.50 mm .*, assumed, not measured; planned gap 2\.00 mm/);
    expect(table).toMatch(/turn the shank's taper down: 0\.025 mm off the diameter/);
    expect(table).toMatch(/CANNOT BE UNDONE[\s\S]*qualified repairer/);
    expect(table).not.toMatch(/NaN|undefined/);
    const json = JSON.parse(cut("--format", "json").stdout);
    expect(json).toMatchObject({ outcome: "plan", card: null });
    expect(json.ways.map(({ name }: { name: string }) => name)).toEqual(["stop", "exchange", "turn-down"]);
  });

  it("prints a card of what cannot be undone only when that is confirmed", () => {
    expectRefused(cut("--card", "turn-down"), /cannot be undone.*qualified repairer.*--confirm/);
    const { stdout, status } = cut("--card", "turn-down", "--confirm");
    expect(status).toBe(0);
    expect(stdout).toMatch(/1\. 0\.010 mm off the diameter.*\n.*depth ______ ______ ______/);
    expectRefused(cut("--card", "sleeve"), /no way to less gap/);
    expectRefused(
      annulus(["cut", demo, "--gap", "2.5mm", "--planned", "2mm", "--card", "turn-down", "--confirm"]),
      /add --uncertainty/,
    );
  });

  it("takes the setup's own uncertainty where none is given", () => {
    const json = JSON.parse(annulus(["cut", demo, "--planned", "2mm", "--format", "json"]).stdout);
    // 0.02 mm and 0.03 mm in quadrature, 95 %
    expect(json.expanded_uncertainty_mm).toBeCloseTo(1.96 * Math.hypot(0.02, 0.03), 4);
    const unknown = annulus(["cut", demo, "--gap", "2.5mm", "--planned", "2mm"]).stdout;
    expect(unknown).toMatch(/uncertainty is not known: measure receiver depth and insertion/);
  });

  it("refuses what the measurement cannot carry, and what cannot be", () => {
    expectRefused(
      annulus(["cut", demo, "--planned", "2.4mm", "--uncertainty", "0.06mm"]),
      /known to ±0\.12 mm only, more than the 0\.10 mm asked for/,
    );
    expectRefused(annulus(["cut", demo, "--planned", "-1mm"]), /the planned gap is -1\.000 mm/);
    expectRefused(annulus(["cut", demo, "--planned", "2mm", "--tolerance", "0"]), /tolerance/);
    expect(annulus(["cut", demo]).status).toBe(2);
    expect(annulus(["cut", demo, "--planned", "2.5mm"]).stdout).toMatch(
      /within 0\.05 mm of the planned gap already/,
    );
  });
});
