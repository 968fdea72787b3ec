// npm run bench: installs what is missing, then measures; see tests/bench.
import { installChromium, installPackages, run } from "./install.mjs";

installPackages();
process.env.CHROMIUM_PATH = installChromium();
process.exit(
  run(process.execPath, ["--import", "tsx", "tests/bench/run.ts", ...process.argv.slice(2)], {
    stdio: "inherit",
  }),
);
