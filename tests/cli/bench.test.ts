import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
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

  it("names the ways in order of regret, and those that change every mouthpiece, whatever is planned", () => {
    for (const planned of ["2mm", "3.2mm", "2.5mm"]) {
      const table = annulus(["cut", demo, "--planned", planned]).stdout;
      const [nothing, clean, stop, sleeve, metal, ream, receiver, leadpipe] = [
        "- Do nothing",
        "- Clean shank and receiver",
        "- Move the stop",
        "- Another shank, or a sleeve; a wrap",
        "- Only then metal",
        "- Ream the receiver",
        "- Move or replace the receiver",
        "- Move or replace the leadpipe",
      ].map((line) => table.indexOf(line));
      const order = [nothing, clean, stop, sleeve, metal, ream, receiver, leadpipe];
      expect(nothing).toBeGreaterThan(0);
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
    const json = JSON.parse(cut("--format", "json").stdout);
    expect(json.order_of_regret[0]).toMatch(/^Do nothing/);
    expect(json.ways_that_change_every_mouthpiece).toHaveLength(4);
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

describe("annulus wrap", () => {
  const wrap = (...more: string[]) => annulus(["wrap", demo, ...more]);
  const json = (...more: string[]) => JSON.parse(wrap(...more, "--format", "json").stdout);

  it("goes from thickness to change of gap and back", () => {
    // 2 t over the taper: 0.01 mm at 1:20 is 0.4 mm of gap
    const { wraps, wrap_thickness_mm: none } = json("--thickness", "0.01mm", "0.001in");
    expect(none).toBeNull();
    expect(wraps.map((one: Record<string, number>) => one.change_per_layer_mm)).toEqual([
      expect.closeTo(0.4, 9),
      expect.closeTo(0.04 * 25.4, 9),
    ]);
    expect(json("--change", "0.4mm")).toMatchObject({
      wrap_thickness_mm: expect.closeTo(0.01, 9),
      planned_gap_mm: expect.closeTo(2.9, 9),
    });
    expect(json("--gap", "2.0mm", "--planned", "2.4mm")).toMatchObject({
      gap_mm: 2,
      wrap_thickness_mm: expect.closeTo(0.01, 9),
    });
  });

  it("says which foil in how many layers comes nearest to the planned gap", () => {
    const { stdout, stderr, status } = wrap("--thickness", "0.01mm", "--planned", "3.3mm");
    expect([status, stderr]).toEqual([0, ""]);
    expect(stdout).toMatch(/1:20\.00, .*check with a gauge/);
    expect(stdout).toMatch(/for 0\.80 mm .* more gap, 3\.30 mm .*: a wrap 0\.020 mm .* thick all round/);
    expect(stdout).toMatch(/One layer opens the gap by 0\.40 mm; 2 layers, to 3\.30 mm\./);
    expect(stdout).toMatch(/only ever widens.*Measure the gap again/);
  });

  it("refuses in one line what no wrap does", () => {
    expectRefused(wrap(), /give --thickness 0\.01mm .* or --change/);
    expectRefused(
      wrap("--planned", "2mm"),
      /--planned: a wrap only ever widens the gap; give more than 2\.50 mm/,
    );
    expectRefused(wrap("--change", "-1mm"), /--change: a wrap only ever widens/);
    expectRefused(wrap("--change", "22mm"), /as wide as the receiver is deep/);
    expectRefused(wrap("--thickness", "1mm"), /no layer of a wrap; give 0\.001 mm to 0\.500 mm/);
    expectRefused(wrap("--gap", "30mm", "--change", "1mm"), /--gap: .*less than the receiver's depth/);
    expect(wrap("--change", "1mm", "--planned", "3mm").status).toBe(2);
    const { mouthpiece, receiver, ...rest } = JSON.parse(readFileSync(demo, "utf8"));
    const straight = {
      ...rest,
      mouthpiece: { ...mouthpiece, shankTaper: 0 },
      receiver: { ...receiver, taper: 0 },
    };
    expectRefused(
      annulus(["wrap", "-", "--change", "1mm"], JSON.stringify(straight)),
      /nothing stops a shank without a taper/,
    );
  });
});
