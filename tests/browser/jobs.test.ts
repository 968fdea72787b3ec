import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeBackup } from "../../src/record/backup.ts";
import type { Job } from "../../src/record/job.ts";
import { AT, someJob } from "../record/jobs.ts";
import { expectQuiet, screenshots, useBrowser, type Visit } from "./browser.ts";
import { focused, tabTo } from "./keyboard.ts";
import { readPdf } from "./pdf.ts";
import { answered, showsGap, typeGap } from "./sheet.ts";
import { expectSound, SIZES } from "./soundness.ts";

const { visit } = useBrowser();

const version1 = readFileSync(
  fileURLToPath(new URL("../record/versions/1-document.json", import.meta.url)),
  "utf8",
);
const document = JSON.parse(version1);

/** The browser's dialogs for files cannot be driven: its older ways are there too. */
function withoutDialogs(): void {
  Reflect.deleteProperty(window, "showSaveFilePicker");
  Reflect.deleteProperty(window, "showOpenFilePicker");
}

/** A tab that, while it is deaf, has not heard yet of what another has kept. */
function hardOfHearing(): void {
  const Channel = window.BroadcastChannel;
  window.BroadcastChannel = class extends Channel {
    constructor(name: string) {
      super(name);
      this.addEventListener("message", (event) => {
        if ((window as any).isDeaf) event.stopImmediatePropagation();
      });
    }
  };
}

async function open(options: Parameters<typeof visit>[0] = {}): Promise<Visit> {
  const visited = await visit({ ...options, hash: "#jobs" });
  await visited.context.addInitScript(withoutDialogs);
  await visited.page.reload();
  await recordIsThere(visited.page);
  return visited;
}

const recordIsThere = (page: Page): Promise<void> => page.getByTestId("job-count").waitFor();
const rows = (page: Page) => page.getByTestId("job-row");
const row = (page: Page, text: string | RegExp) => rows(page).filter({ hasText: text });
const message = (page: Page) => page.getByTestId("message");
const field = (page: Page, name: string) =>
  page.getByTestId("open-fields").getByTestId(`job-${name}`).getByRole("textbox");

async function keep(page: Page, title: string): Promise<void> {
  await page.getByTestId("keep-job").click();
  await field(page, "title").fill(title);
  await field(page, "title").press("Tab");
  await page.getByTestId("open-job").getByText(title).waitFor();
}

async function show(page: Page, task: string): Promise<void> {
  await page.getByTestId(`task-${task}`).click();
  if (task === "explore") await page.getByTestId("gap-value").waitFor();
  else await recordIsThere(page);
}

async function restore(page: Page, name: string, text: string): Promise<void> {
  const chooser = page.waitForEvent("filechooser");
  await page.getByTestId("restore").click();
  await (await chooser).setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
}

const reported = (page: Page, words: RegExp): Promise<void> =>
  page.getByTestId("backup-report").getByText(words).waitFor({ timeout: 60_000 });

/** What the database has, past the page. */
const keptGaps = (page: Page): Promise<number[]> =>
  page.evaluate(
    () =>
      new Promise<number[]>((done) => {
        const opening = indexedDB.open("annulus");
        opening.onsuccess = () => {
          const all = opening.result.transaction("jobs").objectStore("jobs").getAll();
          all.onsuccess = () => {
            opening.result.close();
            done(all.result.map(({ gapMm }: { gapMm: number }) => gapMm).sort());
          };
        };
      }),
  );

async function backUp(page: Page): Promise<string> {
  const download = page.waitForEvent("download");
  await page.getByTestId("make-backup").click();
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^annulus-backup-\d{4}-\d\d-\d\d\.json$/);
  return readFileSync(await file.path(), "utf8");
}

const someJobs = (count: number): Job[] =>
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

