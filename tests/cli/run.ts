/** The built commands, as a person runs them. */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, inject } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));

export function annulus(args: readonly string[], input: string | Uint8Array = "") {
  const { stdout, stderr, status } = spawnSync(process.execPath, [inject("annulus"), ...args], {
    cwd: root,
    input,
    encoding: "utf8",
  });
  return { stdout, stderr, status };
}

/** Bad input: exit 1, nothing on standard output, one line on standard error that is no stack trace. */
export function expectRefused({ stdout, stderr, status }: ReturnType<typeof annulus>, words: RegExp): void {
  expect(stderr).toMatch(words);
  expect(status).toBe(1);
  expect(stdout).toBe("");
  expect(stderr.trimEnd().split("\n").length).toBe(1);
  expect(stderr).not.toMatch(/\bat .*:\d+:\d+|NaN|undefined/);
}
