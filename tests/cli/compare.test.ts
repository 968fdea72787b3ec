import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";
const folder = mkdtempSync(join(tmpdir(), "leadpipes-"));
const table = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const wide = table("wide.txt", "0 8.9\n240 11.68\n");
const radii = table("radii.csv", "x (mm);r (mm)\n0;4,375\n100;5\n245;5,84\n");
const swapped = table("swapped.txt", "8.9 0\n9 100\n11.68 240\n");

describe("annulus compare", () => {
  it("puts leadpipes into one setup: table, CSV, JSON and a line a variant", () => {
    const options = [
      "compare",
      demo,
      "--leadpipe",
      wide,
      radii,
      "--retune",
      "4",
      "--goal",
      "2:1,5:2",
      "--modes",
      "8",
    ];
    const { candidates, ranking, compared_with, retune } = JSON.parse(
      annulus([...options, "--format", "json"]).stdout,
    );
    expect([candidates.length, compared_with, retune]).toEqual([3, 1, 4]);
    expect(candidates.map(({ name }: { name: string }) => name).slice(1)).toEqual(["wide.txt", "radii.csv"]);
    expect([...ranking].sort()).toEqual([1, 2, 3]);
    expect(candidates[1].retuned.modes[3].shift_cents).toBeCloseTo(0, 6);
    const { places, modes } = candidates[0].sensitivity;
    expect(modes[0].cents_per_mm.length).toBe(places.length);
    const csv = annulus([...options, "--format", "csv"])
      .stdout.trimEnd()
      .split("\n");
    expect(csv.length).toBe(1 + 3 * 8);
    // the table says the same of what is left after retuning
    const { stdout, stderr } = annulus(options);
    const texts = stdout.split("\n");
    const first = texts.findIndex((line) => line.startsWith("Equivalent fundamental"));
    const shown = texts[first + 4].trim().split(/\s+/).slice(-8);
    const retuned: { equivalent_cents: number }[] = candidates[1].retuned.modes;
    expect(shown).toEqual(
      retuned.map(({ equivalent_cents: one }) =>
        one
          .toFixed(1)

          .replace(/^(?=\d)/, "+"),
      ),
    );
    expect(stderr).toMatch(/wide\.txt: 2 rows.*unit: mm/);
    const lines = annulus([...options, "--format", "ndjson"])
      .stdout.trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(lines.map(({ score }) => score)).toEqual(candidates.map(({ score }: { score: number }) => score));
    const text = annulus(options).stdout;
    for (const title of [
      "Equivalent fundamental",
      "Shift from the one compared with",
      "A mm more gap",
      "The worst place",
      "Ranking",
    ])
      expect(text).toContain(title);
    expect(text).toContain(candidates[2].modes[0].Q.toFixed(1));
    expect(text).toMatch(/2 wide\.txt: [+-]?\d+\.\d\d mm by the tuning slide/);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("compares whole setups, at several gaps, with notes", () => {
    const options = [
      "compare",
      demo,
      demo,
      "--gaps",
      "1:3:1",
      "--compared-with",
      "2",
      "--notes",
      "--no-sensitivity",
    ];
    const { candidates } = JSON.parse(annulus([...options, "--format", "json"]).stdout);
    expect(candidates.map(({ gap_mm }: { gap_mm: number }) => gap_mm)).toEqual([1, 2, 3, 1, 2, 3]);
    expect(candidates[1].modes[5].shift_cents).toBe(0);
    expect(candidates[4].modes[5].shift_cents).toBeCloseTo(0, 9);
    expect(candidates[0].notes.length).toBe(9);
    expect(candidates[0].sensitivity).toBeNull();
  });

  it("refuses bad input in one line", () => {
    const refused: [string[], RegExp][] = [
      [["--leadpipe", swapped], /swapped\.txt: line 1: the columns look swapped/],
      [
        ["--leadpipe", join(folder, "none.txt")],
        /none\.txt: there is no such file; give the path of a table of a leadpipe/,
      ],
      [["--goal", "sents2"], /"sents2" is not known; known are f1 to f12/],
      [["--compared-with", "2"], /there is no candidate 2 to compare with/],
      [["--compared-with", "x"], /--compared-with: "x" is no candidate's number/],
      [["--unit", "furlong"], /--unit: "furlong" is not known; give mm or in/],
      [["--gap", "1mm", "--gaps", "0:1:1"], /--gap and --gaps/],
      [["--gap", "90mm"], /no gap of this receiver/],
      [[demo, "--leadpipe", wide], /--leadpipe puts leadpipes into one setup/],
    ];
    for (const [options, words] of refused) expectRefused(annulus(["compare", demo, ...options]), words);
  });
});
