// npm run build: the page with its notebooks into dist/page, the terminal's commands into dist/cli. Always builds.
import { build } from "vite";
import { forgetBuild, rememberBuild, sourceHash } from "./buildStamp.mjs";
import { root } from "./install.mjs";

/** @param logLevel "warn" for who works on the sources, "error" for who only wants the page */
export async function buildAll(logLevel) {
  const hash = sourceHash(root);
  forgetBuild(root);
  for (const configFile of ["vite.config.ts", "vite.notebooks.config.ts", "vite.cli.config.ts"])
    await build({ configFile, logLevel });
  rememberBuild(root, hash);
}

if (process.argv[1] === import.meta.filename) await buildAll("warn");
