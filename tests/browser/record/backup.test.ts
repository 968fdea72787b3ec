/** All jobs in a file and back, and thousands of them. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeBackup } from "../../../src/record/backup.ts";
import { JOB_VERSION } from "../../../src/record/job.ts";
import { AT, someJob } from "../../record/jobs.ts";
import { expectQuiet, screenshots, useBrowser, type VisitOptions } from "../browser.ts";
import { readPdf } from "../report/pdf.ts";
import { expectSound } from "../soundness.ts";
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
      .getByText("broken.json: cut short: the text ends too early at line 1, column 11")
      .waitFor();
    await restore(page, "setup.json", JSON.stringify(document.setup));
    await message(page)
      .getByText(/an instrument's file and no backup/)
      .waitFor();
    await expect.poll(() => rows(page).count()).toBe(1);
  });

  it("asks of each job that differs: both, the file's or what is here; what was deleted comes back as the file has it", async () => {
    const visited = await open();
    const { page } = visited;
    const jobs = ["One", "Two", "Three", "Left"].map((title) => someJob({ title, player: "Heron" }));
    const text = writeBackup(jobs, AT);
    await restore(page, "backup.json", text);
    await reported(page, /4 jobs; 4 added/);
    for (const title of ["One", "Two", "Three"]) {
      await row(page, title)
        .getByRole("button", { name: /^More for/ })
        .click();
      const player = row(page, title).getByTestId("job-player").getByRole("textbox");
      await player.fill("Curlew");
      await player.press("Tab");
      await row(page, title).getByText("Curlew").first().waitFor();
      await row(page, title)
        .getByRole("button", { name: /^More for/ })
        .click();
    }
    await row(page, "Left")
      .getByRole("button", { name: /^More for/ })
      .click();
    await row(page, "Left").getByRole("button", { name: "Delete" }).click();
    await expect.poll(() => rows(page).count()).toBe(3);

    await restore(page, "backup.json", text);
    const asked = page.getByRole("region", { name: "What to take from backup.json" });
    await asked.getByText("4 jobs: 3 differ from those here, 1 is new and is added.").waitFor();
    // by keys, from where the page has put them; a screen reader hears the job with each choice
    await expect.poll(() => asked.getByRole("heading").evaluate((one) => one.matches(":focus"))).toBe(true);
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    const chosen = (title: string) => asked.getByRole("group", { name: title }).locator("input:checked");
    for (const title of ["One", "Two", "Three"])
      await expect.poll(() => chosen(`${title}, Heron`).inputValue()).toBe("keep both");
    await asked.getByRole("group", { name: "Two, Heron" }).getByRole("radio", { name: "Keep both" }).focus();
    await page.keyboard.press("ArrowDown");
    await expect.poll(() => chosen("Two, Heron").inputValue()).toBe("take");
    await asked
      .getByRole("group", { name: "Three, Heron" })
      .getByRole("radio", { name: "Skip" })
      .press("Space");
    await expectSound(page);
    await page.getByTestId("take-chosen").press("Enter");
    await reported(
      page,
      /4 jobs; 1 added, 1 replaced; what was here is among the deleted for a day, 1 older/,
    );
    await expect
      .poll(async () => (await page.locator("annulus-job-list .name").allInnerTexts()).sort())
      .toEqual(["Left", "One", "One (from the backup)", "Three", "Two"]);
    const players = async (title: string) =>
      (await row(page, title).locator(".player").allInnerTexts()).sort();
    expect(await players("One")).toEqual(["Curlew", "Heron"]);
    expect(await players("Two")).toEqual(["Heron"]);
    expect(await players("Three")).toEqual(["Curlew"]);
    await page.getByRole("button", { name: "Deleted" }).click();
    await row(page, "Two (before the backup)").getByText("Curlew").waitFor();
    expectQuiet(visited);
  });

  it("that is damaged, cut short or of a later version is said to be, by name, and only what is whole is offered", async () => {
    const visited = await open();
    const { page } = visited;
    const text = writeBackup(
      ["Anna", "Ben", "Cleo"].map((title) => someJob({ title })),
      AT,
    );
    const asked = page.getByTestId("restore-choices");
    const at = text.indexOf('"gapMm":2.5', text.indexOf("Ben"));
    await restore(page, "flipped.json", `${text.slice(0, at)}"gapMm":2.4${text.slice(at + 11)}`);
    await asked
      .getByText(/flipped\.json is damaged: .* 2 jobs in it are undamaged and can be taken in/)
      .waitFor();
    await page.getByText(/“Ben” is damaged: it is not as it was written/).waitFor();
    await expect.poll(() => rows(page).count()).toBe(0);
    await page.getByTestId("leave-file").click();
    await reported(page, /Nothing of flipped\.json was taken in/);
    await restore(page, "short.json", text.slice(0, text.indexOf("Cleo") + 2));
    await asked
      .getByText(/short\.json is cut short: its end is missing\. 2 jobs in it are undamaged/)
      .waitFor();
    await page.getByTestId("take-chosen").click();
    await reported(page, /short\.json: 2 jobs; 2 added/);
    await expect.poll(() => rows(page).count()).toBe(2);
    for (const later of [
      text.replace('"version":2', '"version":3'),
      text.replaceAll(`"version":${JOB_VERSION}`, `"version":${JOB_VERSION + 1}`),
    ]) {
      expect(later).not.toBe(text);
      await restore(page, "later.json", later);
      await message(page)
        .getByText("later.json: made by a later version of this page; load the page again")
        .waitFor();
      await message(page)
        .getByRole("button", { name: /close|dismiss/i })
        .click();
    }
    await expect.poll(() => rows(page).count()).toBe(2);
    expectQuiet(visited);
  });

  it("under a passphrase opens with it and with nothing else", async () => {
    const visited = await open();
    const { page } = visited;
    await keep(page, "Secret");
    await page.getByTestId("lock").check();
    await expect.poll(() => page.getByTestId("make-backup").isDisabled()).toBe(true);
    await page.getByTestId("new-passphrase").getByLabel("Passphrase for the backup").fill("k");
    await page.getByTestId("make-backup").click();
    await page.getByText(/^Not made: a passphrase has at least 8 characters/).waitFor();
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
    // rows that are drawn change how high the page is thought to be, and with it where its middle is
    const firstAtTheMiddle = async () => {
      await page.evaluate(() => window.scrollTo(0, window.document.documentElement.scrollHeight / 2));
      return rows(page).first().innerText();
    };
    await expect.poll(firstAtTheMiddle).toMatch(/^Job [12]\d{3},/);
    await expect.poll(() => rows(page).count()).toBeLessThan(100);
    await page.reload();
    await page.getByTestId("job-count").getByText("4500 of 5000").waitFor();
    expectQuiet(visited);
  });
});
