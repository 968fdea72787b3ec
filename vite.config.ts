import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";
import { NOTEBOOK_CACHE } from "./src/app/tasks/learn/keptNotebooks.ts";
import { FIRST_CHUNKS, MODEL_CHUNKS, preloadFirst } from "./vite.first.ts";
import { contentSecurityPolicy, policyHeaders } from "./vite.policy.ts";

export default defineConfig({
  // relative addresses: the page may lie in any folder of a host
  base: "./",
  resolve: {
    alias: {
      "lit/directives/style-map.js": fileURLToPath(
        new URL("src/app/shell/look/styleMap.ts", import.meta.url),
      ),
    },
  },
  build: {
    // beside dist/cli, the terminal's commands
    outDir: "dist/page",
    target: "es2022",
    // everything is a file of its own: the policy allows no data: fonts
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // said at every build on a slow machine, and nothing to be done about it
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: { codeSplitting: { groups: FIRST_CHUNKS } },
    },
  },
  worker: {
    format: "es",
    rolldownOptions: { output: { codeSplitting: { groups: MODEL_CHUNKS } } },
  },
  plugins: [
    contentSecurityPolicy(),
    policyHeaders(),
    preloadFirst(),
    VitePWA({
      registerType: "prompt",
      injectRegister: null,
      includeAssets: ["icon.svg", "icon-180.png"],
      workbox: {
        globPatterns: ["**/*.{js,css,html,svg,png,woff,woff2,json}"],
        cleanupOutdatedCaches: true,
        // the notebooks and the pages of documentation are pages of their own
        navigateFallbackDenylist: [/\/(notebooks|docs)\//],
        runtimeCaching: [
          {
            urlPattern: /\/notebooks\//,
            handler: "NetworkFirst",
            options: {
              cacheName: NOTEBOOK_CACHE,
              networkTimeoutSeconds: 4,
              // a file is the same whoever asks for it, though a host may say that answers vary
              matchOptions: { ignoreVary: true },
            },
          },
        ],
      },
      manifest: {
        name: "Annulus",
        short_name: "Annulus",
        description: "Shows what the receiver gap of a brass instrument does.",
        start_url: "./",
        scope: "./",
        display: "standalone",
        background_color: "#FBFAF6",
        theme_color: "#FBFAF6",
        icons: [
          { src: "icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
          { src: "icon.svg", sizes: "any", type: "image/svg+xml" },
        ],
      },
    }),
  ],
});
