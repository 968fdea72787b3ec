/** The code of the first curve: one file, since eighty small ones cost a third of the wait and are heavier compressed. */
import type { Plugin } from "vite";

const NAME = "first";

/** What the page starts with and all it imports; the worker's own start, and what fetches the rest, come before it. */
export const FIRST_CHUNKS = [
  {
    name: "worker",
    test: /[\\/]src[\\/]app[\\/]work[\\/]firstWorker\.ts$|vite[\\/]preload-helper/,
    priority: 1,
  },
  { name: NAME, test: /[\\/]src[\\/]app[\\/]start\.ts$/ },
];

/** It is asked for with the page, not once the worker's start has been read. */
export const preloadFirst = (): Plugin => ({
  name: "preload-first",
  apply: "build",
  transformIndexHtml: {
    order: "post",
    handler: (_, { bundle }) =>
      Object.values(bundle ?? {})
        .filter((chunk) => chunk.type === "chunk" && chunk.name === NAME)
        .map(({ fileName }) => ({
          tag: "link",
          attrs: { rel: "modulepreload", crossorigin: true, href: `./${fileName}` },
          injectTo: "head" as const,
        })),
  },
});
