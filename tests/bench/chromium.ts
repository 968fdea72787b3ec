/** The production build in headless Chromium, a new person's page at a time, and what such a page is asked: when something is there. */
import { existsSync } from "node:fs";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { preview } from "vite";

declare global {
  interface Window {
    bench: {
      /** The first element at a path: selectors joined by " >> ", each within the shadow of the one before. */
      readonly find: (path: string) => Element | null;
      /** performance.now() in the first frame in which this holds, looked at before anything is drawn. */
      readonly when: (holds: () => unknown) => Promise<number>;
      /** performance.now() once the frame that is being made, or else the next, has been painted. */
      readonly painted: () => Promise<number>;
      /** performance.now() of the last key or button that was pressed. */
      hand: number;
    };
  }
}

/** Runs in the page, before its own scripts. */
function watchingPage(): void {
  let isInFrame = false;
  let frameDone: ((now: number) => void)[] = [];
  const { port1, port2 } = new MessageChannel();
  // a message sent before the frame is painted comes after
  port1.onmessage = () => {
    isInFrame = false;
    const done = frameDone;
    frameDone = [];
    for (const one of done) one(performance.now());
  };
  const frame = () => {
    isInFrame = true;
    port2.postMessage(null);
  };
  window.bench = {
    find: (path) => {
      let within: ParentNode | null | undefined = document;
      const steps = path.split(" >> ");
      for (const step of steps.slice(0, -1)) within = within?.querySelector(step)?.shadowRoot;
      return within?.querySelector(steps[steps.length - 1]) ?? null;
    },
    when: (holds) =>
      new Promise((resolve, reject) => {
        const limit = setTimeout(() => reject(new Error(`not there in a minute: ${holds}`)), 60_000);
        const look = () => {
          if (!holds()) return void requestAnimationFrame(look);
          clearTimeout(limit);
          resolve(performance.now());
        };
        look();
      }),
    painted: () =>
      new Promise((resolve) => {
        frameDone.push(resolve);
        if (!isInFrame) requestAnimationFrame(frame);
      }),
    hand: 0,
  };
  const pressed = () => {
    window.bench.hand = performance.now();
  };
  for (const kind of ["keydown", "pointerdown"]) addEventListener(kind, pressed, { capture: true });
}

/** Where the sheet's parts are, as `bench.find` takes them. */
const SHEET = "annulus-app >> annulus-task-sheet";
const EXPLORE = `${SHEET} >> annulus-explore`;
export const AT = {
  curve: `${EXPLORE} >> .air annulus-chart >> [data-part=chosen-curve]`,
  chart: `${EXPLORE} >> .air annulus-chart`,
  verdicts: `${EXPLORE} >> annulus-verdicts`,
  sentence: `${EXPLORE} >> annulus-verdicts >> [data-testid=headline] p`,
  slurs: `${SHEET} >> annulus-play >> annulus-leaps >> [data-testid=leaps-finding]`,
  report: `${SHEET} >> annulus-sheet >> [data-testid=sheet-status]`,
  strip: `${SHEET} >> annulus-listen >> annulus-listen-strip >> annulus-chart`,
} as const;

export interface VisitOptions {
  readonly hash?: string;
  /** How many times slower the page's own thread is than this machine's. */
  readonly slowdown?: number;
  /** Called with the context before the page is asked for. */
  readonly before?: (context: BrowserContext) => unknown;
}

export interface PageBench {
  readonly address: string;
  /** A page of a new person's; it is on its way, not there. */
  readonly visit: (options?: VisitOptions) => Promise<Page>;
  readonly close: () => Promise<void>;
}

/** A browser that opens a window loads pages of its own for its frame, on both cores; a person's window is there already. */
const WINDOW_OPEN_MS = 1500;

export async function slowedDown(page: Page, slowdown: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: slowdown });
}

/** The page as it was built last; null where this machine has no Chromium. */
export async function pageBench(): Promise<PageBench | null> {
  const executablePath =
    process.env.CHROMIUM_PATH ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find(existsSync);
  if (!executablePath) return null;
  const server = await preview({ preview: { port: 0, host: "127.0.0.1" }, logLevel: "error" });
  const { port } = server.httpServer.address() as { port: number };
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  const address = `http://127.0.0.1:${port}/`;
  return {
    address,
    async visit({ hash = "", slowdown = 1, before } = {}) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
      // the runner's compiler names functions by a helper that the page has not got
      await context.addInitScript("globalThis.__name = (f) => f");
      await context.addInitScript(watchingPage);
      await before?.(context);
      const page = await context.newPage();
      page.setDefaultTimeout(60_000);
      await page.waitForTimeout(WINDOW_OPEN_MS);
      if (slowdown !== 1) await slowedDown(page, slowdown);
      await page.goto(address + hash, { waitUntil: "commit" });
      return page;
    },
    async close() {
      await browser.close();
      await server.close();
    },
  };
}