describe("the record of jobs", () => {
  it("keeps a job through changes, a reload, another job and back, by keyboard alone", async () => {
    const visited = await open();
    const { page } = visited;
    expect(await page.getByTestId("loose").innerText()).toMatch(/not kept as a job/);
    await tabTo(page, "keep-job");
    await page.keyboard.press("Enter");
    await expect.poll(() => focused(page)).toBe("Title");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("Worn receiver");
    await tabTo(page, "Player (an alias will do)");
    await page.keyboard.type("Heron");
    await page.keyboard.press("Tab");
    await row(page, "Worn receiver").getByText("Heron").waitFor();
    await page.getByTestId("open-job").getByText("Worn receiver").waitFor();

    await tabTo(page, "new-same");
    await page.keyboard.press("Enter");
    await expect.poll(() => rows(page).count()).toBe(2);
    await expect.poll(() => focused(page)).toBe("Title");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("Second");
    await show(page, "explore");
    await typeGap(page, "1.1 mm");
    await show(page, "jobs");
    await row(page, /Second.*open now/s)
      .getByText("1.10 mm")
      .waitFor();
    await page.reload();
    await recordIsThere(page);
    expect(await field(page, "title").inputValue()).toBe("Second");

    await tabTo(page, "Search title, player, instrument, mouthpiece");
    await page.keyboard.type("her");
    await expect.poll(() => rows(page).count()).toBe(1);
    await tabTo(page, "Open Worn receiver");
    await page.keyboard.press("Enter");
    await showsGap(page, "5.04 mm");
    await message(page).getByText("Opened “Worn receiver”.").waitFor();
    // the way back leads into the other job
    await page.keyboard.press("Control+z");
    await showsGap(page, "1.10 mm");
    await page.getByTestId("open-job").getByText("Second").waitFor();
    expectQuiet(visited);
  });

  it("duplicates, archives, deletes and brings back", async () => {
    const visited = await open();
    const { page } = visited;
    await keep(page, "First");
    await row(page, "First").getByRole("button", { name: "More for First" }).click();
    await page.getByRole("button", { name: "Duplicate" }).click();
    await row(page, "First (copy)").getByRole("button", { name: "More for First (copy)" }).click();
    const more = row(page, "First (copy)").locator(".more");
    await more.getByTestId("job-mouthpiece").getByRole("textbox").fill("Kettle 3");
    await more.getByTestId("job-mouthpiece").getByRole("textbox").press("Tab");
    await row(page, "First (copy)")
      .getByText(/· Kettle 3/)
      .waitFor();
    await more.getByRole("button", { name: "Archive" }).click();
    await expect.poll(() => rows(page).count()).toBe(1);
    await page.getByRole("button", { name: "All", exact: true }).click();
    await row(page, "archived").waitFor();
    await row(page, "(copy)").getByRole("button", { name: "Delete" }).click();
    await message(page)
      .getByText(/^Deleted “First \(copy\)”/)
      .waitFor();
    await expect.poll(() => rows(page).count()).toBe(1);
    await message(page).getByRole("button", { name: "Undo" }).click();
    await expect.poll(() => rows(page).count()).toBe(2);
    await row(page, "(copy)").getByRole("button", { name: "Delete" }).click();
    // the row goes once the database has it
    await expect.poll(() => rows(page).count()).toBe(1);
    await page.reload();
    await recordIsThere(page);
    await page.getByRole("button", { name: "Deleted" }).click();
    await page.getByRole("button", { name: "Bring back First (copy)" }).click();
    await page.getByRole("button", { name: "All", exact: true }).click();
    await expect.poll(() => rows(page).count()).toBe(2);
    expectQuiet(visited);
  });

  it("does not put what is opened from a file into the job that was open", async () => {
    const { page } = await open();
    await keep(page, "Mine");
    const [gap] = await keptGaps(page);
    await page.evaluate(async (text) => {
      const { setup } = JSON.parse(text);
      const data = new DataTransfer();
      data.items.add(new File([JSON.stringify(setup)], "horn.setup.json", { type: "application/json" }));
      window.document
        .querySelector("annulus-app")!
        .dispatchEvent(
          new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true, composed: true }),
        );
    }, version1);
    await page.getByTestId("loose").getByText("Invented straight horn").waitFor();
    await page.waitForTimeout(1000);
    expect(await keptGaps(page)).toEqual([gap]);
    await row(page, "Mine").getByRole("button", { name: "Open Mine" }).click();
    await showsGap(page, `${gap.toFixed(2)} mm`);
    await show(page, "jobs");
    await row(page, "Invented straight horn").waitFor();
  });
});

