import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readSetup } from "../../src/setup/file/readSetup.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";

describe("annulus design", () => {
  it("answers with a setup, its misses and a mandrel's stations", () => {
    const options = [
      "design",
      demo,
      "--goal",
      "f2=234, f4=467@2",
      "--restarts",
      "1",
      "--steps",
      "8",
      "--every",
      "40mm",
    ];
    const answer = JSON.parse(annulus([...options, "--format", "json"]).stdout);
    expect(answer.rms_residual_after).toBeLessThan(answer.rms_residual_before);
    const modes = new Instrument(readSetup(answer.setup)).modes(answer.gap_mm);
    expect(answer.targets.length).toBeGreaterThan(0);
    for (const { n, after } of answer.targets) expect(modes[n - 1].frequencyHz).toBeCloseTo(after, 3);
    expect(answer.stations.length).toBe(7);
    const csv = annulus([...options, "--format", "csv"])
      .stdout.trimEnd()
      .split("\n");
    expect(csv[0]).toBe("position_mm,diameter_mm,tolerance_mm");
    expect(csv.length).toBe(8);
    const text = annulus(options).stdout;
    expect(text).toContain(answer.freedom.words);
    expect(text).toContain("Mandrel");
    expect(text).toMatch(/\n +1 +8 +not converged /);
    expect(answer.starts).toMatchObject([{ steps: 8, ended: "not converged" }]);
    expect(text).not.toMatch(/NaN|undefined/);
  });

  it("says first what was made worse", () => {
    const options = ["design", demo, "--goal", "f2=226@50,f3=349", "--restarts", "1"];
    const lines = annulus(options).stdout.split("\n");
    expect(lines[1]).toMatch(/^Made worse: f3, [+−][\d.]+ off before and [+−][\d.]+ now\.$/);
    const { made_worse, targets } = JSON.parse(annulus([...options, "--format", "json"]).stdout);
    expect(made_worse).toBe(lines[1]);
    expect(targets[1].is_worse).toBe(true);
    for (const command of ["design", "compare"])
      expect(annulus([command, "--help"]).stdout.replace(/\s+/g, " ")).toMatch(
        /counts as if (it|the note) stood there twice/,
      );
  });

  it("takes a goal from a file, or from another setup", () => {
    const path = join(mkdtempSync(join(tmpdir(), "goal-")), "goal.json");
    writeFileSync(path, '{"targets":[{"quantity":"height","n":4,"target":32}]}');
    const quick = ["--restarts", "1", "--steps", "3", "--format", "json"];
    expect(JSON.parse(annulus(["design", demo, "--goal", path, ...quick]).stdout).targets[0].quantity).toBe(
      "height",
    );
    const like = JSON.parse(annulus(["design", demo, "--like", demo, ...quick]).stdout);
    expect(like.targets.length).toBe(18);
    // the setup is like itself but for what the search is accurate to, and its spline comes near
    expect(like.rms_residual_before).toBeLessThan(1e-6);
    expect(like.rms_residual_after).toBeLessThan(0.5);
    expect(like.spline_off_by_mm).toBeGreaterThan(0);
  });

  it("refuses bad input in one line", () => {
    const refused: [string[], RegExp][] = [
      [[], /give either --goal with targets/],
      [["--goal", "cents2=0", "--like", demo], /give either --goal with targets/],
      [["--goal", "sents2=0"], /"sents" is not known/],
      [["--goal", "none.json"], /none\.json: there is no such file; give the path of a goal's JSON file/],
      [["--goal", "cents2=0", "--gap-from", "9mm"], /the gap cannot go from 9 to 8 mm/],
      [["--goal", "cents2=0", "--knots", "3"], /3 knots make no cubic leadpipe/],
      [["--goal", "cents2=0", "--smallest", "9mm"], /entry is held at 8.75 mm/],
      [["--goal", "cents2=0", "--steps", "0"], /--steps: 0 is no number of steps/],
    ];
    for (const [options, words] of refused) expectRefused(annulus(["design", demo, ...options]), words);
  });
});
