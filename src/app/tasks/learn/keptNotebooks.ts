/**
 * Keeps the notebooks in the browser, so that they open without a network: not with the page itself, which would make
 * everybody wait for what few read, but once the task Learn or any notebook is looked at; then to the end, whatever is looked at
 * next. The page's worker (`vite.config.ts`) asks the
 * network first and answers from this cache where there is none.
 */

import type { Kept } from "../../../words/keptNotebooks.ts";

/** The cache's name, known to the page's worker too. */
export const NOTEBOOK_CACHE = "notebooks";

interface Place {
  /** Where the notebooks lie. */
  readonly folder: URL;
  readonly fetch: typeof fetch;
  readonly caches: CacheStorage | undefined;
  readonly serviceWorker: ServiceWorkerContainer | undefined;
}

const browserPlace = (folder: URL): Place => ({
  folder,
  fetch: (...request) => fetch(...request),
  caches: globalThis.caches,
  serviceWorker: navigator.serviceWorker,
});

let last: Kept = { state: "looking" };
let isRunning = false;
const followers = new Set<(kept: Kept) => void>();

/**
 * Keeps the notebooks of a folder, once for all who follow it, and goes on when nobody does.
 * @returns what ends following
 */
export function followKeeping(folder: URL, tell: (kept: Kept) => void): () => void {
  followers.add(tell);
  tell(last);
  if (!isRunning && last.state !== "kept") void run(folder);
  return () => followers.delete(tell);
}

async function run(folder: URL): Promise<void> {
  isRunning = true;
  for await (const kept of keepNotebooks(browserPlace(folder))) {
    last = kept;
    for (const tell of followers) tell(kept);
  }
  isRunning = false;
}

/** How far it is, until they are kept or cannot be. */
export async function* keepNotebooks(place: Place): AsyncGenerator<Kept> {
  const { caches, serviceWorker } = place;
  yield { state: "looking" };
  if (!caches || !serviceWorker) {
    yield missing("This browser keeps no pages here; the notebooks need the network.");
    return;
  }
  try {
    const cache = await caches.open(NOTEBOOK_CACHE);
    const files = await filesOf(place);
    if (files === null) {
      const hasSome = (await cache.keys()).length > 0;
      yield hasSome
        ? { state: "kept" }
        : missing("There is no network now, and the notebooks were not kept before.");
      return;
    }
    const wanted = new Set(files.map((file) => new URL(file, place.folder).href));
    const known = new Set((await cache.keys()).map(({ url }) => url));
    // a file with a fingerprint in its name never changes; the pages themselves do
    const asked = [...wanted].filter((url) => !known.has(url) || url.endsWith(".html"));
    for (const [done, url] of asked.entries()) {
      yield { state: "keeping", done, of: asked.length };
      await cache.add(new Request(url, { cache: "no-cache" }));
    }
    for (const url of known) if (!wanted.has(url)) await cache.delete(url);
    await serviceWorker.ready;
    yield { state: "kept" };
  } catch {
    yield missing("The notebooks could not be kept in this browser; with a network they open all the same.");
  }
}

const missing = (words: string): Kept => ({ state: "missing", words });

/** The files of all notebooks as they were built; null without a network. */
async function filesOf({ fetch, folder }: Place): Promise<readonly string[] | null> {
  try {
    const answer = await fetch(new URL("files.json", folder), { cache: "no-store" });
    return answer.ok ? await answer.json() : null;
  } catch {
    return null;
  }
}
