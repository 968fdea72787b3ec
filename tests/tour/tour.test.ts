/** A short tour of the page in browsers other than the one all else is tried in. */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { TASKS } from "../../src/app/shell/route.ts";
import { screenshots } from "../browser/browser.ts";
import { openFirefox } from "./firefox.ts";
import { byTestId, type TouredBrowser, type Way } from "./touredBrowser.ts";
import { openWebKitGtk } from "./webkitGtk.ts";

const GAP = [byTestId("gap-value")];
const OPEN_JOB = [byTestId("open-job")];

describe.each([
  ["Firefox", openFirefox],
  ["WebKitGTK", openWebKitGtk],
])("the page in %s", (name, openBrowser) => {
  let browser: TouredBrowser;
  beforeAll(async () => {
    browser = await openBrowser();
    await browser.open(inject("address"));
  });
  afterAll(() => browser?.close());

  const reads = (way: Way, words: RegExp) => expect.poll(() => browser.text(way)).toMatch(words);

  /** Goes to a task as one does by hand. */
  async function goTo(task: (typeof TASKS)[number]): Promise<void> {
    const link = [byTestId(task === "edit" ? "edit-instrument" : `task-${task}`)];
    await reads(link, /\w/);
    await browser.click(link);
  }

  it("answers a gap that is typed", async () => {
    await reads([byTestId("verdict-slots")], /peak height/i);
    await browser.type([byTestId("gap-field")], "3.7 mm");
    await reads(GAP, /3\.70 mm/);
    await reads([byTestId("verdict-slots")], /peak height/i);
    if (!process.env.PICTURES) return;
    mkdirSync(screenshots, { recursive: true });
    writeFileSync(join(screenshots, `tour-${name}.png`), await browser.picture());
  });

  it("opens every task", async () => {
    for (const task of TASKS) {
      await goTo(task);
      await reads([task === "edit" ? "annulus-editor" : `annulus-${task}`, "h2"], /\w/);
    }
  });

  it("keeps a job over a reload", async () => {
    await goTo("jobs");
    await reads([byTestId("keep-job")], /\w/);
    await browser.click([byTestId("keep-job")]);
    const title = [byTestId("open-fields"), byTestId("job-title"), "input, textarea"];
    await reads(title, /^/);
    await browser.type(title, "Worn receiver");
    await reads(OPEN_JOB, /Worn receiver/);
    await browser.reload();
    await reads(OPEN_JOB, /Worn receiver/);
    await reads([byTestId("job-row")], /Worn receiver/);
    await goTo("explore");
    await reads(GAP, /3\.70 mm/);
  });

  it("brings the job back when its database is deleted: from a second copy, or where there is no place for one, from the page, which says so", async () => {
    await goTo("jobs");
    await reads([byTestId("job-row")], /Worn receiver/);
    const hasCopy = await browser.run(() => "getDirectory" in (navigator.storage ?? {}));
    const backup = ["annulus-job-backup"];
    await reads(backup, hasCopy ? /All jobs in one file/ : /no place for a second copy/);
    expect(/no place for a second copy/.test((await browser.text(backup)) ?? "")).toBe(!hasCopy);
    await browser.run(() => void indexedDB.deleteDatabase("annulus"));
    const back = hasCopy ? /“Worn receiver”/ : /the job that is open/;
    await reads([byTestId("message")], new RegExp(`had lost its database of jobs.*${back.source}.* back`));
    await reads([byTestId("job-row")], /Worn receiver/);
    await browser.reload();
    await reads([byTestId("job-row")], /Worn receiver/);
  });

  it("complains of nothing", async () => {
    expect(await browser.complaints()).toEqual([]);
  });
});
