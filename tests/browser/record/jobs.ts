/** What tests do on the sheet of jobs. */
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import type { Job } from "../../../src/record/job.ts";
import { AT, someJob } from "../../record/jobs.ts";
import type { Visit, VisitOptions } from "../browser.ts";

/** A job as the first format had it. */
export const version1 = readFileSync(
  fileURLToPath(new URL("../../record/versions/1-document.json", import.meta.url)),
  "utf8",
);
export const document = JSON.parse(version1);

/** The browser's dialogs for files cannot be driven: its older ways are there too. */
function withoutDialogs(): void {
  Reflect.deleteProperty(window, "showSaveFilePicker");
  Reflect.deleteProperty(window, "showOpenFilePicker");
}

/** The sheet of jobs, once its record is open. */
export async function openJobs(
  visit: (options: VisitOptions) => Promise<Visit>,
  options: VisitOptions = {},
): Promise<Visit> {
  const visited = await visit({
    hasModel: false,
    ...options,
    hash: "#jobs",
    before: [withoutDialogs, ...(options.before ?? [])],
  });
  await recordIsThere(visited.page);
  return visited;
}

export const recordIsThere = (page: Page): Promise<void> => page.getByTestId("job-count").waitFor();
export const rows = (page: Page) => page.getByTestId("job-row");
export const row = (page: Page, text: string | RegExp) => rows(page).filter({ hasText: text });
export const message = (page: Page) => page.getByTestId("message");
export const field = (page: Page, name: string) =>
  page.getByTestId("open-fields").getByTestId(`job-${name}`).getByRole("textbox");

export async function keep(page: Page, title: string): Promise<void> {
  await page.getByTestId("keep-job").click();
  await field(page, "title").fill(title);
  await field(page, "title").press("Tab");
  await page.getByTestId("open-job").getByText(title).waitFor();
}

/** By a file of the machine: thousands of jobs sent to the browser as data take it many seconds. */
export async function restore(page: Page, name: string, text: string): Promise<void> {
  const path = join(mkdtempSync(join(tmpdir(), "backup-")), name);
  writeFileSync(path, text);
  const chooser = page.waitForEvent("filechooser");
  await page.getByTestId("restore").click();
  await (await chooser).setFiles(path);
}

export const reported = (page: Page, words: RegExp): Promise<void> =>
  page.getByTestId("backup-report").getByText(words).waitFor({ timeout: 60_000 });

export const someJobs = (count: number): Job[] =>
  Array.from({ length: count }, (_, i) =>
    someJob({
      title: `Job ${i + 1}, ${["worn receiver", "new leadpipe", "shank turned down"][i % 3]}`,
      player: ["Heron", "Łucja", "Jürgen", ""][i % 4],
      status: i % 10 === 9 ? "archived" : "open",
      changed: new Date(Date.parse(AT) + 3_600_000 * i).toISOString(),
      // listed, not opened: without the instrument, thousands of which make a file that is slow to hand over
      document: { format: "annulus-document", version: 1, gapMm: 1 + (i % 20) / 10, notes: document.notes },
    }),
  );
