import { describe, expect, it } from "vitest";
import { exampleFile } from "../setup/example.ts";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";
const slots = (args: readonly string[], input?: string) => annulus(["slots", ...args], input);

describe("annulus slots", () => {
  it("table, CSV and JSON of the same notes", () => {
    const { rows, lips, pressure } = JSON.parse(slots([demo, "--gap", "0.1in", "--format", "json"]).stdout);
    expect(rows.map(({ n }: { n: number }) => n)).toEqual([2, 3, 4, 5, 6, 7, 8, 9, 10]);
    expect(pressure).toMatchObject({ times_starting_pressure: 1.3 });
    expect(lips.width_mm).toBeCloseTo(7, 9);
    const csv = slots([demo, "--gap", "0.1in", "--format", "csv"]).stdout.trimEnd().split("\n");
    expect(csv.length).toBe(10);
    expect(csv[0].split(",")).toEqual(Object.keys(rows[0]));
    const table = slots([demo, "--gap", "0.1in"]).stdout;
    expect(table).toContain("gap 2.54 mm (0.100 in)");
    for (const { slot_width_cents, playing_frequency_Hz } of rows) {
      expect(table).toContain(slot_width_cents.toFixed(1));
      expect(table).toContain(playing_frequency_Hz.toFixed(2));
    }
    expect(table).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("several gaps, other lips, one pressure", () => {
    const options =
      "--gaps 0:4:2 --pressure 5kPa --lip-quality 5 --lip-mass 4 --lip-opening 0.4mm --format json";
    const { rows, lips, pressure } = JSON.parse(slots([demo, ...options.split(" ")]).stdout);
    expect(rows.length).toBe(3 * 9);
    expect(pressure).toEqual({ pressure_Pa: 5000 });
    expect([lips.quality, lips.mass_kg_m2]).toEqual([5, 4]);
    for (const row of rows)
      expect(row.slot_width_cents > 0).toBe(
        row.starting_pressure_Pa < 5000 && row.playing_frequency_Hz !== null,
      );
    const table = slots([demo, "--gaps", "0:4:2"]).stdout;
    for (const title of ["starting pressure/kPa", "slot width/cents", "pull", "margin"])
      expect(table).toContain(`\n${title}\n`);
  });

  it("many setups as NDJSON, a bad line not stopping the others", () => {
    const line = JSON.stringify(exampleFile());
    const { stdout, stderr, status } = slots(["-", "--format", "json"], `${line}\n{"format":1}\n`);
    expect(status).toBe(1);
    expect(JSON.parse(stdout).line).toBe(1);
    expect(stderr).toMatch(/^annulus: line 2: /);
  });

  it("refuses bad input in one line", () => {
    const refused: [string, RegExp][] = [
      ["--pressure 3", /"3" is no pressure; give one with its unit, such as 3kPa, or a multiple/],
      ["--pressure 0.5x", /0.5 times the starting pressure cannot be used: give more than 1/],
      ["--pressure 500kPa", /mouth pressure of 500000 Pa/],
      ["--lip-quality 0.1", /quality factor of 0.1 cannot be used: give 0.5 to 1000/],
      ["--lip-mass much", /--lip-mass: "much" is no number/],
      ["--lip-width 7m", /width of 7 cannot be used/],
      ["--gap 1mm --gaps 0:1:1", /--gap and --gaps/],
      ["--gap 90mm", /gap/],
    ];
    for (const [options, words] of refused) {
      const { stdout, stderr, status } = slots([demo, ...options.split(" ")]);
      expect([status, stdout]).toEqual([1, ""]);
      expect(stderr.trimEnd().split("\n").length).toBe(1);
      expect(stderr).toMatch(words);
    }
  });
});

it("blows lips that move two ways, and refuses what they have not got", () => {
  const json = (...more: string[]) =>
    JSON.parse(annulus(["slots", "shared/demo.setup.json", "--format", "json", ...more]).stdout);
  const [one, two] = [json(), json("--lips", "two-way")];
  expect(one.lips.model).toBe("one-mass");
  expect(two.lips).toMatchObject({ model: "two-way", mass_factor_kg_s: 1.1, quality: 6 });
  expect(two.rows).toHaveLength(one.rows.length);
  expect(two.rows[2].playing_frequency_Hz).toBeLessThan(one.rows[2].playing_frequency_Hz);
  expectRefused(
    annulus(["slots", "shared/demo.setup.json", "--lips", "two-way", "--lip-mass", "5"]),
    /--lip-mass is of one-mass lips; leave it out/,
  );
  expect(annulus(["slots", "shared/demo.setup.json", "--lips", "two-way"]).stdout).toMatch(
    /swinging out and stretching open[\s\S]*only a change from gap to gap means anything/,
  );
});
