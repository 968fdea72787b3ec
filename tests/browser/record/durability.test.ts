import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { useBrowser } from "../browser.ts";
import { answered, gapText, showsGap, typeGap } from "../gap/sheet.ts";
import { passed } from "../still.ts";
import { field, keep, message, openJobs, recordIsThere, row, rows } from "./jobs.ts";
import { copySays, type StartOptions, shownGaps, start } from "./profile.ts";

const PROMISED_MS = 1000;
/** A browser that is killed soon; the one with a window is killed by the tests of a full disk. */
const SHORT: StartOptions = { keepsItself: false, isWindowed: false };

describe("a browser that is killed", () => {
  const profile = mkdtempSync(join(tmpdir(), "annulus-killed-"));
  afterAll(() => rmSync(profile, { recursive: true, force: true, maxRetries: 5 }));

  /** Pseudo-random from 0 to 1, the same in every run: which moments they are the machine's pace decides as well. */
  let seed = 14;
  const random = () => {
    seed = (seed * 1103515245 + 12345) % 2 ** 31;
    return seed / 2 ** 31;
  };
  let count = 0;
  const nextGap = () => `${(1 + (count++ % 400) / 100).toFixed(2)} mm`;

  /** Types for a while and kills the browser. The answer: what must be there still, and what may be. */
  async function typeAndKill(
    restWaits: boolean,
    hasModel: boolean,
  ): Promise<{ shown: string[]; newest: string[] }> {
    const { page, kill } = await start(profile, "", { ...SHORT, hasModel });
    await page.getByTestId("gap-field").waitFor();
    const typed: { gap: string; at: number }[] = [];
    const edits = 1 + Math.floor(3 * random());
    for (let i = 0; i < edits; i++) {
      const gap = nextGap();
      await typeGap(page, gap);
      typed.push({ gap, at: performance.now() });
      await passed(page, 300 * random());
    }
    const waitMs = restWaits ? PROMISED_MS : PROMISED_MS * random();
    await new Promise((done) => setTimeout(done, typed.at(-1)!.at + waitMs - performance.now()));
    const shown = await shownGaps(page);
    const killedAt = performance.now();
    await kill();
    const safe = typed.findLastIndex(({ at }) => at <= killedAt - PROMISED_MS);
    return {
      shown,
      newest: typed
        .slice(Math.max(0, safe))
        .map(({ gap }) => gap)
        .concat(safe < 0 ? ["before"] : []),
    };
  }

  it("20 times at any moment has lost nothing older than a second, and shows the newest first", async () => {
    let expected: string[] | null = null;
    let isSeen = 0;
    let before = "";
    for (let i = 0; i < 20; i++) {
      if (i === 8) {
        // from here on as a job
        const { page, context } = await start(profile, "#jobs", SHORT);
        await recordIsThere(page);
        await keep(page, "Killed");
        await row(page, "Killed").waitFor();
        await context.close();
      }
      const { shown, newest } = await typeAndKill(i % 2 === 0, i % 4 < 2 && i % 3 === 0);
      if (expected) {
        isSeen++;
        expect(expected.map((gap) => (gap === "before" ? before : gap))).toContain(shown[0]);
      }
      before = shown[0];
      // nothing but what it began with and what was typed
      expect(shown.slice(1).filter((gap) => Number.parseFloat(gap) > 5)).toEqual([]);
      expected = newest;
    }
    expect(isSeen).toBe(19);
    const { page, context } = await start(profile, "#jobs", SHORT);
    await recordIsThere(page);
    await row(page, "Killed").waitFor();
    expect(await rows(page).count()).toBe(1);
    expect(await message(page).count()).toBe(0);
    await context.close();
    // twenty starts of a browser on a busy machine
  }, 900_000);
});

describe("the browser's database", () => {
  const { visit } = useBrowser();

  it("deleted under an open page is noticed, and what it held comes back", async () => {
    const { page } = await openJobs(visit, { hasModel: true });
    await keep(page, "First");
    await page.getByTestId("new-same").click();
    await expect.poll(() => rows(page).count()).toBe(2);
    await field(page, "title").fill("Second");
    await field(page, "title").press("Tab");
    await row(page, "Second").waitFor();
    await expect.poll(() => copySays(page, "jobs", '"title":"Second"')).toBe(true);
    await page.evaluate(() => {
      for (const name of ["annulus", "annulus-working"]) indexedDB.deleteDatabase(name);
    });
    await message(page)
      .getByText(/had lost its database.*“First”.*“Second”.*are back, from the second copy/)
      .waitFor();
    await expect.poll(() => rows(page).count()).toBe(2);
    await row(page, /Second.*open now/s).waitFor();
    // the open job goes on in the database that was made again
    await page.getByTestId("task-explore").click();
    await typeGap(page, "1.3 mm");
    await expect.poll(() => copySays(page, "jobs", '"gapMm":1.3,')).toBe(true);
    await page.reload();
    await answered(page);
    expect(await gapText(page)).toBe("1.30 mm");
  });

  it("deleted together with the second copy leaves the open job, from the page's memory", async () => {
    const { page } = await openJobs(visit);
    await keep(page, "Only here");
    await expect.poll(() => copySays(page, "jobs", "Only here")).toBe(true);
    await page.evaluate(async () => {
      const folder = await navigator.storage.getDirectory();
      // as if it had never been: the files are held by a worker and cannot be removed
      const get = folder.getFileHandle.bind(folder);
      FileSystemDirectoryHandle.prototype.getFileHandle = (name, options) =>
        name.startsWith("jobs") ? Promise.reject(new DOMException("", "NotFoundError")) : get(name, options);
      indexedDB.deleteDatabase("annulus");
    });
    await message(page)
      .getByText(/had lost its database.*the job that is open is back/)
      .waitFor();
    await row(page, /Only here.*open now/s).waitFor();
  });

  it("taken over by a later version of the page: the old tab says to load it again, and loses nothing", async () => {
    const { page, context } = await openJobs(visit, { hasModel: true });
    await keep(page, "Between versions");
    await expect.poll(() => copySays(page, "jobs", "Between versions")).toBe(true);
    await page.getByTestId("task-explore").click();
    const later = await context.newPage();
    await later.goto(page.url());
    // what a later version does first
    await later.evaluate(
      () =>
        new Promise((done, fail) => {
          const opening = indexedDB.open("annulus", 900);
          opening.onsuccess = done;
          opening.onerror = fail;
        }),
    );
    await message(page)
      .getByText(/later version of this page is open in another tab; load this one again/)
      .waitFor();
    await typeGap(page, "1.7 mm");
    await passed(page, PROMISED_MS);
    await message(page).getByRole("button", { name: "Load it again" }).click();
    await answered(page);
    await showsGap(page, "1.70 mm");
  });
});
