/**
 * The built page with a witness in its head, which takes down what goes wrong: not every browser's driver tells what stands
 * on the console.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Plugin } from "vite";
import type { TestProject } from "vitest/node";
import { serveTo } from "../browser/serve.ts";
import { watch } from "./witness.ts";

/** A file of its own: the page's policy allows no script within it. */
const ADDRESS = "/witness.js";

const witness: Plugin = {
  name: "witness",
  configurePreviewServer({ middlewares, config }) {
    const page = () => readFileSync(join(config.build.outDir, "index.html"), "utf8");
    middlewares.use(({ url = "" }, response, next) => {
      const [path] = url.split("?");
      const send = (type: string, text: string) => response.setHeader("Content-Type", type).end(text);
      if (path === ADDRESS) send("text/javascript", `(${watch})();`);
      else if (path === "/" || path === "/index.html")
        send("text/html", page().replace("<title>", `<script src=".${ADDRESS}"></script><title>`));
      else next();
    });
  },
};

export default (project: TestProject): Promise<() => Promise<void>> => serveTo(project, [witness]);
