/** The recipe of docs/batch.md with local jobs. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, inject, it } from "vitest";

const demo = fileURLToPath(new URL("../../shared/demo.setup.json", import.meta.url));

it("a folder of leadpipes by some gaps, shared out, failed, mended and resumed", () => {
  expect(
    spawnSync("parallel", ["--version"]).status,
    "GNU parallel is missing: npm test installs it; else install the system's package parallel",
  ).toBe(0);
  const folder = mkdtempSync(join(tmpdir(), "batch-"));
  mkdirSync(join(folder, "leadpipes"));
  mkdirSync(join(folder, "rows"));
  const names = Array.from({ length: 6 }, (_, i) => `leadpipes/${i}.csv`);
  names.forEach((name, i) => {
    writeFileSync(join(folder, name), i === 3 ? "0,8.8\n240,\n" : `0,${8.6 + 0.1 * i}\n240,11.68\n`);
  });
  const batch = () =>
    spawnSync(
      "parallel",
      [
        ...["--will-cite", "-j", "2", "-n", "2", "--joblog", "batch.log", "--resume-failed"],
        ...["--results", "rows/{#}.ndjson", process.execPath, inject("annulus"), "compare", demo],
        ...["--leadpipe", "{}", "--gaps", "1:3:1", "--retune", "4", "--no-sensitivity", "--format", "ndjson"],
      ],
      { cwd: folder, input: `${names.join("\n")}\n`, encoding: "utf8" },
    );
  const rows = () =>
    readdirSync(join(folder, "rows"))
      .filter((name) => name.endsWith(".ndjson"))
      .flatMap((name) =>
        readFileSync(join(folder, "rows", name), "utf8")
          .trimEnd()
          .split("\n"),
      );
  const done = () =>
    readFileSync(join(folder, "batch.log"), "utf8")
      .trimEnd()
      .split("\n")
      .slice(1)
      .map((line) => line.split("\t"));

  const first = batch();
  expect(first.status).toBe(1);
  expect(readFileSync(join(folder, "rows", "2.ndjson.err"), "utf8")).toContain(
    'annulus: leadpipes/3.csv: line 2: "240" stands alone',
  );
  // one of three jobs failed, and its other table was answered all the same
  expect(
    done()
      .map((job) => job[6])
      .sort(),
  ).toEqual(["0", "0", "1"]);
  expect(new Set(rows()).size).toBe((1 + 5) * 3);

  writeFileSync(join(folder, names[3]), "0,8.9\n240,11.68\n");
  expect(batch().status).toBe(0);
  // only the failed job was done again
  expect(done().length).toBe(4);
  const table = [...new Set(rows())].map((line) => JSON.parse(line));
  expect(table.length).toBe((1 + 6) * 3);
  for (const { gap_mm, retuned, modes } of table) {
    expect([1, 2, 3]).toContain(gap_mm);
    expect(modes.length).toBe(12);
    // brought to the frequency of the setup's own leadpipe at its first gap
    expect(retuned.modes[3].shift_cents).toBeCloseTo(0, 6);
  }
});
