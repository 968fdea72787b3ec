/** What the page and the notebooks may load: nothing but their own. Icons are images, recordings sounds of the page's own. */
import type { Plugin } from "vite";

const POLICY = {
  "default-src": "'none'",
  "script-src": "'self'",
  "style-src": "'self'",
  "img-src": "'self' blob: data:",
  "media-src": "blob:",
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

/** The policy in every page that is built; not in development, which reloads by inline scripts. */
export const contentSecurityPolicy = (): Plugin => ({
  name: "content-security-policy",
  apply: "build",
  transformIndexHtml: () => [
    {
      tag: "meta",
      attrs: { "http-equiv": "Content-Security-Policy", content: policyText(POLICY) },
      injectTo: "head-prepend",
    },
  ],
});

/** The same as a header file for hosts that read one, for everything they serve. */
export const policyHeaders = (): Plugin => ({
  name: "policy-headers",
  apply: "build",
  generateBundle() {
    const headers = [
      `Content-Security-Policy: ${policyText({ ...POLICY, "frame-ancestors": "'none'" })}`,
      "X-Content-Type-Options: nosniff",
      "Referrer-Policy: no-referrer",
    ];
    this.emitFile({ type: "asset", fileName: "_headers", source: `/*\n  ${headers.join("\n  ")}\n` });
  },
});
