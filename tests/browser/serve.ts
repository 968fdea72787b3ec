/** Builds the page once and serves it for all browser tests, as `npm start` does. */
import { build, preview } from "vite";
import type { TestProject } from "vitest/node";

declare module "vitest" {
  interface ProvidedContext {
    address: string;
  }
}

export default async function serve(project: TestProject): Promise<() => Promise<void>> {
  await build({ logLevel: "error" });
  const server = await preview({ preview: { port: 0, host: "127.0.0.1" }, logLevel: "error" });
  const { port } = server.httpServer.address() as { port: number };
  project.provide("address", `http://127.0.0.1:${port}/`);
  return () => server.close();
}
