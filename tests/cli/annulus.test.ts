import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { exampleFile } from "../setup/example.ts";
import { annulus, annulusAlone, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";

describe("annulus", () => {
  it("runs from a fresh clone, whether or not it has been built", () => {
    const bin = fileURLToPath(new URL("../../bin/annulus.mjs", import.meta.url));
    const { stdout, status } = spawnSync(process.execPath, [bin, "modes", demo, "--format", "csv"], {
      encoding: "utf8",
    });
    expect(status).toBe(0);
    expect(stdout).toBe(annulus(["modes", demo, "--format", "csv"]).stdout);
  });

  it("answers in a process of its own as these tests are answered, what it exits with included", () => {
    const setup = readFileSync(demo, "utf8");
    const calls: readonly (readonly [status: number, args: string, input?: string | Uint8Array])[] = [
      [0, "modes - --format json", setup],
      [1, "modes - --format json --modes 3", `${setup.replace(/\s*\n\s*/g, " ")}\n{"format":1}\n`],
      [
        0,
        "listen - --test slot --near 466 --format json",
        readFileSync("tests/reference/listen/slot-trumpet.wav"),
      ],
      [1, "modes no-such-file.json"],
      [1, "gap --depth 20mm --insertion 22mm"],
      [2, "nonsense"],
      [0, "--help"],
    ];
    for (const [status, args, input] of calls) {
      const alone = annulusAlone(args.split(" "), input);
      expect(alone.status, args).toBe(status);
      expect(alone).toEqual(annulus(args.split(" "), input));
    }
  });

  it("curve: CSV and JSON of impedance", () => {
    const csv = annulus(["curve", demo, "--gap", "0.1in", "--frequencies", "100:110:5"]);
    expect(csv.status).toBe(0);
    const lines = csv.stdout.trimEnd().split("\n");
    expect(lines[0]).toBe("frequency_Hz,re_Pa_s_m3,im_Pa_s_m3");
    expect(lines.length).toBe(4);
    const json = JSON.parse(
      annulus(["curve", demo, "--gap", "2.54", "--frequencies", "100:110:5", "--format", "json"]).stdout,
    );
    expect(json.frequency_Hz).toEqual([100, 105, 110]);
    lines.slice(1).forEach((line, i) => {
      const [f, re, im] = line.split(",").map(Number);
      expect([f, re, im]).toEqual([json.frequency_Hz[i], json.re_Pa_s_m3[i], json.im_Pa_s_m3[i]]);
    });
  });

  it("modes: table, CSV and JSON of the same resonances", () => {
    const { gap_mm, modes } = JSON.parse(
      annulus(["modes", demo, "--gap", "0.1in", "--format", "json"]).stdout,
    );
    expect(gap_mm).toBeCloseTo(2.54, 12);
    expect(modes.length).toBe(12);
    expect(Object.keys(modes[0])).toEqual(
      expect.arrayContaining(["n", "frequency_Hz", "Q", "peak_frequency_Hz", "peak_Pa_s_m3"]),
    );
    const table = annulus(["modes", demo, "--gap", "0.1in"]).stdout;
    expect(table).toContain("gap 2.54 mm (0.100 in)");
    for (const { frequency_Hz } of modes) expect(table).toContain(frequency_Hz.toFixed(2));
    const csv = annulus(["modes", demo, "--gap", "0.1in", "--format", "csv"]).stdout.trimEnd().split("\n");
    expect(csv.length).toBe(13);
    expect(csv[0]).toMatch(/^gap_mm,n,frequency_Hz,Q,peak_frequency_Hz,peak_Pa_s_m3/);
  });

  it("sweep: one row a gap and a mode, as it is and retuned", () => {
    const { rows } = JSON.parse(annulus(["sweep", demo, "--gaps", "0:8:2", "--format", "json"]).stdout);
    expect(rows.length).toBe(5 * 12);
    const retuned = JSON.parse(
      annulus(["sweep", demo, "--gaps", "0:8:2", "--retune", "4", "--format", "json"]).stdout,
    );
    const fourth = retuned.rows.filter((row: { n: number }) => row.n === 4);
    expect(fourth).toHaveLength(5);
    for (const row of fourth) expect(row.shift_cents).toBeCloseTo(0, 6);
    const table = annulus(["sweep", demo, "--gaps", "0:8:2"]).stdout;
    expect(table).toMatch(/Shift of the resonance, cents/);
    expect(table).toMatch(/Change of peak height, dB/);
    expect(table).toMatch(/Spacing to the next resonance, Hz/);
    expect(table).not.toMatch(/NaN|undefined|-0\.0\b/);
  });

  it("cavity: inertance and compliance", () => {
    const out = annulus(
      "cavity --shank-exit 8.5mm --cavity 10mm --leadpipe 8.8mm --gap 2.54mm --format json".split(" "),
    );
    const { inertance_over_density_per_m, compliance_m3_per_Pa } = JSON.parse(out.stdout);
    // finite elements: 37.0165 1/m
    expect(inertance_over_density_per_m / 37.0165).toBeCloseTo(1, 3);
    expect(compliance_m3_per_Pa).toBeGreaterThan(1.3e-12);
    expect(compliance_m3_per_Pa).toBeLessThan(1.5e-12);
  });

  it("gap: repeat readings, an interval, and a negative result in words", () => {
    const good = annulus(
      "gap --depth 24.54mm 24.52mm --depth 24.56mm --insertion 22.0mm 21.98mm 22.02mm --format json".split(
        " ",
      ),
    );
    const { gap_mm, interval_mm } = JSON.parse(good.stdout);
    expect(gap_mm).toBeCloseTo(2.54, 9);
    expect(interval_mm[0]).toBeLessThan(2.54);
    expect(interval_mm[1]).toBeGreaterThan(2.54);
    const bad = annulus("gap --depth 20mm --insertion 22mm".split(" "));
    expect(bad.status).toBe(1);
    expect(bad.stderr).toMatch(/cannot be: repeat the depth reading and the insertion reading/);
  });

  it("reads standard input, and many setups as NDJSON, a bad line not stopping the others", () => {
    const one = annulus(["modes", "-", "--format", "json"], readFileSync(demo, "utf8"));
    expect(JSON.parse(one.stdout).modes.length).toBe(12);
    const line = JSON.stringify(exampleFile());
    const many = annulus(
      ["modes", "-", "--format", "json", "--modes", "3"],
      `${line}\n{"format":1}\n${line}\n`,
    );
    expect(many.status).toBe(1);
    const answers = many.stdout
      .trimEnd()
      .split("\n")
      .map((text) => JSON.parse(text));
    expect(answers.map(({ line }) => line)).toEqual([1, 3]);
    expect(answers[0].modes.length).toBe(3);
    expect(many.stderr).toMatch(/^annulus: line 2: /);
  });

  it("refuses bad input in one line: what, where, what would be right", () => {
    const folder = mkdtempSync(join(tmpdir(), "annulus-"));
    const file = (name: string, text: string) => {
      const path = join(folder, name);
      writeFileSync(path, text);
      return path;
    };
    const changed = (change: (setup: any) => void) => {
      const setup = exampleFile() as any;
      change(setup);
      return file("changed.json", JSON.stringify(setup));
    };
    expectRefused(annulus(["modes", "no-such-file.json"]), /no-such-file\.json: there is no such file/);
    expectRefused(annulus(["modes", folder]), /that is a folder/);
    expectRefused(
      annulus(["modes", file("broken.json", '{"format": "annulus-setup",\n "version": }')]),
      /line 2/,
    );
    expectRefused(annulus(["modes", file("empty.json", "")]), /annulus: /);
    expectRefused(
      annulus([
        "modes",
        changed((s) => {
          s.leadpipe.profile = [
            [0, 8.8],
            [20, 9],
            [12, 9.2],
          ];
        }),
      ]),
      /leadpipe\.profile\[2\]/,
    );
    expectRefused(
      annulus([
        "modes",
        changed((s) => {
          s.body.profile[0][1] = -1;
        }),
      ]),
      /body\.profile\[0\]\[1\]/,
    );
    expectRefused(
      annulus([
        "modes",
        changed((s) => {
          s.colour = "gold";
        }),
      ]),
      /colour/,
    );
    expectRefused(
      annulus([
        "modes",
        changed((s) => {
          s.mouthpiece.insertion = 30;
        }),
      ]),
      /insertion/,
    );
    expectRefused(annulus(["modes", demo, "--gap", "-1mm"]), /gap/);
    expectRefused(annulus(["modes", demo, "--gap", "three"]), /"three" is not a length/);
    expectRefused(annulus(["sweep", demo, "--gaps", "0:8:0"]), /annulus: /);
    expectRefused(annulus(["curve", demo, "--frequencies", "0:100:1"]), /annulus: /);
  });

  it("answers wrong usage with exit 2", () => {
    for (const args of [
      ["nonsense"],
      ["modes"],
      ["modes", demo, "--format", "xml"],
      ["sweep", demo, "--retune", "x"],
      ["cavity"],
    ]) {
      const { status, stdout, stderr } = annulus(args);
      expect(status).toBe(2);
      expect(stdout).toBe("");
      expect(stderr).toMatch(/error: /);
    }
    expect(annulus(["--help"]).status).toBe(0);
  });
});
