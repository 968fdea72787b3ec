import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { expectQuiet, useBrowser } from "../browser.ts";
import { answered, drop, gapText, modelWorkerOf, showsGap, typeGap } from "../gap/sheet.ts";
import { keptInTab } from "../still.ts";

const { visit } = useBrowser();

const message = (page: Page) => page.getByTestId("message");

const demoText = readFileSync(
  fileURLToPath(new URL("../../../shared/demo.setup.json", import.meta.url)),
  "utf8",
);

describe("nothing typed or loaded is lost", () => {
  it("restores gap, reference and unit after a reload", async () => {
    // a page that keeps itself is as quiet as one that does not
    const visited = await visit({ keepsItself: true });
    const { page } = visited;
    await answered(page);
    await typeGap(page, "3.7 mm");
    await page.getByRole("button", { name: "Compare with this" }).click();
    await typeGap(page, "1.2 mm");
    await page.getByRole("button", { name: /inch/ }).click();
    await keptInTab(page, /"gapMm":1\.2\b.*"unit":"in"/);
    await page.reload();
    await answered(page);
    await showsGap(page, "0.047 in");
    await expect.poll(() => page.getByTestId("gap-difference").innerText()).toMatch(/3\.70|0\.146/);
    expectQuiet(visited);
  });

  it("opens again with a sum in it, whose grammar no first curve waits for", async () => {
    const visited = await visit({ hash: "#measure" });
    const { page } = visited;
    const reading = page.getByRole("textbox", { name: "depth reading 1", exact: true });
    await reading.fill("7/8 in + 2 mm");
    await reading.press("Enter");
    await keptInTab(page, /7\/8 in \+ 2 mm/);
    await page.reload();
    await expect.poll(() => reading.inputValue()).toBe("7/8 in + 2 mm");
    expectQuiet(visited);
  });

  it("says what it cannot read of an earlier visit, begins anew and hands it over as a file", async () => {
    const { page } = await visit({
      before: [
        () => localStorage.setItem("annulus-autosave", '{"document": {"format": "annulus-document"}}'),
      ],
    });
    await expect
      .poll(() => message(page).innerText())
      .toMatch(/kept of your last visit cannot be read \(.*version.*\)/);
    await answered(page);
    await page.getByText("Kettle Lane").first().waitFor();
    const saving = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save it as a file" }).click();
    expect(readFileSync(await (await saving).path(), "utf8")).toContain('"annulus-document"');
  });

  it("works without a network once it has been there", async () => {
    const { page, context } = await visit({ keepsItself: true });
    await answered(page);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await context.setOffline(true);
    await page.reload();
    await answered(page);
    await typeGap(page, "4 mm");
    await showsGap(page, "4.00 mm");
  });

  it("says what is wrong with a broken file and keeps what was there", async () => {
    const { page } = await visit({ hasModel: false });
    await typeGap(page, "3.3 mm");
    await drop(page, "broken.json", '{"format": "annulus-setup",\n "version": }');
    await message(page).waitFor();
    await expect.poll(() => message(page).innerText()).toMatch(/line 2/);
    await showsGap(page, "3.30 mm");
    await drop(page, "backwards.json", demoText.replace(/"depth": 24\.5/, '"depth": 2.5'));
    await page
      .getByText(/insertion/)
      .first()
      .waitFor();
    await showsGap(page, "3.30 mm");
  });

  it("opens a file dropped on it, and undo brings the old instrument back", async () => {
    const { page } = await visit({ hasModel: false });
    await page.getByTestId("gap-field").waitFor();
    const other = demoText
      .replace("Invented B-flat no. 7, Kettle Lane workshop", "Invented number eight")
      .replace('"insertion": 22', '"insertion": 21');
    await drop(page, "eight.setup.json", other);
    await page.getByText("Invented number eight").first().waitFor();
    await showsGap(page, "3.50 mm");
    await page.keyboard.press("Control+z");
    await page.getByText("Kettle Lane").first().waitFor();
  });

  it("starts the model again when its worker dies, with a message, and the page as it was", async () => {
    const { page } = await visit();
    await answered(page);
    await typeGap(page, "3.3 mm");
    await page
      .getByText(/what if 3\.30 mm/)
      .first()
      .waitFor();
    await modelWorkerOf(page).evaluate(() => self.close());
    await typeGap(page, "6 mm");
    await message(page).waitFor();
    await expect.poll(() => message(page).innerText()).toMatch(/started again/);
    await showsGap(page, "6.00 mm");
    await page
      .getByText(/what if 6\.00 mm/)
      .first()
      .waitFor();
  });

  it("carries the whole setup in a share link", async () => {
    const { page, context } = await visit();
    await answered(page);
    await typeGap(page, "1.9 mm");
    await page.getByRole("button", { name: /copy a link/i }).click();
    await message(page).waitFor();
    const link = await page.evaluate(() => navigator.clipboard.readText());
    expect(link).toMatch(/#.*s=/);
    const other = await visit();
    await other.page.goto(link);
    await answered(other.page);
    await expect.poll(() => gapText(other.page)).toBe("1.90 mm");
    const stranger = await visit({ hash: link.slice(link.indexOf("#")) });
    await answered(stranger.page);
    await expect.poll(() => gapText(stranger.page)).toBe("1.90 mm");
    await other.page.goto(link.slice(0, -40));
    await other.page.getByTestId("message").waitFor();
    expect(await other.page.getByTestId("message").innerText()).not.toMatch(/undefined|NaN|at /);
    await context.close();
  });

  it("lets two tabs live side by side", async () => {
    const { page, context, complaints } = await visit();
    await answered(page);
    const second = await context.newPage();
    await second.goto(page.url());
    await answered(second);
    await typeGap(page, "1 mm");
    await typeGap(second, "7 mm");
    await showsGap(page, "1.00 mm");
    await showsGap(second, "7.00 mm");
    expect(complaints).toEqual([]);
  });
});
