// npm start: everything a fresh machine needs, then the page, served from this machine to this machine. Built only when
// the sources are not those it was last built from.
import { parseArgs } from "node:util";
import { isBuilt } from "./buildStamp.mjs";
import { installPackages, root } from "./install.mjs";

const { port, host, open } = askedFor();
installPackages();
if (!isBuilt(root)) {
  console.error("Building the page, which takes about half a minute …");
  const { buildAll } = await import("./build.mjs");
  await buildAll("error");
}
const { preview } = await import("vite");
// served as it lies there: the build's own settings and plugins would only be read for nothing
const server = await preview({
  configFile: false,
  base: "./",
  logLevel: "error",
  build: { outDir: "dist/page" },
  preview: { ...(port && { port }), ...(host && { host }), open },
});
const { local, network } = server.resolvedUrls;
console.log(`Annulus is served to this machine at ${[...local, ...network].join(" and ")} (Ctrl+C ends it).`);

function askedFor() {
  const options = {
    port: { type: "string" },
    host: { type: "string" },
    open: { type: "boolean", default: false },
  };
  try {
    const { port, ...others } = parseArgs({ options }).values;
    return { port: Number(port), ...others };
  } catch (error) {
    console.error(`${error.message} npm start takes --port NUMBER, --host ADDRESS and --open.`);
    process.exit(2);
  }
}
