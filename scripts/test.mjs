// npm test: everything a fresh machine needs, then types, lint, import directions and all tests.
import { mkdirSync, rmSync } from "node:fs";
import {
  installChromium,
  installChromiumShell,
  installPackages,
  installParallel,
  installTouredBrowsers,
  run,
} from "./install.mjs";

const report = "dist/test-report.json";

installPackages();
process.env.CHROMIUM_PATH = installChromium();
installChromiumShell();
installParallel();
installTouredBrowsers();
mkdirSync("dist", { recursive: true });
rmSync(report, { force: true });
const checks = run("npm", ["run", "-s", "check"]);
if (checks !== 0) console.error("The checks failed (types, lint or import directions): see above.");
const tests = run("npx", [
  "--no-install",
  "vitest",
  "run",
  "--reporter=default",
  "--reporter=json",
  `--outputFile.json=${report}`,
]);
process.exit(checks || tests);
