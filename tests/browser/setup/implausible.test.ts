/** What is no instrument, or an unusual one: said on the page, and gone with an undo; what was kept so still opens. */
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { TASKS } from "../../../src/app/shell/route.ts";
import { writeBackup } from "../../../src/record/backup.ts";
import { AT, someJob } from "../../record/jobs.ts";
import { expectQuiet, useBrowser } from "../browser.ts";
import { answered, drop, gapText, modelWorkerOf, typeGap } from "../gap/sheet.ts";
import { document as asItWas, message, openJobs, reported, restore, row } from "../record/jobs.ts";
import { still } from "../still.ts";

const { visit } = useBrowser();

const demo = JSON.parse(readFileSync(new URL("../../../shared/demo.setup.json", import.meta.url), "utf8"));
const warnings = (page: Page) => page.getByTestId("warnings").filter({ visible: true });

/** The demo with its body's bore as told. */
const withBody = (name: string, profile: readonly (readonly [number, number])[]): string =>
  JSON.stringify({ ...demo, name, body: { profile } });

const LONG = withBody("Invented long one", [
  [0, 11.68],
  [14_000, 40],
]);

describe("a setup file", () => {
  it("that is unusual is taken with a warning, in Explore and beside the fields; undone, the page is as it was", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    const before = await gapText(page);
    await drop(page, "long.json", LONG);
    await message(page)
      .getByText(
        /Opened long\.json\. To check: body\.profile: a whole length, rim to bell, of 14\d+ mm is unusual/,
      )
      .waitFor();
    await warnings(page)
      .getByText(/^body\.profile: a whole length/)
      .waitFor();
    await page.getByTestId("edit-instrument").click();
    await page
      .locator("annulus-editor annulus-warnings")
      .getByText(/^body\.profile/)
      .waitFor();
    await page.getByRole("button", { name: "Close the editor" }).click();
    await page.keyboard.press("Control+z");
    await page.getByText("Kettle Lane").first().waitFor();
    await expect.poll(() => warnings(page).count()).toBe(0);
    await answered(page);
    expect(await gapText(page)).toBe(before);
    expectQuiet(visited);
  });

  it("that can be no instrument is refused in one line, and changes nothing", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    for (const size of ["1e-308", "0.000001"]) {
      const hostile = LONG.replace("[14000,40]", `[500,${size}],[1030,122]`);
      await drop(page, "hostile.json", hostile);
      await message(page)
        .getByText(
          /^hostile\.json: body\.profile\[1\]\[1\]: a diameter of .* mm cannot be: give 1 mm to 1500 mm/,
        )
        .waitFor();
      await page.getByRole("button", { name: "Close this message" }).click();
    }
    await typeGap(page, "3.3 mm");
    await page
      .getByText(/what if 3\.30 mm/)
      .first()
      .waitFor();
    expectQuiet(visited);
  });

  it("that keeps the worker busy for minutes is undone at once: the page answers again, and nothing is said to have stopped", async () => {
    const { page } = await visit();
    await answered(page);
    const worker = modelWorkerOf(page);
    const ended = new Promise((resolve) => worker.once("close", resolve));
    // whatever it is asked from now on it is at for minutes; in a task of its own: what is evaluated cannot be ended
    await worker.evaluate(() => {
      setTimeout(() => {
        const end = performance.now() + 300_000;
        while (performance.now() < end);
      });
    });
    await drop(page, "long.json", LONG);
    await page.getByText("Invented long one").first().waitFor();
    await page.keyboard.press("Control+z");
    await page.getByText("Kettle Lane").first().waitFor();
    await typeGap(page, "3.3 mm");
    await page
      .getByText(/what if 3\.30 mm/)
      .first()
      .waitFor();
    await answered(page);
    // a browser ends a busy worker when it next looks, which may be seconds later
    await ended;
    expect(await page.getByText(/started again/).count()).toBe(0);
  });
});

describe("a job that was kept when the limits were wider", () => {
  it("opens, says what is wrong beside the field, computes nothing, is sound in every task, and is put right", async () => {
    const visited = await openJobs(visit);
    const { page } = visited;
    const { setup } = asItWas;
    const kept = {
      ...asItWas,
      setup: {
        ...setup,
        receiver: { ...setup.receiver, taper: 0.01, depth: 245.4 },
        body: {
          profile: [
            [0, 11.68],
            [500, 1e-308],
            [1030, 122],
          ],
        },
      },
    };
    await restore(page, "old.json", writeBackup([someJob({ title: "From before", document: kept })], AT));
    await reported(page, /1 added/);
    await row(page, "From before").getByRole("button", { name: "Open From before" }).click();
    await message(page)
      .getByText(/“From before” is open, but .*body\.profile\[1\]\[1\]: a diameter of 1e-308 mm cannot be/)
      .waitFor();
    await warnings(page)
      .getByText(/^body\.profile\[1\]\[1\]/)
      .waitFor();
    for (const task of TASKS) {
      await page.evaluate((hash) => {
        location.hash = hash;
      }, task);
      await still(page);
      expect(await page.locator("body").innerText()).not.toMatch(/NaN|undefined|Infinity/);
      expect(await page.evaluate(drawnNaN)).toEqual([]);
    }
    await page.reload();
    await page.evaluate(() => {
      location.hash = "edit";
    });
    await page.getByText("1 to correct").waitFor();
    await page.getByText("Body", { exact: true }).first().click();
    await page
      .getByText(/Bore profile/)
      .last()
      .click();
    const cell = page.locator("annulus-profile-table").getByText(/A diameter of 1e-308 mm cannot be/);
    await cell.first().waitFor();
    expectQuiet(visited);
  });
});

/** Numbers in drawings that are none, in whatever shadow. */
function drawnNaN(): string[] {
  const found: string[] = [];
  const look = (root: Document | ShadowRoot) => {
    for (const element of root.querySelectorAll("*")) {
      if (element instanceof SVGElement)
        for (const { name, value } of element.attributes)
          if (/NaN|Infinity/.test(value)) found.push(`${element.tagName} ${name}=${value.slice(0, 80)}`);
      if (element.shadowRoot) look(element.shadowRoot);
    }
  };
  look(document);
  return found;
}
