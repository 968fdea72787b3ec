import { readFileSync } from "node:fs";
import { csvParse } from "d3";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, screenshots, useBrowser, type Visit } from "../browser.ts";
import { still } from "../still.ts";
import { answered, gapText, showsGap, typeGap } from "./sheet.ts";

const { visit } = useBrowser();

const open = async (options?: Parameters<typeof visit>[0]): Promise<Visit> => {
  const visited = await visit(options);
  await answered(visited.page);
  return visited;
};

/** The file an action of a chart's menu saves. */
async function saved(page: Page, chart: string, action: "svg" | "png" | "csv"): Promise<Buffer> {
  await page.getByTestId(chart).scrollIntoViewIfNeeded();
  const figure = page.locator("figure", { has: page.getByTestId(chart) });
  // what is not drawn yet cannot be saved
  await figure.locator("svg.drawing").first().waitFor();
  const menu = figure.locator("annulus-chart-menu");
  await menu.locator("summary").click();
  const download = page.waitForEvent("download");
  await menu.locator(`[data-action=${action}]`).click();
  return readFileSync(await (await download).path());
}

describe("exploring the gap", () => {
  it("shows a first visitor the comparison: a tenth of an inch more, its verdicts, three hints", async () => {
    const visited = await open();
    const { page } = visited;
    await showsGap(page, "5.04 mm");
    await expect
      .poll(() => page.getByTestId("gap-difference").innerText())
      .toMatch(/2\.54 mm.*0\.100 in.*wider/);
    await page.getByTestId("headline").getByText("Unlikely to be noticed.").waitFor();
    await expect.poll(() => page.getByTestId("verdict-slots").innerText()).toMatch(/too small to notice/);
    await expect.poll(() => page.getByTestId("verdict-resistance").innerText()).toMatch(/Backpressure:/);
    await expect
      .poll(() => page.getByTestId("verdict-tenth").innerText())
      .toMatch(/No calculation can choose a gap/);
    for (const n of [1, 2, 3]) await expect.poll(() => page.getByTestId(`hint-${n}`).count()).toBe(1);
    await still(page);
    await picture(page, "first-visit");
    expectQuiet(visited);
  });

  it("takes a typed gap in any unit, and says beside the field what is wrong, keeping what was typed", async () => {
    const visited = await open();
    const { page } = visited;
    await typeGap(page, "1/8 in");
    await expect.poll(() => gapText(page)).toMatch(/^3\.1[78] mm$/);
    await typeGap(page, "three");
    await expect.poll(() => page.getByTestId("gap-problem").innerText()).toMatch(/is not a length/);
    await expect.poll(() => page.getByTestId("gap-field").inputValue()).toBe("three");
    await expect.poll(() => gapText(page)).toMatch(/^3\.1[78] mm$/);
    await typeGap(page, "0.1in");
    await showsGap(page, "2.54 mm");
    await expect.poll(() => page.getByTestId("gap-problem").count()).toBe(0);
    // the next is begun before the field has been drawn with the one before
    const begun = await page.getByTestId("gap-field").evaluate(async (field: HTMLInputElement) => {
      const type = (text: string) => {
        field.value = text;
        field.dispatchEvent(new InputEvent("input"));
      };
      type("1.1");
      field.dispatchEvent(new KeyboardEvent("keydown", { key: "Enter" }));
      type("1.2");
      for (let frames = 0; frames < 3; frames++) await new Promise(requestAnimationFrame);
      return field.value;
    });
    expect(begun).toBe("1.2");
    await showsGap(page, "1.10 mm");
    await page.getByTestId("gap-field").press("Enter");
    await showsGap(page, "1.20 mm");
    expectQuiet(visited);
  });

  it("lets the shank be dragged, one drag one undo, and redone", async () => {
    const visited = await open();
    const { page } = visited;
    const shank = (await page.getByTestId("shank").boundingBox())!;
    const [x, y] = [shank.x + shank.width / 2, shank.y + shank.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 12; i++) await page.mouse.move(x + 2 * i, y);
    await page.mouse.up();
    const dragged = await gapText(page);
    expect(Number.parseFloat(dragged)).toBeLessThan(5.04);
    expect(Number.parseFloat(dragged)).toBeGreaterThan(0);
    await page.keyboard.press("Control+z");
    await showsGap(page, "5.04 mm");
    await page.keyboard.press("Control+Shift+Z");
    await showsGap(page, dragged);
    expectQuiet(visited);
  });

  it("moves the shank by arrow keys, fine and coarse, with a value for who hears it", async () => {
    const { page } = await open();
    const shank = page.getByTestId("shank");
    await shank.focus();
    await expect.poll(() => shank.getAttribute("role")).toBe("slider");
    const now = async () => Number(await shank.getAttribute("aria-valuenow"));
    /** How far one key moves it, once it has. */
    const moved = async (key: string): Promise<number> => {
      const before = await now();
      await shank.press(key);
      await expect.poll(now).not.toBe(before);
      return Math.abs((await now()) - before);
    };
    const fine = await moved("ArrowRight");
    const coarse = await moved("Shift+ArrowRight");
    expect(coarse / fine).toBeCloseTo(10, 5);
    await expect.poll(() => shank.getAttribute("aria-valuetext")).toMatch(/mm/);
  });

  it("switches between millimetres and inches everywhere", async () => {
    const { page } = await open();
    await page.getByRole("button", { name: /inch/ }).click();
    await showsGap(page, "0.198 in");
    await expect.poll(() => page.getByTestId("gap-other").innerText()).toMatch(/5\.04 mm/);
    await typeGap(page, "0.1");
    await showsGap(page, "0.100 in");
  });

  it("has the terminal's numbers in its charts: the CSV of peak heights equals the study", async () => {
    const visited = await open();
    const { page } = visited;
    const rows = csvParse((await saved(page, "height-against-gap", "csv")).toString("utf8"));
    const gapColumn = "gap (mm)";
    const gapsMm = rows.map((row) => Number(row[gapColumn]));
    expect(gapsMm.length).toBeGreaterThan(10);
    const sweep = gapSweep(new Instrument(demo()), { gapsMm });
    const modeColumns = rows.columns.filter((name) => name.includes("change of peak height"));
    expect(modeColumns.length).toBeGreaterThanOrEqual(9);
    for (const column of modeColumns) {
      const n = Number(/\((\d+)\)/.exec(column)![1]);
      rows.forEach((row, i) => {
        expect(Number(row[column])).toBeCloseTo(sweep.rows[i].modes[n - 1].heightDb!, 5);
      });
    }
    expectQuiet(visited);
  });

  it("has the verdicts' numbers to read and as CSV: the terminal's shifts", async () => {
    const visited = await open();
    const { page } = visited;
    const numbers = page.getByTestId("verdict-numbers");
    await numbers.locator("summary").click();
    const download = page.waitForEvent("download");
    await numbers.getByRole("button", { name: "Save numbers as CSV" }).click();
    const rows = csvParse(readFileSync(await (await download).path()).toString("utf8"));
    await expect.poll(() => numbers.locator("tbody tr").count()).toBe(rows.length);
    const heights = rows.filter(
      (row) => /slot more firmly/.test(row["rule of thumb"]) && /height/i.test(row.test),
    );
    const [before, after] = gapSweep(new Instrument(demo()), { gapsMm: [2.5, 5.04] }).rows;
    expect(heights.length).toBeGreaterThanOrEqual(9);
    for (const { partial, change } of heights) {
      const n = Number(partial) - 1;
      expect(Number(change)).toBeCloseTo(after.modes[n].heightDb! - before.modes[n].heightDb!, 3);
    }
    expectQuiet(visited);
  });

  it("exports SVG and PNG that open again", async () => {
    const { page, context } = await open();
    const svg = (await saved(page, "impedance", "svg")).toString("utf8");
    expect(svg).toMatch(/^<\?xml[^>]*>\s*<svg /);
    expect(svg).not.toMatch(/var\(|NaN|undefined/);
    const png = await saved(page, "impedance", "png");
    const size = await context.newPage().then(async (other) => {
      await other.goto(visitAddress(page));
      return other.evaluate(async (bytes) => {
        const image = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: "image/png" }));
        return [image.width, image.height];
      }, Array.from(png));
    });
    expect(size[0]).toBeGreaterThan(600);
    expect(size[1]).toBeGreaterThan(200);
  });

  it("retunes: the slide's switch changes what the gap charts say", async () => {
    const visited = await open();
    const { page } = visited;
    await page.getByRole("button", { name: /slide set again/ }).click();
    await page
      .getByText(/Height of each peak, slide set again on C in the staff \(4\)/)
      .first()
      .waitFor({ state: "attached" });
    expectQuiet(visited);
  });

  it("prints to PDF", async () => {
    const { page } = await open();
    // everything the sheet holds is there: the sweeps are done and their charts drawn
    await page
      .getByTestId("headline")
      .getByText(/slide is set again/)
      .waitFor();
    for (const quantity of ["height", "shift", "spacing"])
      await page.locator(`[data-testid=${quantity}-against-gap] svg`).waitFor({ state: "attached" });
    const pdf = await page.pdf({ format: "A4", printBackground: true, path: `${screenshots}sheet.pdf` });
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)!.length;
    expect(pages).toBe(2);
  });
});

const visitAddress = (page: Page): string => page.url().split("#")[0];
