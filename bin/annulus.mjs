#!/usr/bin/env node
// Runs the built commands, or the sources themselves where these are newer or nothing has been built.
import { existsSync, readdirSync, statSync } from "node:fs";

const root = new URL("../", import.meta.url);
const built = new URL("dist/cli/annulus.mjs", root);

const isStale = () => {
  const time = statSync(built).mtimeMs;
  return readdirSync(new URL("src/", root), { recursive: true }).some(
    (file) => statSync(new URL(`src/${file}`, root)).mtimeMs > time,
  );
};

if (existsSync(built) && !isStale()) await import(built.href);
else {
  const { register } = await import("tsx/esm/api");
  register();
  await import(new URL("src/cli/annulus.ts", root).href);
}
