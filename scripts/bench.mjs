// npm run bench: installs what is missing, then measures; see tests/bench.
import { installChromium, installPackages, run } from "./install.mjs";

installPackages();
const { build } = await import("vite");
await build({ configFile: "vite.bench.config.ts", logLevel: "error" });
process.env.CHROMIUM_PATH = installChromium();
process.exit(run(process.execPath, ["dist/bench/run.mjs", ...process.argv.slice(2)], { stdio: "inherit" }));
