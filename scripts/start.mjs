// npm start: everything a fresh machine needs, then the demo sweep.
import { installPackages, run } from "./install.mjs";

installPackages();
process.exit(
  run(process.execPath, ["bin/annulus.mjs", "sweep", "shared/demo.setup.json", "--gaps", "0:8:1"], {
    stdio: "inherit",
  }),
);
