/**
 * The page's own speed in headless Chromium: first drawn curve after navigation, gap drag to redrawn charts, what is fetched,
 * compressed, before the first curve, and how late a note is drawn that is listened to.
 */
import { existsSync } from "node:fs";
import { gzipSync } from "node:zlib";
import { chromium, type Page } from "playwright-core";
import { build, preview } from "vite";
import type { Row } from "./bench.ts";
import { ABSENT_LISTEN_DELAY, listenDelayRows } from "./listenDelay.ts";

const NAMES = [
  "page: navigation to the first drawn curve",
  "page: gap drag to redrawn charts, 95th percentile",
  "page: weight before the first curve, compressed",
] as const;

const row = (i: number, value: number | null, goal: number, unit: Row["unit"]): Row => ({
  name: NAMES[i],
  value,
  goal,
  unit,
  better: "less",
});

/** Milliseconds from navigation until the impedance chart holds a curve. */
const firstCurve = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        setTimeout(() => reject(new Error("no curve was drawn in half a minute")), 30_000);
        const look = () => {
          const explore = document
            .querySelector("annulus-app")
            ?.shadowRoot?.querySelector("annulus-task-sheet")
            ?.shadowRoot?.querySelector("annulus-explore");
          const curve = explore?.shadowRoot
            ?.querySelector(".air annulus-chart")
            ?.shadowRoot?.querySelector("svg path[data-part], svg path");
          if (curve) resolve(performance.now());
          else requestAnimationFrame(look);
        };
        look();
      }),
  );

/** For every pointer move of a drag of the shank, milliseconds until the impedance chart shows its gap. */
const dragTimes = (page: Page, x: number, y: number, moves: number): Promise<number[]> =>
  page.evaluate(
    async ([x0, y0, count]) => {
      const explore = document
        .querySelector("annulus-app")!
        .shadowRoot!.querySelector("annulus-task-sheet")!
        .shadowRoot!.querySelector("annulus-explore")!.shadowRoot!;
      const shank = explore
        .querySelector("annulus-cutaway")!
        .shadowRoot!.querySelector('[data-testid="shank"]')!;
      const chart = explore.querySelector(".air annulus-chart")!.shadowRoot!;
      const drawn = () => chart.querySelector("svg")?.outerHTML.length;
      const send = (type: string, dx: number) =>
        shank.dispatchEvent(
          new PointerEvent(type, {
            pointerId: 1,
            isPrimary: true,
            button: 0,
            buttons: type === "pointerup" ? 0 : 1,
            clientX: x0 + dx,
            clientY: y0,
            bubbles: true,
            composed: true,
            cancelable: true,
          }),
        );
      const times: number[] = [];
      send("pointerdown", 0);
      for (let i = 1; i <= count; i++) {
        await new Promise((resolve) => setTimeout(resolve, 40));
        const start = performance.now();
        const redrawn = new Promise<number>((resolve) => {
          const observer = new MutationObserver(() => {
            observer.disconnect();
            drawn();
            requestAnimationFrame(() => resolve(performance.now() - start));
          });
          observer.observe(chart, { childList: true, subtree: true, attributes: true, characterData: true });
          setTimeout(() => resolve(Number.NaN), 1000);
        });
        send("pointermove", i % 40 < 20 ? i % 40 : 40 - (i % 40));
        const time = await redrawn;
        if (Number.isFinite(time)) times.push(time);
      }
      send("pointerup", 0);
      return times;
    },
    [x, y, moves] as const,
  );

export async function pageRows(): Promise<Row[]> {
  const executablePath =
    process.env.CHROMIUM_PATH ?? ["/usr/bin/chromium", "/usr/bin/chromium-browser"].find(existsSync);
  if (!executablePath)
    return [
      row(0, null, 1000, "ms"),
      row(1, null, 33, "ms"),
      row(2, null, 250, "kB"),
      ...ABSENT_LISTEN_DELAY,
    ];
  await build({ logLevel: "error" });
  const server = await preview({ preview: { port: 0, host: "127.0.0.1" }, logLevel: "error" });
  const { port } = server.httpServer.address() as { port: number };
  const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
  try {
    const starts: number[] = [];
    let weight = 0;
    let times: number[] = [];
    for (let visit = 0; visit < 3; visit++) {
      const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
      // the runner's compiler names functions by a helper that the page has not got
      await context.addInitScript("globalThis.__name = (f) => f");
      const page = await context.newPage();
      const fetched: Promise<number>[] = [];
      let counting = true;
      context.on("response", (response) => {
        if (!counting || response.request().serviceWorker()) return;
        // woff2 is compressed already and hardly changes
        fetched.push(
          response.body().then(
            (body) => gzipSync(body).length,
            () => 0,
          ),
        );
      });
      await page.goto(`http://127.0.0.1:${port}/`, { waitUntil: "commit" });
      starts.push(await firstCurve(page));
      counting = false;
      weight = (await Promise.all(fetched)).reduce((sum, bytes) => sum + bytes, 0) / 1000;
      if (visit === 2) {
        await page.waitForTimeout(2500);
        const shank = (await page.getByTestId("shank").boundingBox())!;
        times = await dragTimes(page, shank.x + shank.width / 2, shank.y + shank.height / 2, 120);
      }
      await context.close();
    }
    const listening = await browser.newContext({ viewport: { width: 1280, height: 900 } });
    await listening.addInitScript("globalThis.__name = (f) => f");
    const delay = await listenDelayRows(await listening.newPage(), `http://127.0.0.1:${port}/`);
    times.sort((a, b) => a - b);
    if (times.length < 60) throw new Error(`only ${times.length} of 120 drag steps were redrawn`);
    return [
      row(0, Math.min(...starts), 1000, "ms"),
      row(1, times[Math.floor(0.95 * times.length)], 33, "ms"),
      row(2, weight, 250, "kB"),
      ...delay,
    ];
  } finally {
    await browser.close();
    await server.close();
  }
}
