/** Builds the page and the notebooks once and serves them for all browser tests, as `npm start` does, apart from what a person is looking at. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build, preview } from "vite";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  const outDir = mkdtempSync(join(tmpdir(), "annulus-page-"));
  await build({ logLevel: "error", build: { outDir, emptyOutDir: true } });
  await build({
    configFile: "vite.notebooks.config.ts",
    logLevel: "error",
    build: { outDir: join(outDir, "notebooks"), emptyOutDir: true },
  });
  const server = await preview({
    build: { outDir },
    preview: { port: 0, host: "127.0.0.1" },
    logLevel: "error",
  });
  const { port } = server.httpServer.address() as { port: number };
  project.provide("address", `http://127.0.0.1:${port}/`);
  return async () => {
    await server.close();
    rmSync(outDir, { recursive: true });
  };
}
