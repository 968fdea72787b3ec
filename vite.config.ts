import { fileURLToPath } from "node:url";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/** The page talks to nobody: everything it may load is its own. Icons are images of the page's own (blob, data). */
const POLICY = {
  "default-src": "'none'",
  "script-src": "'self'",
  "style-src": "'self'",
  "img-src": "'self' blob: data:",
  "font-src": "'self'",
  "worker-src": "'self'",
  "connect-src": "'self'",
  "manifest-src": "'self'",
  "base-uri": "'none'",
  "form-action": "'none'",
};
const policyText = (policy: Record<string, string>) =>
  Object.entries(policy)
    .map(([what, from]) => `${what} ${from}`)
    .join("; ");

/** The policy in the page itself, and as a header file for hosts that read one; not in development, which reloads by inline scripts. */
const contentSecurityPolicy = (): Plugin => ({
  name: "content-security-policy",
  apply: "build",
  transformIndexHtml: () => [
    {
      tag: "meta",
      attrs: { "http-equiv": "Content-Security-Policy", content: policyText(POLICY) },
      injectTo: "head-prepend",
    },
  ],
  generateBundle() {
    const headers = [
      `Content-Security-Policy: ${policyText({ ...POLICY, "frame-ancestors": "'none'" })}`,
      "X-Content-Type-Options: nosniff",
      "Referrer-Policy: no-referrer",
    ];
    this.emitFile({ type: "asset", fileName: "_headers", source: `/*\n  ${headers.join("\n  ")}\n` });
  },
});

export default defineConfig({
  // relative addresses: the page may lie in any folder of a host
  base: "./",
  resolve: {
    alias: { "lit/directives/style-map.js": fileURLToPath(new URL("src/app/styleMap.ts", import.meta.url)) },
  },
  build: {
    // beside dist/cli, the terminal's commands
    outDir: "dist/page",
    target: "es2022",
    // everything is a file of its own: the policy allows no data: fonts
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  worker: { format: "es" },
  plugins: [
    contentSecurityPolicy(),
    VitePWA({
      registerType: "prompt",
      injectRegister: null,
      includeAssets: ["icon.svg", "icon-180.png"],
      workbox: {
        globPatterns: ["**/*.{js,css,html,svg,png,woff2,json}"],
        cleanupOutdatedCaches: true,
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
