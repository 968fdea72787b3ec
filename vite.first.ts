/** The code of the first curve: one file, since eighty small ones cost a third of the wait and are heavier compressed. */
import type { Plugin } from "vite";

const NAME = "first";

/**
 * What the page starts with and all it imports. Before it come the worker's own start, and what fetches the rest; apart stay
 * the parts of d3 that only later files use, which d3's own index would bring along. What is kept from an earlier visit has its
 * reader, and what the first curve does not wait for comes after that, in one piece each.
 */
export const FIRST_CHUNKS = [
  {
    name: "d3",
    test: /node_modules[\\/]d3-(random|contour)[\\/]/,
    priority: 4,
    includeDependenciesRecursively: false,
  },
  {
    name: "worker",
    test: /[\\/]src[\\/]app[\\/](work[\\/]firstWorker|shell[\\/]look[\\/]typeface|state[\\/]keeping[\\/]shelfKey)\.ts$|vite[\\/]preload-helper|rolldown[\\/]runtime/,
    priority: 3,
  },
  { name: NAME, test: /[\\/]src[\\/]app[\\/]start\.ts$/, priority: 2 },
  { name: "reader", test: /[\\/]src[\\/]app[\\/]state[\\/]keeping[\\/]restored\.ts$/, priority: 1 },
  { name: "later", test: /[\\/]src[\\/]app[\\/]later\.ts$/ },
];

/** The model's worker in one file as well: what it and its later files share would be another, asked for only once it is read. */
export const MODEL_CHUNKS = [
  { name: "model", test: /[\\/]workers[\\/]instrument[\\/]model(\.worker)?\.ts$/ },
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
