/** `npm start` builds when, and only when, what a build reads is not what it last read. */
import { cpSync, mkdirSync, mkdtempSync, renameSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { forgetBuild, isBuilt, rememberBuild, sourceHash } from "../../scripts/buildStamp.mjs";

let root = "";
const at = (path: string) => join(root, path);

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "annulus-stamp-"));
  for (const folder of ["src/units", "workers/instrument", "dist/page", "tests/snapshots"])
    mkdirSync(at(folder), { recursive: true });
  for (const file of [
    "src/units/length.ts",
    "workers/instrument/model.ts",
    "package-lock.json",
    "vite.config.ts",
  ])
    writeFileSync(at(file), `content of ${file}`);
  writeFileSync(at("dist/page/index.html"), "<p>built</p>");
  rememberBuild(root, sourceHash(root));
});
afterEach(() => rmSync(root, { recursive: true }));

test("nothing changed: nothing to build, whatever the files' times and whatever no build reads", () => {
  expect(isBuilt(root)).toBe(true);
  utimesSync(at("src/units/length.ts"), 1, 1);
  writeFileSync(at("README.md"), "other words");
  writeFileSync(at("tests/snapshots/a.svg"), "<svg/>");
  expect(isBuilt(root)).toBe(true);
});

test.each<[string, () => void]>([
  [
    "a source is changed, at the same length",
    () => writeFileSync(at("src/units/length.ts"), "CONTENT of src/units/length.ts"),
  ],
  ["a source is added", () => writeFileSync(at("src/units/angle.ts"), "")],
  ["a source is deleted", () => rmSync(at("workers/instrument/model.ts"))],
  [
    "a source is renamed",
    () => renameSync(at("workers/instrument/model.ts"), at("workers/instrument/models.ts")),
  ],
  ["a folder the build reads appears", () => cpSync(at("workers"), at("public"), { recursive: true })],
  ["the lock file is changed", () => writeFileSync(at("package-lock.json"), "{}")],
  ["the build's settings are changed", () => writeFileSync(at("vite.config.ts"), "")],
  ["a build was begun and broke off", () => forgetBuild(root)],
  ["the built page is gone", () => rmSync(at("dist"), { recursive: true })],
])("built anew when %s", (_, change) => {
  change();
  expect(isBuilt(root)).toBe(false);
});
