/** A real Chromium, the system's own, and pages of it that take down everything that must not happen. */
import { existsSync, mkdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, afterEach, beforeEach, expect, inject } from "vitest";

/** The browser as a person has it: for what its processes do. */
export const windowedPath =
  process.env.CHROMIUM_PATH ??
  ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"].find(existsSync);
/** Without a window where there is such a Chromium: it opens a page in a third of the time. */
export const executablePath = ["/usr/bin/chromium-headless-shell"].find(existsSync) ?? windowedPath;

export const args = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** Where pictures and printed pages are put. */
export const screenshots = fileURLToPath(new URL("../screenshots/", import.meta.url));

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly address: string;
  /** Errors on the console, violations of the page's policy, uncaught exceptions. */
  readonly complaints: string[];
  /** Addresses asked for that are not the page's own. */
  readonly strangers: string[];
}

export interface VisitOptions {
  readonly width?: number;
  readonly height?: number;
  readonly colorScheme?: "light" | "dark";
  readonly hash?: string;
  readonly touch?: boolean;
  /** What the browser is to be without, or otherwise, before any code of the page runs. */
  readonly before?: readonly (() => void)[];
  /**
   * The page may keep itself in the browser, to open without a network. Fetching all of it once more takes as long as all that most
   * tests do, so that it does where a test is of that.
   */
  readonly keepsItself?: boolean;
  /**
   * The page is answered by its model. Each page that is opened has it work out the instrument anew, three quarters of all that
   * a sheet costs which shows nothing of it: further tests of such a sheet go without, once one has had it beside.
   */
  readonly hasModel?: boolean;
}

/** A browser without what a page keeps itself with, as browsers are where a page comes without https. */
export function keepsNothing(): void {
  Reflect.deleteProperty(Navigator.prototype, "serviceWorker");
}

/** Workers of the model that refuse all they are asked, at once: the page goes on as with an instrument that cannot be worked out. */
export function hasNoModel(): void {
  const Started = window.Worker;
  const refusing = () => {
    const { port1, port2 } = new MessageChannel();
    // by Comlink's protocol; the lock is what the page would learn of a worker's end by
    port2.onmessage = ({ data: { id, path } }) => {
      const value = path?.[0] === "holdLock" ? false : { refused: "This test asks no model." };
      port2.postMessage({ id, type: "RAW", value });
    };
    return Object.assign(port1, { terminate: () => port1.close() });
  };
  window.Worker = new Proxy(Started, {
    construct: (_, [address, options]) =>
      /\/(model|feel)\.worker/.test(`${address}`) ? refusing() : new Started(address, options),
  });
}

/** One for all files that a worker of the test runner gets; it ends with the worker. */
let commonBrowser: Promise<Browser> | undefined;

async function launch(more: readonly string[] = []): Promise<Browser> {
  if (!executablePath) throw new Error("no Chromium: npm test installs it, or set CHROMIUM_PATH");
  mkdirSync(screenshots, { recursive: true });
  return chromium.launch({ executablePath, args: [...args, ...more] });
}

async function inCommon(): Promise<Browser> {
  if (!(await commonBrowser?.catch(() => undefined))?.isConnected()) commonBrowser = launch();
  return commonBrowser!;
}

/**
 * A browser for a file of tests; `visit` opens a page in a context of its own, as a new person on a new machine, until the test
 * ends: pages left open would go on computing beside the next test's.
 *
 * @param more arguments of the browser, for what a machine has to have
 */
export function useBrowser(more: readonly string[] = []): {
  visit: (options?: VisitOptions) => Promise<Visit>;
} {
  let browser: Browser;
  beforeEach(async () => {
    if (!browser?.isConnected()) browser = await (more.length ? launch(more) : inCommon());
  });
  afterEach(async () => {
    await Promise.all(browser.contexts().map((context) => context.close()));
  });
  afterAll(async () => {
    if (more.length) await browser?.close();
  });
  return {
    async visit({
      width = 1280,
      height = 900,
      colorScheme = "light",
      hash = "",
      touch = false,
      before = [],
      keepsItself = false,
      hasModel = true,
    } = {}) {
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme,
        hasTouch: touch,
        acceptDownloads: true,
        permissions: ["clipboard-read", "clipboard-write"],
      });
      // a busy machine is slow, which is no fault
      context.setDefaultTimeout(60_000);
      if (!keepsItself) await context.addInitScript(keepsNothing);
      if (!hasModel) await context.addInitScript(hasNoModel);
      for (const act of before) await context.addInitScript(act);
      const page = await context.newPage();
      const address = inject("address");
      const visit: Visit = { page, context, address, complaints: [], strangers: [] };
      watch(visit);
      await page.goto(address + hash);
      return visit;
    },
  };
}

/** Takes down what goes wrong on a page; of every page of a context, for tests that reload or open a second tab. */
function watch({ context, address, complaints, strangers }: Visit): void {
  context.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  context.on("weberror", (error) => complaints.push(String(error.error())));
  context.on("request", (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith("data:") && !url.startsWith("blob:")) strangers.push(url);
  });
}

/** Nothing went wrong and nobody else was spoken to. */
export function expectQuiet({ complaints, strangers }: Visit): void {
  expect(complaints).toEqual([]);
  expect(strangers).toEqual([]);
}

/**
 * A picture of the whole page for a person to look at, named as told. Only with PICTURES set, as in `PICTURES=1 npm test`: they take
 * more time than what is tested.
 */
export async function picture(page: Page, name: string): Promise<void> {
  if (process.env.PICTURES) await page.screenshot({ path: `${screenshots}${name}.png`, fullPage: true });
}
