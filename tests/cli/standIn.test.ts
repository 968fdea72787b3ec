import { expect, it } from "vitest";
import { annulus, expectRefused } from "./run.ts";

it("lists its families, and gives a file that the other commands take", () => {
  const list = annulus(["standin", "--list"]);
  expect(list).toMatchObject({ status: 0, stderr: "" });
  const ids = list.stdout.split("\n").flatMap((line) => /^(\S+) {2}/.exec(line)?.[1] ?? []);
  expect(ids.length).toBe(12);
  expect(ids).toContain("horn-b-flat");
  const file = annulus(["standin", "cornet"]);
  expect(file).toMatchObject({ status: 0, stderr: "" });
  const modes = annulus(["modes", "-", "--format", "json"], file.stdout);
  // no warning either
  expect(modes).toMatchObject({ status: 0, stderr: "" });
  const fourth = JSON.parse(modes.stdout).modes[3].frequency_Hz;
  expect(Math.abs(1200 * Math.log2(fourth / 466.16))).toBeLessThan(30);
});

it("names the families where there is no such one", () => {
  expectRefused(annulus(["standin", "ophicleide"]), /no "ophicleide"; give one of b-flat-trumpet, .*tuba/);
  expectRefused(annulus(["standin"]), /no family is named/);
});
