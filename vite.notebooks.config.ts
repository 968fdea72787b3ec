/**
 * The notebooks: each `notebooks/*.html` is a page of its own beside the page itself, built after it (`npm run build`).
 * Cells are put together by Observable Notebook Kit; its library of packages from a network is left out
 * (`notebooks/paper/runtime.ts`), and so are its themes (`notebooks/paper/paper.css`).
 */
import { readdirSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { observable } from "@observablehq/notebook-kit/vite";
import { defineConfig, type Plugin } from "vite";
import { contentSecurityPolicy } from "./vite.policy.ts";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const kit = dirname(fileURLToPath(import.meta.resolve("@observablehq/notebook-kit")));
const template = at("notebooks/template.html");

/**
 * The kit writes its theme into a page, which the policy forbids, and code that cannot be scrolled by keyboard. Code stands behind
 * a fold: who reads for the sound of it is not stopped by it.
 */
const withoutKitTheme = (): Plugin => ({
  name: "without-kit-theme",
  transformIndexHtml: {
    order: "pre",
    handler: (page) =>
      page
        .replace(/<style type="text\/css">[^<]*<\/style>/, "")
        .replaceAll("<pre", '<details class="code"><summary>The code of this step</summary><pre tabindex="0"')
        .replaceAll("</pre>", "</pre></details>"),
  },
});

/** Every file of the notebooks by name, for the page that keeps them in the browser (`src/app/tasks/learn/keptNotebooks.ts`). */
const fileList = (): Plugin => ({
  name: "file-list",
  apply: "build",
  generateBundle: {
    order: "post",
    handler(_, bundle) {
      this.emitFile({ type: "asset", fileName: "files.json", source: JSON.stringify(Object.keys(bundle)) });
    },
  },
});

export default defineConfig({
  root: at("notebooks"),
  // relative addresses: the page may lie in any folder of a host
  base: "./",
  appType: "mpa",
  publicDir: false,
  resolve: {
    alias: [
      { find: /^observable:runtime$/, replacement: at("notebooks/paper/runtime.ts") },
      { find: /^observable:(.*)$/, replacement: `${kit}/$1` },
    ],
  },
  build: {
    outDir: at("dist/page/notebooks"),
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      // putting the cells together is most of the work, and said to be slow at every build
      checks: { pluginTimings: false },
      input: readdirSync(at("notebooks"))
        .filter((name) => name.endsWith(".html") && name !== "template.html")
        .map((name) => at(`notebooks/${name}`)),
    },
  },
  worker: { format: "es" },
  plugins: [observable({ template }), withoutKitTheme(), contentSecurityPolicy(), fileList()],
});
