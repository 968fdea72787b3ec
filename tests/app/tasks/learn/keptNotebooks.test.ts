import { describe, expect, it } from "vitest";
import { keepNotebooks } from "../../../../src/app/tasks/learn/keptNotebooks.ts";
import { type Kept, keptWords } from "../../../../src/words/keptNotebooks.ts";

const folder = new URL("https://here.example/annulus/notebooks/");
const at = (name: string) => new URL(name, folder).href;

/** A browser's cache with some files in it; what it does is written down. */
function browser(kept: readonly string[], served: readonly string[] | null, { refuses = false } = {}) {
  const inside = new Set(kept.map(at));
  const fetched: string[] = [];
  const cache = {
    keys: async () => [...inside].map((url) => ({ url })),
    add: async ({ url }: Request) => {
      if (refuses) throw new TypeError("no room");
      fetched.push(url);
      inside.add(url);
    },
    delete: async (url: string) => inside.delete(url),
  };
  return {
    inside,
    fetched,
    place: {
      folder,
      caches: { open: async () => cache } as unknown as CacheStorage,
      serviceWorker: { ready: Promise.resolve({}) } as unknown as ServiceWorkerContainer,
      fetch: (async () => {
        if (served === null) throw new TypeError("no network");
        return new Response(JSON.stringify(served));
      }) as typeof fetch,
    },
  };
}

async function all(steps: AsyncGenerator<Kept>): Promise<Kept[]> {
  const seen: Kept[] = [];
  for await (const step of steps) seen.push(step);
  return seen;
}

describe("keeping the notebooks", () => {
  it("fetches what is not there and the pages themselves, and lets go of what is no longer theirs", async () => {
    const { place, inside, fetched } = browser(
      ["assets/a-1.js", "assets/old-1.js", "one.html"],
      ["assets/a-1.js", "assets/b-1.js", "one.html"],
    );
    const steps = await all(keepNotebooks(place));
    expect(steps[0]).toEqual({ state: "looking" });
    expect(steps).toContainEqual({ state: "keeping", done: 1, of: 2 });
    expect(steps.at(-1)).toEqual({ state: "kept" });
    expect(steps.map(keptWords).at(-1)).toMatch(/all seven notebooks open without a network/);
    expect(fetched).toEqual([at("assets/b-1.js"), at("one.html")]);
    expect([...inside].sort()).toEqual([at("assets/a-1.js"), at("assets/b-1.js"), at("one.html")]);
  });

  it("says in words what is missing: the network, room, a browser that keeps anything", async () => {
    const last = async (steps: AsyncGenerator<Kept>) => (await all(steps)).at(-1);
    expect(await last(keepNotebooks(browser([], null).place))).toMatchObject({
      words: expect.stringMatching(/no network now/),
    });
    expect(await last(keepNotebooks(browser(["one.html"], null).place))).toEqual({ state: "kept" });
    const full = browser([], ["one.html"], { refuses: true });
    expect(await last(keepNotebooks(full.place))).toMatchObject({
      words: expect.stringMatching(/could not be kept/),
    });
    const { place } = browser([], ["one.html"]);
    expect(await last(keepNotebooks({ ...place, caches: undefined }))).toMatchObject({
      words: expect.stringMatching(/need the network/),
    });
  });
});
