// npm start: everything a fresh machine needs, then the page, served from this machine to this machine. Built only when
// the sources are not those it was last built from.
import { spawn } from "node:child_process";
import { parseArgs } from "node:util";
import { isBuilt } from "./buildStamp.mjs";
import { installPackages, root } from "./install.mjs";
import { listen, pageServer } from "./serve.mjs";

const { port, host, open } = askedFor();
installPackages();
if (!isBuilt(root)) {
  console.error("Building the page, which takes about half a minute …");
  const { buildAll } = await import("./build.mjs");
  await buildAll("error");
}
const server = pageServer("dist/page");
const address = await listen(server, { port, host }).catch((error) => {
  const why = error.code === "EADDRINUSE" ? "that port is taken" : error.message;
  console.error(`The page cannot be served: ${why}; give another by --port NUMBER.`);
  process.exit(1);
});
console.log(`Annulus is served to this machine at ${address} (Ctrl+C ends it).`);
if (open) openBrowser(address);

/** In the system's browser; where there is none the address stands above. */
function openBrowser(url) {
  const [command, ...args] = { darwin: ["open"], win32: ["cmd", "/c", "start", ""] }[process.platform] ?? [
    "xdg-open",
  ];
  spawn(command, [...args, url], { stdio: "ignore", detached: true }).on("error", () => {});
}

function askedFor() {
  const options = {
    port: { type: "string" },
    host: { type: "string" },
    open: { type: "boolean", default: false },
  };
  try {
    const { port, ...others } = parseArgs({ options }).values;
    return { port: port === undefined ? undefined : portOf(port), ...others };
  } catch (error) {
    console.error(`${error.message} npm start takes --port NUMBER, --host ADDRESS and --open.`);
    process.exit(2);
  }
}

function portOf(text) {
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port < 65536) return port;
  throw new Error(`--port ${text} is no port; give a number up to 65535.`);
}