describe("nothing is lost", () => {
  it("when the page crashes a moment after a change", async () => {
    const { page, context } = await open();
    await keep(page, "Crash");
    await show(page, "explore");
    await answered(page);
    await typeGap(page, "3.3 mm");
    await page.waitForTimeout(400);
    const url = page.url();
    const crashed = page.waitForEvent("crash");
    const session = await context.newCDPSession(page);
    void session.send("Page.crash").catch(() => {});
    await crashed;
    const again = await context.newPage();
    await again.goto(url);
    await showsGap(again, "3.30 mm");
    await again.getByTestId("open-job").getByText("Crash").waitFor();
    await expect.poll(() => keptGaps(again)).toEqual([3.3]);
    expect(await message(again).count()).toBe(0);
  });

  it("when the page is closed at once after a change", async () => {
    const { page, context, address } = await open();
    await keep(page, "Closed");
    await show(page, "explore");
    await typeGap(page, "2.2 mm");
    await showsGap(page, "2.20 mm");
    await page.close({ runBeforeUnload: true });
    const again = await context.newPage();
    await again.goto(`${address}#jobs`);
    await row(again, "Closed").getByText("2.20 mm").waitFor();
  });

  it("in two tabs with the same job: one follows the other, and where both changed it both are kept", async () => {
    const { page, context, complaints } = await open();
    await keep(page, "Shared");
    await show(page, "explore");
    await answered(page);
    const second = await context.newPage();
    await second.addInitScript(hardOfHearing);
    await second.goto(page.url());
    await second.getByTestId("open-job").getByText("Shared").waitFor();
    await typeGap(page, "1.5 mm");
    await showsGap(second, "1.50 mm");
    await typeGap(second, "2.5 mm");
    await showsGap(page, "2.50 mm");

    await second.evaluate(() => {
      (window as any).isDeaf = true;
    });
    await typeGap(page, "3 mm");
    await expect.poll(() => keptGaps(page)).toEqual([3]);
    await typeGap(second, "4 mm");
    await message(second)
      .getByText(/Both are kept/)
      .waitFor();
    await expect.poll(() => keptGaps(page)).toEqual([3, 4]);
    await showsGap(page, "3.00 mm");
    await showsGap(second, "4.00 mm");
    await second.getByTestId("open-job").getByText("Shared (from this tab)").waitFor();
    await second.getByRole("button", { name: "Open the other" }).click();
    await showsGap(second, "3.00 mm");
    await show(second, "jobs");
    await row(second, "Shared (from this tab)").waitFor();
    expect(await rows(second).count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it("when the disk is full: it is said, offered as a file, and kept when there is room", async () => {
    const visited = await visit({ hash: "#jobs" });
    const { page, context } = visited;
    await context.addInitScript(() => {
      const { put } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.put = function (...given) {
        if ((window as any).isFull) throw new DOMException("no room", "QuotaExceededError");
        return put.apply(this, given);
      };
    });
    await page.reload();
    await recordIsThere(page);
    await keep(page, "Full");
    await page.evaluate(() => {
      (window as any).isFull = true;
    });
    await show(page, "explore");
    await answered(page);
    await typeGap(page, "3.3 mm");
    await message(page)
      .getByText(/^This browser's storage is full/)
      .waitFor();
    const download = page.waitForEvent("download");
    await message(page).getByRole("button", { name: "Save it as a file" }).click();
    const saved = JSON.parse(readFileSync(await (await download).path(), "utf8"));
    expect(saved).toMatchObject({
      format: "annulus-backup",
      jobs: [{ title: "Full", document: { gapMm: 3.3 } }],
    });
    await show(page, "jobs");
    await page.getByText(/the newest of it is in this tab only/).waitFor();
    await page.getByTestId("new-demo").click();
    await message(page)
      .getByText(/storage is full/)
      .waitFor();
    expect(await keptGaps(page)).not.toContain(3.3);
    await page.evaluate(() => {
      (window as any).isFull = false;
    });
    await show(page, "explore");
    await showsGap(page, "3.30 mm");
    await typeGap(page, "3.4 mm");
    await expect.poll(() => keptGaps(page)).toEqual([3.4]);
    expectQuiet(visited);
  });

  it("when the browser refuses a database: it is said where jobs are, and all else works", async () => {
    const { page, context } = await visit({ hash: "#jobs" });
    await context.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("not in a private window", "InvalidStateError");
      };
    });
    await page.reload();
    await page
      .getByTestId("no-record")
      .getByText(/does not let the page keep jobs/)
      .waitFor();
    expect(await page.getByTestId("keep-job").isDisabled()).toBe(true);
    await show(page, "explore");
    await typeGap(page, "3.3 mm");
    await page.waitForTimeout(500);
    await page.reload();
    await showsGap(page, "3.30 mm");
  });

  it("when a record is damaged: it is handed over as a file, and the others are listed", async () => {
    const { page } = await open();
    await keep(page, "Sound");
    await page.evaluate(
      () =>
        new Promise<void>((done) => {
          const opening = indexedDB.open("annulus");
          opening.onsuccess = () => {
            const putting = opening.result
              .transaction("jobs", "readwrite")
              .objectStore("jobs")
              .put({ id: "x", title: 7 });
            putting.onsuccess = () => done();
          };
        }),
    );
    await page.reload();
    await row(page, "Sound").waitFor();
    const download = page.waitForEvent("download");
    await page.getByTestId("unreadable").getByRole("button", { name: "Save as a file" }).click();
    const saved = JSON.parse(readFileSync(await (await download).path(), "utf8"));
    expect(saved).toMatchObject([{ json: { id: "x", title: 7 } }]);
  });
});

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
    expect(await rows(page).count()).toBe(1);
  });

  it("under a passphrase opens with it and with nothing else", async () => {
    const visited = await open();
    const { page } = visited;
    await keep(page, "Secret");
    await page.getByTestId("lock").check();
    expect(await page.getByTestId("make-backup").isDisabled()).toBe(true);
    await page.getByTestId("new-passphrase").getByLabel("Passphrase for the backup").fill("old kettle");
    const text = await backUp(page);
    expect(text).not.toContain("Secret");
    const other = await open();
    await restore(other.page, "backup.json", text);
    const passphrase = other.page.getByLabel("Passphrase of backup.json");
    await passphrase.fill("new kettle");
    await passphrase.press("Enter");
    await other.page.getByText(/this passphrase does not open the backup/).waitFor();
    expect(await passphrase.inputValue()).toBe("new kettle");
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
    expect(await rows(page).count()).toBeLessThan(100);
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
    expect(await rows(page).count()).toBeLessThan(100);
    await page.reload();
    await page.getByTestId("job-count").getByText("4500 of 5000").waitFor();
    expectQuiet(visited);
  });
});

describe.each(SIZES)("the sheet of jobs, %s", (size, width, height) => {
  it.each(["light", "dark"] as const)("%s: sound, empty and full", async (colorScheme) => {
    const visited = await open({ width, height, colorScheme });
    const { page } = visited;
    await expectSound(page);
    await page.screenshot({ path: `${screenshots}jobs-${size}-${colorScheme}-empty.png` });
    await restore(page, "backup.json", writeBackup(someJobs(24), AT));
    await reported(page, /24 added/);
    await keep(page, "Worn receiver, second visit");
    await page.getByTestId("job-search").scrollIntoViewIfNeeded();
    await rows(page)
      .nth(1)
      .getByRole("button", { name: /^More for/ })
      .click();
    await rows(page).nth(1).getByRole("button", { name: "Duplicate" }).waitFor();
    await expectSound(page);
    await page.screenshot({ path: `${screenshots}jobs-${size}-${colorScheme}.png` });
    expectQuiet(visited);
  });
});
