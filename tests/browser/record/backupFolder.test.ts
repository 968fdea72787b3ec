/** A backup that is kept up to date in a folder of the person's own: the browser's own files stand in for the picked folder. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { parseBackup, readBackup } from "../../../src/record/backup.ts";
import { AT } from "../../record/jobs.ts";
import { expectQuiet, useBrowser } from "../browser.ts";
import { expectSound } from "../soundness.ts";
import { field, keep, message, openJobs, recordIsThere, reported, restore, row } from "./jobs.ts";

const { visit } = useBrowser();

/** The dialog cannot be driven: it answers with a folder that is made for it. */
function picksFolder(): void {
  Object.assign(window, {
    showDirectoryPicker: async () => {
      const root = await navigator.storage.getDirectory();
      return root.getDirectoryHandle("Backups", { create: true });
    },
  });
}

/** A folder whose leave lapses, as the browser's own does at every visit. */
function lapses(): void {
  let isAllowed = false;
  Object.assign(FileSystemHandle.prototype, {
    queryPermission: async () => (isAllowed ? "granted" : "prompt"),
    requestPermission: async () => {
      isAllowed = navigator.userActivation.isActive;
      return isAllowed ? "granted" : "prompt";
    },
  });
}

const texts = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle("Backups");
    const files: string[] = [];
    for await (const handle of (
      folder as unknown as { values(): AsyncIterable<FileSystemFileHandle> }
    ).values())
      files.push(await (await handle.getFile()).text());
    return files;
  });

/** The titles in each file, each whole and as it was written. */
const titles = async (page: Page): Promise<string[][]> =>
  (await texts(page)).map((text) => {
    const { json, damage } = parseBackup(text);
    expect(damage).toBeNull();
    return readBackup(json, AT)
      .jobs.map(({ title }) => title)
      .sort();
  });

describe("a folder of the person's own", () => {
  it("has the newest after every change and the one before beside it; leave that lapsed is asked for again; it can be stopped", async () => {
    const visited = await openJobs(visit, { before: [picksFolder] });
    const { page, context } = visited;
    await page.getByTestId("last-backup").getByText("None has been made here yet").waitFor();
    await keep(page, "First");
    await page.getByText("Kept up to date in a folder of your own").click();
    await page.getByText(/plain, not under a passphrase/).waitFor();
    await page.getByTestId("name-folder").click();
    await page
      .getByTestId("folder-stand")
      .getByText(/in the folder “Backups”: up to date/)
      .waitFor();
    await page
      .getByTestId("last-backup")
      .getByText(/Last made here: /)
      .waitFor();
    expect(await titles(page)).toEqual([["First"]]);
    await field(page, "title").fill("Changed");
    await field(page, "title").press("Tab");
    await expect.poll(() => titles(page), { timeout: 20_000 }).toContainEqual(["Changed"]);
    expect(await titles(page)).toContainEqual(["First"]);
    await expectSound(page);

    await context.addInitScript(lapses);
    await page.reload();
    await recordIsThere(page);
    await page
      .getByTestId("folder-stand")
      .getByText(/up to date/)
      .waitFor();
    expect(await message(page).count()).toBe(0);
    await field(page, "title").fill("Changed again");
    await field(page, "title").press("Tab");
    await message(page)
      .getByText(/wants your permission again.*“Backups”/)
      .waitFor();
    expect(await titles(page)).not.toContainEqual(["Changed again"]);
    await page.getByTestId("folder-trouble").waitFor();
    await expectSound(page);
    await page.getByTestId("allow-folder").click();
    await page
      .getByTestId("folder-stand")
      .getByText(/up to date/)
      .waitFor();
    expect(await titles(page)).toContainEqual(["Changed again"]);

    await page.getByText("About this folder").click();
    await page.getByTestId("stop-folder").click();
    await page.getByText("Kept up to date in a folder of your own").waitFor();
    await page
      .getByTestId("last-backup")
      .getByText(/Last made here/)
      .waitFor();
    const [newest] = (await texts(page)).filter((text) => text.includes("Changed again"));
    const other = await openJobs(visit);
    await restore(other.page, "annulus-backup-a.json", newest);
    await reported(other.page, /1 job; 1 added/);
    await row(other.page, "Changed again").waitFor();
    expectQuiet(visited);
  });

  it("where the browser has no such dialog, that is said, and a backup is reminded of once it is due", async () => {
    const { page, context } = await openJobs(visit);
    await context.addInitScript(() => Reflect.deleteProperty(window, "showDirectoryPicker"));
    await keep(page, "Long ago");
    await context.addInitScript(() => {
      const now = Date.now.bind(Date);
      Date.now = () => now() + 9 * 24 * 60 * 60 * 1000;
    });
    await page.goto(`${page.url().replace(/#.*/, "")}#explore`);
    await page.reload();
    await message(page)
      .getByText(/No backup has been made here yet, and your oldest job is 9 days old/)
      .waitFor();
    await page.getByRole("button", { name: "Make a backup" }).click();
    await page.getByText("Kept up to date in a folder of your own").click();
    await page.getByTestId("no-folders").waitFor();
    const download = page.waitForEvent("download");
    await page.getByTestId("make-backup").click();
    await download;
    await page
      .getByTestId("last-backup")
      .getByText(/Last made here: /)
      .waitFor();
    await page.reload();
    await recordIsThere(page);
    await page
      .getByTestId("last-backup")
      .getByText(/Last made here: /)
      .waitFor();
    expect(await message(page).count()).toBe(0);
  });
});
