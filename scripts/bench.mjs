// npm run bench: installs what is missing, then measures; see tests/bench.
import { installPackages, run } from "./install.mjs";

installPackages();
process.exit(
  run(process.execPath, ["--import", "tsx", "tests/bench/run.ts", ...process.argv.slice(2)], {
    stdio: "inherit",
  }),
);
