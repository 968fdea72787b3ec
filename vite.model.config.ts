import { defineConfig } from "vite";

// The model as others import it (src/index.ts), in one file; the packages it rests on stay packages.
export default defineConfig({
  publicDir: false,
  build: {
    outDir: "dist/model",
    target: "es2022",
    minify: false,
    lib: { entry: "src/index.ts", formats: ["es"], fileName: "index" },
    rolldownOptions: { checks: { pluginTimings: false }, external: /^[^./]/ },
  },
});
