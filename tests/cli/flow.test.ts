import { describe, expect, it } from "vitest";
import { exampleFile } from "../setup/example.ts";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";

describe("annulus flow", () => {
  it("breaks the drop down by part and gives the gap's three figures, in JSON", () => {
    const { stdout, status } = annulus(["flow", demo, "--gap", "0.1in", "--format", "json"]);
    expect(status).toBe(0);
    const { gap_mm, flows, changes, not_known } = JSON.parse(stdout);
    expect(gap_mm).toBeCloseTo(2.54, 12);
    const [{ litres_per_minute, drop_Pa, resistance_Pa_s_m3, gap, parts }] = flows;
    expect(litres_per_minute).toBe(20);
    expect(parts.map(({ part }: { part: string }) => part)).toEqual([
      "cup",
      "throat",
      "backbore",
      "gap",
      "leadpipe",
      "body",
      "bell",
    ]);
    const sum = parts.reduce((total: number, part: { drop_Pa: number }) => total + part.drop_Pa, 0);
    expect(sum).toBeCloseTo(drop_Pa.estimate, 9);
    expect(resistance_Pa_s_m3.estimate).toBeCloseTo((drop_Pa.estimate * 60_000) / 20, 3);
    expect(gap.drop_Pa.lower).toBeLessThan(gap.drop_Pa.estimate);
    expect(gap.drop_Pa.estimate).toBeLessThan(gap.drop_Pa.upper);
    // against the setup's own 2.5 mm
    expect(changes[0]).toMatchObject({ compared_with_gap_mm: 2.5, finding: "too small to notice" });
    expect(not_known.length).toBeGreaterThan(2);
  });

  it("prints a table with bounds, verdict and what is not known, and CSV with one row a flow and part", () => {
    const table = annulus(["flow", demo, "--gap", "5.04mm"]).stdout;
    expect(table).toMatch(/gap 5\.04 mm \(0\.198 in\), what if, 20 L\/min/);
    expect(table).toMatch(/backbore +3\.70 +8\.40 /);
    expect(table).toMatch(/all of the jet caught.*as it spreads.*none caught/);
    expect(table).toMatch(/Model: too small to notice \(just noticeable: 10 %\)/);
    expect(table).toMatch(/leadpipe bore changed by -0\.1\d+ mm/);
    expect(table).toMatch(/Not known to a steady/);
    expect(table).not.toMatch(/NaN|undefined|null/);
    const csv = annulus(["flow", demo, "--litres-per-minute", "5,20,60", "--format", "csv"]).stdout;
    const lines = csv.trimEnd().split("\n");
    expect(lines[0]).toMatch(/^gap_mm,litres_per_minute,part,.*,drop_Pa,share,lower_Pa,upper_Pa$/);
    expect(lines.length).toBe(1 + 3 * 7);
  });

  it("adds peak heights at levels, at both gaps", () => {
    const args = ["flow", demo, "--gap", "5mm", "--level", "120,160"];
    const { levels } = JSON.parse(annulus([...args, "--format", "json"]).stdout);
    expect(levels.map(({ gap_mm }: { gap_mm: number }) => gap_mm)).toEqual([2.5, 5]);
    expect(levels[0].rows.length).toBe(24);
    expect(annulus(args).stdout).toMatch(/change of peak height, dB, with the level at the rim/);
    const csv = annulus([...args, "--format", "csv"])
      .stdout.trimEnd()
      .split("\n");
    expect(csv[0]).toMatch(/^gap_mm,n,soft_Hz,/);
    expect(csv.length).toBe(1 + 48);
  });

  it("takes the threshold, the reference and a flow of zero", () => {
    const options = "--gap 8mm --compared-with 0mm --just-noticeable 0.01 --format json".split(" ");
    const { changes } = JSON.parse(annulus(["flow", demo, ...options]).stdout);
    expect(changes[0]).toMatchObject({ compared_with_gap_mm: 0, just_noticeable_percent: 0.01 });
    expect(annulus(["flow", demo, "--litres-per-minute", "0"]).stdout).toMatch(
      /none is defined without flow/,
    );
  });

  it("answers many setups, one a line", () => {
    const line = JSON.stringify(exampleFile());
    const { stdout, stderr, status } = annulus(
      ["flow", "-", "--format", "json"],
      `${line}\n{"format":1}\n${line}\n`,
    );
    expect(status).toBe(1);
    expect(stderr).toMatch(/^annulus: line 2: /);
    const answers = stdout
      .trimEnd()
      .split("\n")
      .map((text) => JSON.parse(text));
    expect(answers.map(({ line }) => line)).toEqual([1, 3]);
    expect(answers[0].flows[0].parts.length).toBe(7);
  });

  it("refuses bad input in one line, wrong usage with exit 2", () => {
    expectRefused(annulus(["flow", demo, "--gap", "40mm"]), /24\.5/);
    expectRefused(annulus(["flow", demo, "--litres-per-minute", "lots"]), /"lots" is not a number/);
    expectRefused(annulus(["flow", demo, "--litres-per-minute", "5,,9"]), /give 20 or 5,10,20,40,60/);
    expectRefused(annulus(["flow", demo, "--litres-per-minute", "-3"]), /give 0 or more/);
    expectRefused(annulus(["flow", demo, "--litres-per-minute", "900"]), /too fast for a bore of 3\.70 mm/);
    expectRefused(annulus(["flow", demo, "--gap", "1mm", "--just-noticeable", "0"]), /per cent above 0/);
    expectRefused(annulus(["flow", demo, "--level", "300"]), /0 to 180 dB/);
    expect(annulus(["flow"]).status).toBe(2);
    expect(annulus(["flow", demo, "--format", "xml"]).status).toBe(2);
  });
});

describe("peaks under breath, from the terminal", () => {
  const json = (...args: string[]) => JSON.parse(annulus([...args, "--format", "json"]).stdout);

  it("modes, curve and sweep take a flow; 0 is still air as without", () => {
    expect(json("modes", demo, "--breath", "0")).toEqual(json("modes", demo));
    const { litres_per_minute, modes } = json("modes", demo, "--breath", "20");
    expect(litres_per_minute).toBe(20);
    const still = json("modes", demo).modes;
    expect(modes[5].peak_Pa_s_m3).toBeLessThan(still[5].peak_Pa_s_m3);
    expect(modes[5].peak_low_Pa_s_m3).toBeLessThan(modes[5].peak_Pa_s_m3);
    expect(modes[5].peak_high_Pa_s_m3).toBeGreaterThan(modes[5].peak_Pa_s_m3);
    const at = [`${modes[5].peak_frequency_Hz}`];
    const [re, im] = ["re_Pa_s_m3", "im_Pa_s_m3"].map(
      (key) => json("curve", demo, "--frequencies", at[0], "--breath", "20")[key][0],
    );
    expect(Math.hypot(re, im) / modes[5].peak_Pa_s_m3).toBeCloseTo(1, 4);
    const rows = json("sweep", demo, "--gaps", "2.5:2.5:1", "--breath", "20").rows;
    expect(rows[5].peak_Pa_s_m3).toBeCloseTo(modes[5].peak_Pa_s_m3, 0);
  });

  it("refuses a flow that is none", () => {
    const { stderr, status } = annulus(["modes", demo, "--breath", "-3"]);
    expect(stderr).toMatch(/from 0 \(still air\)/);
    expect(status).toBe(2);
  });
});
