/** A browser with a profile that outlives it, and its sudden end. */
import { readdirSync, readFileSync, readlinkSync } from "node:fs";
import { join } from "node:path";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { inject } from "vitest";
import { args, executablePath, hasNoModel, keepsNothing, windowedPath } from "../browser.ts";

export interface Started {
  readonly page: Page;
  readonly context: BrowserContext;
  /** As a power cut ends it: no goodbye to the page, nothing written that was not yet. */
  kill(): Promise<void>;
}

export interface StartOptions {
  /** As in a visit: where it does, each start that is ended soon fetches the whole page once more. */
  readonly keepsItself?: boolean;
  /** The browser as a person has it; without, one that starts in a third of the time and keeps what it keeps in the same way. */
  readonly isWindowed?: boolean;
  /** As in a visit: what is kept of what is typed does not wait for the model. */
  readonly hasModel?: boolean;
}

export async function start(
  profile: string,
  hash = "",
  { keepsItself = true, isWindowed = true, hasModel = true }: StartOptions = {},
): Promise<Started> {
  const path = isWindowed ? windowedPath : executablePath;
  const context = await chromium.launchPersistentContext(profile, {
    ...(path && { executablePath: path }),
    args: [...args, "--disk-cache-size=1000000"],
    viewport: { width: 1280, height: 900 },
  });
  context.setDefaultTimeout(60_000);
  await context.addInitScript(rememberShown);
  if (!keepsItself) await context.addInitScript(keepsNothing);
  if (!hasModel) await context.addInitScript(hasNoModel);
  const page = context.pages()[0] ?? (await context.newPage());
  const pid = processOf(profile);
  await page.goto(inject("address") + hash, { waitUntil: "commit" });
  return {
    page,
    context,
    async kill() {
      const gone = new Promise((done) => context.once("close", done));
      process.kill(pid, "SIGKILL");
      await gone;
    },
  };
}

/**
 * The browser with this profile: as its lock says, or, where it has none, the process that was told of the profile and is neither
 * the script that started it nor one that it has started.
 */
function processOf(profile: string): number {
  if (readdirSync(profile).includes("SingletonLock"))
    return Number(readlinkSync(join(profile, "SingletonLock")).split("-").at(-1));
  const parents = new Map<string, string>();
  for (const pid of readdirSync("/proc"))
    try {
      const isBrowser = /chrom/.test(readlinkSync(`/proc/${pid}/exe`));
      const words = readFileSync(`/proc/${pid}/cmdline`, "utf8").split("\0");
      const status = readFileSync(`/proc/${pid}/status`, "utf8");
      if (isBrowser && words.includes(`--user-data-dir=${profile}`))
        parents.set(pid, /^PPid:\s*(\d+)/m.exec(status)![1]);
    } catch {
      // no process, or one that has ended
    }
  const found = [...parents].filter(([, parent]) => !parents.has(parent));
  if (found.length !== 1) throw new Error(`${found.length} browsers with the profile ${profile}`);
  return Number(found[0][0]);
}

/** Every gap that the page shows and every message it says, from its first drawing on: the next one may take its place. */
function rememberShown(): void {
  const shown = { gaps: [] as string[], messages: [] as string[] };
  Object.assign(window, { shown });
  const find = (selector: string, root: Document | ShadowRoot = document): HTMLElement | null => {
    for (const element of root.querySelectorAll<HTMLElement>("*")) {
      if (element.matches(selector)) return element;
      const within = element.shadowRoot && find(selector, element.shadowRoot);
      if (within) return within;
    }
    return null;
  };
  const last = new Map<string, HTMLElement | null>();
  // looked for through the whole page only where what was found before has gone
  const seen = (selector: string): HTMLElement | null => {
    if (!last.get(selector)?.isConnected) last.set(selector, find(selector));
    return last.get(selector)!;
  };
  const remember = (texts: string[], text: string | undefined) => {
    if (text && texts.at(-1) !== text) texts.push(text);
  };
  const look = () => {
    remember(shown.gaps, seen("[data-testid=gap-value]")?.innerText);
    remember(
      shown.messages,
      seen("annulus-message")?.shadowRoot?.querySelector<HTMLElement>(".line")?.innerText,
    );
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}

type Shown = Window & { readonly shown: { readonly gaps: string[]; readonly messages: string[] } };

export const shownGaps = (page: Page): Promise<string[]> =>
  page.evaluate(() => (window as unknown as Shown).shown.gaps);

/** Every message so far. */
export const said = (page: Page): Promise<string[]> =>
  page.evaluate(() => (window as unknown as Shown).shown.messages);

/** Whether the second copy says this, past the page: in either of its files. */
export const copySays = (page: Page, name: "work" | "jobs", words: string): Promise<boolean> =>
  page.evaluate(
    async ([name, words]) => {
      const folder = await navigator.storage.getDirectory();
      const texts = ["a", "b"].map(async (which) => {
        const file = await folder.getFileHandle(`${name}-${which}`);
        return (await file.getFile()).text();
      });
      const found = await Promise.all(texts.map((text) => text.catch(() => "")));
      return found.some((text) => text.includes(words));
    },
    [name, words] as const,
  );
