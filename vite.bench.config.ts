import { pathToFileURL } from "node:url";
import { defineConfig, type Plugin } from "vite";

/** Files of the benchmark find their tables beside their own source. */
const ownPlaces: Plugin = {
  name: "own-places",
  transform: (code, id) =>
    id.includes("/tests/")
      ? code.replaceAll("import.meta.url", JSON.stringify(pathToFileURL(id).href))
      : undefined,
};

// The benchmark as one file: what it measures is then compiled as the page and the terminal have it, without names kept for
// closures, which costs half as much again where they are many.
export default defineConfig({
  publicDir: false,
  plugins: [ownPlaces],
  build: {
    ssr: "tests/bench/run.ts",
    outDir: "dist/bench",
    target: "node20",
    rolldownOptions: {
      // they find their places by their own
      external: /[\\/]scripts[\\/]/,
      checks: { pluginTimings: false },
      output: { entryFileNames: "run.mjs" },
    },
  },
});
