// Installs what is missing: npm packages from the lock file, and Chromium from the system's packages where asked for.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));
process.chdir(root);

/** Runs a command, its output going to standard error so that results on standard output stay alone; gives its exit status. */
export const run = (command, args, options = {}) =>
  spawnSync(command, args, { stdio: ["inherit", 2, 2], ...options }).status ?? 1;

/** Packages of the lock file, installed again only when it has changed. */
export function installPackages() {
  const stamp = "node_modules/.annulus-lock";
  const lock = createHash("sha256").update(readFileSync("package-lock.json")).digest("hex");
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === lock) return;
  console.error("Installing the packages of package-lock.json …");
  const status = run("npm", ["ci", "--no-fund", "--no-audit"]);
  if (status !== 0) {
    console.error("npm ci failed: the packages could not be installed; see its message above.");
    process.exit(status);
  }
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, lock);
}

/** Debian packages; true where they could be installed. */
function installDebian(...packages) {
  const sudo = process.getuid?.() === 0 ? [] : ["sudo"];
  const apt = (...args) => run([...sudo, "apt-get"][0], [...sudo, "apt-get", ...args].slice(1));
  apt("update", "-qq");
  return apt("install", "-y", "-qq", "--no-install-recommends", ...packages) === 0;
}

/**
 * Debian's Chromium without a window of its own, where there is such a package: the same browser, but each page of it opens in a
 * third of the time, since none of the window's own pages are loaded with it.
 */
export function installChromiumShell() {
  if (existsSync("/usr/bin/chromium-headless-shell")) return;
  console.error("Installing Chromium without a window from the system's packages for the browser tests …");
  installDebian("chromium-headless-shell");
}

/** Where Chromium is, installing Debian's if the machine has none. */
export function installChromium() {
  const known = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];
  const found = process.env.CHROMIUM_PATH ?? known.find(existsSync);
  if (found) return found;
  console.error("Installing Chromium from the system's packages for the browser tests …");
  const hasInstalled = installDebian("chromium", "fonts-dejavu-core");
  const installed = known.find(existsSync);
  if (hasInstalled && installed) return installed;
  console.error(
    "Chromium could not be installed: install a package named chromium, or set CHROMIUM_PATH to a browser.",
  );
  process.exit(1);
}

/** GNU parallel, for the test of batches (docs/batch.md). Without it that test fails and says so; the others run. */
export function installParallel() {
  const isThere = () => spawnSync("parallel", ["--version"], { stdio: "ignore" }).status === 0;
  if (isThere()) return;
  console.error("Installing GNU parallel from the system's packages for the test of batches …");
  if (!installDebian("parallel") || !isThere())
    console.error("GNU parallel could not be installed: install a package named parallel.");
}

/** Debian's Firefox, and WebKitGTK with a display that nobody sees, for the tours of the page. Without them the tours fail and say so. */
export function installTouredBrowsers() {
  const packages = { "firefox-esr": "firefox-esr", WebKitWebDriver: "webkit2gtk-driver", Xvfb: "xvfb" };
  const missing = Object.keys(packages).filter((command) => !existsSync(`/usr/bin/${command}`));
  if (missing.length === 0) return;
  const names = missing.map((command) => packages[command]);
  console.error(
    `Installing ${names.join(", ")} from the system's packages for the tours in other browsers …`,
  );
  if (!installDebian(...names)) console.error(`They could not be installed: install ${names.join(", ")}.`);
}
