import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

const demo = "shared/demo.setup.json";
const gauge = (...args: string[]) => annulus(["gauge", demo, ...args]);

it("draws in every format", () => {
  expect(gauge("--kind", "plug")).toMatchObject({
    status: 0,
    stderr: "",
    stdout: expect.stringMatching(/^<svg .*width="297mm"/),
  });
  expect(gauge("--kind", "ring", "--format", "dxf").stdout).toMatch(/SECTION[\s\S]*EOF\s*$/);
  const pdf = gauge("--kind", "mandrel", "--format", "pdf");
  expect(pdf).toMatchObject({ status: 0, stdout: expect.stringMatching(/^%PDF-1\.\d[\s\S]*%%EOF\s*$/) });
});

it("a PDF takes names in Greek and Cyrillic letters, and says which letters it has not got", () => {
  const named = (name: string) =>
    annulus(
      ["gauge", "-", "--kind", "plug", "--format", "pdf"],
      JSON.stringify({ ...JSON.parse(readFileSync(demo, "utf8")), name }),
    );
  const plain = named("Trumpet");
  const greek = named("Ζωή, Дарья");
  expect([greek.status, greek.stderr]).toEqual([plain.status, plain.stderr]);
  // the letters travel in the file
  expect(greek.stdout.length).toBeGreaterThan(plain.stdout.length + 3000);
  expect(named("小").stderr).toContain("question mark in place of 小");
});

it("gives its numbers under names with units", () => {
  const plug = JSON.parse(gauge("--kind", "plug", "--format", "json").stdout);
  expect(plug.nose_diameter_mm).toBeCloseTo(9.35, 9);
  expect(plug.shoulders.map(({ length_mm }: { length_mm: number }) => length_mm)).toEqual([
    23.5, 24, 24.5, 25, 25.5,
  ]);
  expect(plug.cautions.join(" ")).toMatch(/qualified repairer/);
  const ring = JSON.parse(
    gauge("--kind", "ring", "--gap-from", "0.08in", "--gap-to", "0.11in", "--format", "json").stdout,
  );
  expect(ring.limits_mm).toEqual([0.08 * 25.4, 0.11 * 25.4]);
});

it("refuses in one line what cannot be drawn", () => {
  expectRefused(gauge("--kind", "ring", "--gap-from", "1mm"), /--gap-from and --gap-to go together/);
  expectRefused(
    gauge("--kind", "ring", "--gap-from", "3mm", "--gap-to", "1mm"),
    /--kind ring: .*the lower first/,
  );
  expectRefused(gauge("--kind", "leadpipe", "--wall", "0mm"), /the wall is out of range/);
  expect(gauge().status).toBe(2);
});
