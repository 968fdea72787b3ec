/** `docs/example.mjs` run against the built package, as someone who imports the model would. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { afterAll, beforeAll, expect, test } from "vitest";
import { FINDING } from "../../src/index.ts";
import { annulus } from "./run.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
// below the project, so that the packages it rests on are found, and apart from `dist`, which a person may be using
const folder = join(root, "node_modules/.annulus-example");

beforeAll(async () => {
  const installed = join(folder, "node_modules/annulus");
  mkdirSync(installed, { recursive: true });
  for (const path of ["docs/example.mjs", "shared/demo.setup.json"])
    cpSync(join(root, path), join(folder, path));
  cpSync(join(root, "package.json"), join(installed, "package.json"));
  const outDir = join(installed, "dist/model");
  await build({ configFile: "vite.model.config.ts", logLevel: "error", build: { outDir } });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("prints the resonances the terminal prints, and what changes", () => {
  const { stdout, stderr, status } = spawnSync(process.execPath, [join(folder, "docs/example.mjs")], {
    encoding: "utf8",
  });
  expect({ stderr, status }).toEqual({ stderr: "", status: 0 });
  const rows = [...stdout.matchAll(/^ *(\d+) +([\d.]+) +([\d.]+) +([-\d.]+) +[-\d.]+$/gm)];
  const at = (gap: string): number[] =>
    JSON.parse(
      annulus(["modes", "shared/demo.setup.json", "--gap", gap, "--format", "json"]).stdout,
    ).modes.map((mode: { frequency_Hz: number }) => mode.frequency_Hz);
  const [before, after] = [at("1mm"), at("3.5mm")];
  expect(rows.length).toBe(before.length);
  for (const [i, [, n, from, to, cents]] of rows.entries()) {
    expect(Number(n)).toBe(i + 1);
    expect(from).toBe(before[i].toFixed(2));
    expect(to).toBe(after[i].toFixed(2));
    expect(Number(cents)).toBeCloseTo(1200 * Math.log2(after[i] / before[i]), 1);
  }
  expect(stdout).toContain(`\nslots: ${FINDING["too-small"]}. `);
});
