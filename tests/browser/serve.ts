/** Builds the page and the notebooks once and serves them for all browser tests, as `npm start` does, apart from what a person is looking at. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build, type Plugin, preview } from "vite";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

export default (project: TestProject): Promise<() => Promise<void>> => serveTo(project);

/** Serves the built page to a project's tests, with plugins of the project's own. */
export async function serveTo(project: TestProject, plugins: Plugin[] = []): Promise<() => Promise<void>> {
  const outDir = await builtOnce();
  const server = await preview({
    build: { outDir },
    preview: { port: 0, host: "127.0.0.1" },
    logLevel: "error",
    plugins,
  });
  const { port } = server.httpServer.address() as { port: number };
  project.provide("address", `http://127.0.0.1:${port}/`);
  return () => server.close();
}

/** Each project of a run has modules of its own, all in one process: one build for them all is known to the process alone. */
function builtOnce(): Promise<string> {
  const run = globalThis as { annulusBuilt?: Promise<string> };
  run.annulusBuilt ??= buildAll();
  return run.annulusBuilt;
}

async function buildAll(): Promise<string> {
  const outDir = mkdtempSync(join(tmpdir(), "annulus-page-"));
  process.once("exit", () => rmSync(outDir, { recursive: true, force: true }));
  await build({ logLevel: "error", build: { outDir, emptyOutDir: true } });
  await build({
    configFile: "vite.notebooks.config.ts",
    logLevel: "error",
    build: { outDir: join(outDir, "notebooks"), emptyOutDir: true },
  });
  return outDir;
}
