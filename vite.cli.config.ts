import { defineConfig } from "vite";

// The terminal's commands in one file: mathjs alone is hundreds of small modules, slow to open one by one.
export default defineConfig({
  publicDir: false,
  ssr: { noExternal: true, target: "node" },
  build: {
    ssr: "src/cli/annulus.ts",
    outDir: "dist/cli",
    target: "node20",
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: { entryFileNames: "annulus.mjs", chunkFileNames: "[name].mjs" },
    },
  },
});
