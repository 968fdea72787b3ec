import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { writeBackup } from "../../../src/record/backup.ts";
import { AT } from "../../record/jobs.ts";
import { expectQuiet, useBrowser, type VisitOptions } from "../browser.ts";
import { answered, showsGap, typeGap } from "../gap/sheet.ts";
import { focused, tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab } from "../still.ts";
import {
  field,
  keep,
  message,
  openJobs,
  recordIsThere,
  reported,
  restore,
  row,
  rows,
  someJobs,
  version1,
} from "./jobs.ts";

const { visit } = useBrowser();
const open = (options?: VisitOptions) => openJobs(visit, options);

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

async function show(page: Page, task: string): Promise<void> {
  await page.getByTestId(`task-${task}`).click();
  if (task === "explore") await page.getByTestId("gap-value").waitFor();
  else await recordIsThere(page);
}

/** Where the slider stood in what the database has, past the page. */
const keptGaps = (page: Page): Promise<number[]> =>
  page.evaluate(
    () =>
      new Promise<number[]>((done) => {
        const opening = indexedDB.open("annulus");
        opening.onsuccess = () => {
          const all = opening.result.transaction("documents").objectStore("documents").getAll();
          all.onsuccess = () => {
            opening.result.close();
            done(all.result.map((kept: { document: { gapMm: number } }) => kept.document.gapMm).sort());
          };
        };
      }),
  );

describe("the record of jobs", () => {
  it("keeps a job through changes, a reload, another job and back, by keyboard alone", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expect.poll(() => page.getByTestId("loose").innerText()).toMatch(/not kept as a job/);
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
      .getByText("2.50 mm")
      .waitFor();
    await page.reload();
    await recordIsThere(page);
    await expect.poll(() => field(page, "title").inputValue()).toBe("Second");

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
    // what is put off is done when the page is left
    await page.reload();
    await page.getByTestId("loose").getByText("Invented straight horn").waitFor();
    await expect.poll(() => keptGaps(page)).toEqual([gap]);
    await row(page, "Mine").getByRole("button", { name: "Open Mine" }).click();
    await showsGap(page, `${gap.toFixed(2)} mm`);
    await show(page, "jobs");
    await row(page, "Invented straight horn").waitFor();
  });
});

describe("nothing is lost", () => {
  it("when the page crashes a moment after a change", async () => {
    const { page, context } = await open({ hasModel: true });
    await keep(page, "Crash");
    await show(page, "explore");
    await answered(page);
    await typeGap(page, "3.3 mm");
    await keptInTab(page, /"gapMm":3\.3\b/);
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
    await expect.poll(() => message(again).count()).toBe(0);
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
    await expect.poll(() => keptGaps(again)).toEqual([2.2]);
  });

  it("in two tabs with the same job: one follows the other, and where both changed it both are kept", async () => {
    const { page, context, complaints } = await open();
    await keep(page, "Shared");
    await show(page, "explore");
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
    await expect.poll(() => rows(second).count()).toBe(2);
    expect(complaints).toEqual([]);
  });

  it("when the disk is full: it is said, offered as a file, and kept when there is room", async () => {
    const visited = await visit({
      hash: "#jobs",
      hasModel: false,
      before: [
        () => {
          const { put } = IDBObjectStore.prototype;
          IDBObjectStore.prototype.put = function (...given) {
            if ((window as any).isFull) throw new DOMException("no room", "QuotaExceededError");
            return put.apply(this, given);
          };
        },
      ],
    });
    const { page } = visited;
    await recordIsThere(page);
    await keep(page, "Full");
    await page.evaluate(() => {
      (window as any).isFull = true;
    });
    await show(page, "explore");
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
    const { page } = await visit({
      hash: "#jobs",
      hasModel: false,
      before: [
        () => {
          IDBFactory.prototype.open = () => {
            throw new DOMException("not in a private window", "InvalidStateError");
          };
        },
      ],
    });
    await page
      .getByTestId("no-record")
      .getByText(/does not let the page keep jobs/)
      .waitFor();
    await expect.poll(() => page.getByTestId("keep-job").isDisabled()).toBe(true);
    await show(page, "explore");
    await typeGap(page, "3.3 mm");
    await keptInTab(page, /"gapMm":3\.3\b/);
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

describe("the sheet of jobs for everyone", () => {
  it("is sound at every width and in every colour, empty and full", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expectSoundEverywhere(page, "jobs-empty");
    await restore(page, "backup.json", writeBackup(someJobs(24), AT));
    await reported(page, /24 added/);
    await keep(page, "Worn receiver, second visit");
    await page.getByTestId("job-search").scrollIntoViewIfNeeded();
    await rows(page)
      .nth(1)
      .getByRole("button", { name: /^More for/ })
      .click();
    await rows(page).nth(1).getByRole("button", { name: "Duplicate" }).waitFor();
    await expectSoundEverywhere(page, "jobs");
    expectQuiet(visited);
  });
});
