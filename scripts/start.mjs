// npm start: everything a fresh machine needs, then the page, served from this machine to this machine.
import { installPackages, run } from "./install.mjs";

installPackages();
const built = run("npm", ["run", "-s", "build"]);
if (built !== 0) process.exit(built);
process.exit(run("npx", ["--no-install", "vite", "preview", ...process.argv.slice(2)], { stdio: "inherit" }));
