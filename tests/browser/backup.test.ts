/** All jobs in a file and back, and thousands of them. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeBackup } from "../../src/record/backup.ts";
import { AT, someJob } from "../record/jobs.ts";
import { expectQuiet, screenshots, useBrowser, type VisitOptions } from "./browser.ts";
import {
  document,
  keep,
  message,
  openJobs,
  reported,
  restore,
  row,
  rows,
  someJobs,
  version1,
} from "./jobs.ts";
import { readPdf } from "./pdf.ts";

const { visit } = useBrowser();
const open = (options?: VisitOptions) => openJobs(visit, options);

async function backUp(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.getByTestId("make-backup").click();
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^annulus-backup-\d{4}-\d\d-\d\d\.json$/);
  return readFileSync(await file.path(), "utf8");
}

describe("a backup", () => {
  it("brings everything back on another machine, once, also from an earlier version's file", async () => {
    const first = await open();
    await keep(first.page, "Carried over");
    const text = await backUp(first.page);
    const { page } = await open();
    await restore(page, "backup.json", text);
    await reported(page, /backup\.json: 1 job; 1 added/);
    await row(page, "Carried over").waitFor();
    await restore(page, "backup.json", text);
    await reported(page, /1 the same as here already/);
    await restore(page, "kept-by-the-browser.json", `{"document": ${version1}, "view": {}}`);
    await reported(page, /1 job; 1 added/);
    await row(page, "Invented straight horn").getByText("measured").waitFor();
    await restore(page, "old.json", version1);
    await reported(page, /1 the same as here already/);
    await row(page, "Carried over").getByRole("button", { name: "Open Carried over" }).click();
    await page.getByTestId("open-job").getByText("Carried over").waitFor();
  });

  it("says what it cannot read, and takes in the rest", async () => {
    const { page } = await open();
    await restore(
      page,
      "backup.json",
      writeBackup([someJob({ title: "Good" }), { ...someJob(), id: "bad" }], AT),
    );
    await reported(page, /1 job; 1 added/);
    await page.getByText(/One job in it cannot be read and was left out \(id: not accepted/).waitFor();
    await restore(page, "broken.json", '{"format":');
    await message(page)
      .getByText("broken.json: not JSON: the text ends too early at line 1, column 11")
      .waitFor();
    await restore(page, "setup.json", JSON.stringify(document.setup));
    await message(page)
      .getByText(/an instrument's file and no backup/)
      .waitFor();
    await expect.poll(() => rows(page).count()).toBe(1);
  });

  it("under a passphrase opens with it and with nothing else", async () => {
    const visited = await open();
    const { page } = visited;
    await keep(page, "Secret");
    await page.getByTestId("lock").check();
    await expect.poll(() => page.getByTestId("make-backup").isDisabled()).toBe(true);
    await page.getByTestId("new-passphrase").getByLabel("Passphrase for the backup").fill("old kettle");
    const text = await backUp(page);
    expect(text).not.toContain("Secret");
    const other = await open();
    await restore(other.page, "backup.json", text);
    const passphrase = other.page.getByLabel("Passphrase of backup.json");
    await passphrase.fill("new kettle");
    await passphrase.press("Enter");
    await other.page.getByText(/this passphrase does not open the backup/).waitFor();
    await expect.poll(() => passphrase.inputValue()).toBe("new kettle");
    await passphrase.fill("old kettle");
    await passphrase.press("Enter");
    await reported(other.page, /1 added/);
    await row(other.page, "Secret").waitFor();
    expectQuiet(other);
  });
});

describe("many jobs", () => {
  it("are taken in while the page answers, and not at all once stopped", async () => {
    const visited = await open();
    const { page } = visited;
    const text = writeBackup(someJobs(5000), AT);
    await restore(page, "backup.json", text);
    await reported(page, /^Restoring 5000 jobs…$/);
    await expect.poll(() => page.locator("progress").evaluate((bar: any) => bar.value)).toBeGreaterThan(0);
    await page.getByTestId("stop-restoring").click();
    await reported(page, /^Stopped\. Nothing of backup\.json was taken in\.$/);
    await page.getByTestId("no-jobs").waitFor();
    await restore(page, "backup.json", text);
    await reported(page, /5000 jobs; 5000 added/);
    expectQuiet(visited);
  });

  it("are all on paper, and few on the screen again after it", async () => {
    const visited = await open();
    const { page } = visited;
    await restore(page, "backup.json", writeBackup(someJobs(150), AT));
    await reported(page, /150 added/);
    await page.getByTestId("job-count").getByText("135 of 150").waitFor();
    const pdf = await page.pdf({ path: `${screenshots}jobs.pdf`, format: "A4" });
    const text = (await readPdf(pdf)).map((one) => one.text).join("");
    const printed = new Set(text.match(/Job\d+(?=,)/g));
    expect(printed.size).toBe(135);
    await expect.poll(() => rows(page).count()).toBeLessThan(100);
    expectQuiet(visited);
  });

  it("5,000 are listed, searched and scrolled with few rows drawn", async () => {
    const visited = await open();
    const { page } = visited;
    await restore(page, "backup.json", writeBackup(someJobs(5000), AT));
    await reported(page, /5000 jobs; 5000 added/);
    await page.getByTestId("job-count").getByText("4500 of 5000").waitFor();
    await expect.poll(() => rows(page).count()).toBeLessThan(100);
    await rows(page).first().getByText("Job 4999,").waitFor();
    const search = page.getByTestId("job-search").getByRole("textbox");
    await search.fill("lucj 4998 sha");
    await page.getByTestId("job-count").getByText("1 of 5000").waitFor();
    await row(page, "Job 4998, shank turned down").getByText("Łucja").waitFor();
    await search.fill("");
    await page.getByTestId("job-sort").selectOption("title");
    await rows(page).first().getByText("Job 1,").waitFor();
    await page.getByTestId("job-row").last().scrollIntoViewIfNeeded();
    await page.evaluate(() => window.scrollTo(0, window.document.documentElement.scrollHeight / 2));
    await expect.poll(() => rows(page).first().innerText()).toMatch(/^Job [12]\d{3},/);
    await expect.poll(() => rows(page).count()).toBeLessThan(100);
    await page.reload();
    await page.getByTestId("job-count").getByText("4500 of 5000").waitFor();
    expectQuiet(visited);
  });
});
