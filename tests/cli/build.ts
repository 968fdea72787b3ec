/** Builds the commands once for all their tests, apart from `dist`, which a person may be using. */
import { mkdtempSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "vite";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    /** The program as it is started. */
    annulus: string;
    /** The thread that answers with the same commands. */
    answering: string;
  }
}

export default async function buildCommands(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), "annulus-"));
  await build({
    configFile: "vite.cli.config.ts",
    logLevel: "error",
    build: {
      outDir: folder,
      ssr: true,
      rolldownOptions: {
        input: { annulus: "src/cli/annulus.ts", answering: "tests/cli/answering.ts" },
        output: { entryFileNames: "[name].mjs" },
      },
    },
  });
  // typefaces of drawings are read from their package
  symlinkSync(resolve("node_modules"), join(folder, "node_modules"));
  project.provide("annulus", join(folder, "annulus.mjs"));
  project.provide("answering", join(folder, "answering.mjs"));
  return () => rmSync(folder, { recursive: true });
}
