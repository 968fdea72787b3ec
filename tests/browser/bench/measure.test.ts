import { readFileSync } from "node:fs";
import { csvParse } from "d3";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { gapFromReadings } from "../../../src/bench/measure/gap.ts";
import { plusMinus } from "../../../src/units/uncertainLength.ts";
import { expectQuiet, picture, screenshots, useBrowser } from "../browser.ts";
import { showsGap } from "../gap/sheet.ts";
import { tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab, passed } from "../still.ts";

const { visit } = useBrowser();

const depthMm = [24.53, 24.54, 24.56];
const insertionMm = [22.01, 21.98, 22.02];
const measured = gapFromReadings({
  depthMm,
  insertionMm,
  depthTool: { resolutionMm: 0.01 },
  sameTool: true,
});
const expandedMm = (measured.intervalMm![1] - measured.intervalMm![0]) / 2;

const entry = (page: Page, label: string) => page.getByRole("textbox", { name: label, exact: true });
const gap = (page: Page) => page.getByTestId("measured-gap");
/** As it is read, without the spaces of the layout. */
const words = async (page: Page, name: string) =>
  (await page.getByTestId(name).innerText()).replace(/\s+/g, " ");

async function open(options: Parameters<typeof visit>[0] = {}) {
  const visited = await visit({ hasModel: false, hash: "#measure", ...options });
  await entry(visited.page, "depth reading 1").waitFor();
  return visited;
}

/** Each text and Enter, from the field that has the focus; an empty row goes on to the next length. */
async function typeOn(page: Page, texts: readonly (string | number)[]): Promise<void> {
  for (const text of texts) {
    if (text !== "") await page.keyboard.type(`${text}`);
    await page.keyboard.press("Enter");
  }
}

/** Depth readings, insertion readings, the tool's step: by keys alone. */
async function typeReadings(page: Page, depth: readonly number[], insertion: readonly number[]) {
  await entry(page, "depth reading 1").focus();
  await typeOn(page, [...depth, "", ...insertion, "", 0.01]);
}

describe("measuring the gap", () => {
  it("takes readings by keyboard alone and shows the bench's gap and uncertainty at once", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await page.getByText("The gap appears here").waitFor();
    await tabTo(page, "depth reading 1");
    await typeOn(page, [...depthMm, "", insertionMm[0]]);
    // one of each is enough
    await gap(page).waitFor();
    await expect.poll(() => words(page, "measured-gap")).toMatch(/mm ± unknown$/);
    await typeOn(page, [...insertionMm.slice(1), "", 0.01]);
    await expect
      .poll(() => words(page, "measured-gap"))
      .toBe(plusMinus(measured.gapMm, expandedMm, "mm").replace(" ±", " mm ±"));
    await expect.poll(() => words(page, "measured-other")).toBe(plusMinus(measured.gapMm, expandedMm, "in"));
    await expect
      .poll(() => words(page, "figures"))
      .toContain(`coverage factor ${measured.coverageFactor!.toFixed(2)}`);
    await expect
      .poll(() => page.getByTestId("budget").getByRole("row").count())
      .toBe(1 + measured.budget.length);
    for (const name of ["readings", "gap-interval"])
      await expect.poll(() => page.locator(`[data-testid=${name}] svg desc`).textContent()).toMatch(/\d mm/);
    expectQuiet(visited);
  });

  it("points out a reading that stands apart, at the reading and in the chart, and counts it", async () => {
    const { page } = await open();
    const apart = [24.53, 24.54, 24.55, 24.54, 24.95];
    await typeReadings(page, apart, insertionMm);
    await page.getByTestId("apart").waitFor();
    await expect.poll(() => entry(page, "depth reading 5, stands apart").inputValue()).toBe("24.95");
    await expect
      .poll(() => words(page, "advice"))
      .toMatch(/depth reading number 5, 24\.950 mm, stands apart/);
    await expect.poll(() => page.locator("[data-testid=readings] svg .outlier").count()).toBe(1);
    const whole = gapFromReadings({
      depthMm: apart,
      insertionMm,
      depthTool: { resolutionMm: 0.01 },
      sameTool: true,
    });
    const U = (whole.intervalMm![1] - whole.intervalMm![0]) / 2;
    await expect.poll(() => words(page, "measured-other")).toBe(plusMinus(whole.gapMm, U, "in"));
    await picture(page, "measure-outlier");
    await page.getByRole("button", { name: "Remove depth reading 5" }).click();
    await page.getByTestId("apart").waitFor({ state: "detached" });
  });

  it("answers a negative gap in words: which readings to repeat, and why the setup cannot have it", async () => {
    const { page } = await open();
    await typeReadings(page, [21.5, 21.52, 21.9], insertionMm);
    await expect
      .poll(() => words(page, "advice"))
      .toMatch(
        /cannot be: repeat the depth readings \(first number 3, 21\.90 mm\) and the insertion readings \(first number 2/,
      );
    await page.getByTestId("use-gap").click();
    await expect.poll(() => words(page, "use-refused")).toMatch(/past the start of the leadpipe/);
    await picture(page, "measure-negative");
  });

  it("says beside a field what is wrong when it is finished, and loses nothing", async () => {
    const visited = await open();
    const { page } = visited;
    await entry(page, "depth reading 1").focus();
    await page.keyboard.type("about 24");
    await expect.poll(() => page.getByText("is not a length").count()).toBe(0);
    await page.keyboard.press("Enter");
    await page.getByText(/"about 24" is not a length/).waitFor();
    await page.keyboard.type("31/32 in");
    await page.keyboard.press("Tab");
    await page.getByText("One entry cannot be read").waitFor();
    await keptInTab(page, /31\/32 in/);
    await page.reload();
    await page.getByText(/"about 24" is not a length/).waitFor();
    await expect.poll(() => entry(page, "depth reading 1").inputValue()).toBe("31/32 in");
    expectQuiet(visited);
  });

  it("means the same in inches, is there after a reload, and undo takes it back entry by entry", async () => {
    const visited = await open();
    const { page } = visited;
    await typeReadings(page, depthMm, insertionMm);
    await page.getByRole("button", { name: /inch/ }).click();
    await expect
      .poll(() => words(page, "measured-gap"))
      .toBe(plusMinus(measured.gapMm, expandedMm, "in").replace(" ±", " in ±"));
    await expect.poll(() => entry(page, "depth reading 1").inputValue()).toBe("24.53 mm");
    await keptInTab(page, /"unit":"in"/);
    await page.reload();
    await gap(page).waitFor();
    await expect.poll(() => words(page, "measured-other")).toBe(plusMinus(measured.gapMm, expandedMm, "mm"));
    await expect.poll(() => entry(page, "insertion reading 3").inputValue()).toBe("22.02 mm");
    await entry(page, "insertion reading 3").fill("0.87");
    await page.keyboard.press("Enter");
    await expect
      .poll(() => words(page, "measured-other"))
      .not.toBe(plusMinus(measured.gapMm, expandedMm, "mm"));
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => words(page, "measured-other")).toBe(plusMinus(measured.gapMm, expandedMm, "mm"));
    await expect.poll(() => entry(page, "insertion reading 3").inputValue()).toBe("22.02 mm");
    expectQuiet(visited);
  });

  it("puts the gap into the setup: Explore shows it, undo brings the old one back", async () => {
    const visited = await open();
    const { page } = visited;
    await typeReadings(page, depthMm, insertionMm);
    await expect.poll(() => words(page, "compared")).toMatch(/open setup has a gap of 2\.50 mm .*wider/);
    await page.getByTestId("use-gap").press("Enter");
    await page.getByTestId("message").waitFor();
    await expect
      .poll(() => page.getByTestId("message").innerText())
      .toMatch(/receiver depth 24\.5\d+ ± .* a gap of/);
    // read by then, it does not go along to another task
    await passed(page, 2100);
    await page.getByTestId("task-cut").click();
    await page.getByTestId("message").waitFor({ state: "detached" });
    await page.getByTestId("task-measure").click();
    await expect.poll(() => words(page, "compared")).toMatch(/: the measured one\.$/);
    await page.getByTestId("to-explore").click();
    await showsGap(page, `${measured.gapMm.toFixed(2)} mm`);
    await page.goBack();
    await gap(page).waitFor();
    await page.getByRole("button", { name: /^Undo/ }).click();
    await expect.poll(() => words(page, "compared")).toMatch(/open setup has a gap of 2\.50 mm/);
    await expect.poll(() => entry(page, "depth reading 3").inputValue()).toBe("24.56");
    expectQuiet(visited);
  });

  it("tells two tools apart: each with its own zero", async () => {
    const { page } = await open();
    await typeReadings(page, depthMm, insertionMm);
    await page.getByTestId("same-tool").focus();
    await page.keyboard.press("Space");
    const insertionTool = page.getByRole("group", { name: "Tool for the insertion" });
    await insertionTool.getByLabel("Zero reading").fill("0.5");
    await page.keyboard.press("Enter");
    const two = gapFromReadings({
      depthMm,
      insertionMm,
      depthTool: { resolutionMm: 0.01 },
      insertionTool: { zeroMm: 0.5 },
    });
    await expect.poll(() => words(page, "measured-gap")).toContain(`${two.gapMm.toFixed(2)}`);
  });

  it("saves readings and result as CSV", async () => {
    const { page } = await open();
    await typeReadings(page, depthMm, insertionMm);
    await gap(page).waitFor();
    const download = page.waitForEvent("download");
    await page.getByTestId("save-measurement").click();
    const file = await download;
    expect(file.suggestedFilename()).toMatch(/-measured-gap\.csv$/);
    const rows = csvParse(readFileSync(await file.path(), "utf8"));
    const mm = (item: string) => Number(rows.find((row) => row.item === item)!.mm);
    expect(mm("depth reading 3")).toBe(24.56);
    expect(mm("gap")).toBe(measured.gapMm);
    expect(mm("gap: standard uncertainty")).toBe(measured.standardUncertaintyMm);
  });

  it("prints readings, result and budget on one page", async () => {
    const { page } = await open();
    await typeReadings(page, depthMm, insertionMm);
    await page.locator("[data-testid=readings] svg").waitFor();
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 703, height: 1032 });
    await expect.poll(() => entry(page, "depth reading 3").isVisible()).toBe(true);
    await expect.poll(() => entry(page, "depth reading 4").isVisible()).toBe(false);
    const beyond = await page
      .getByTestId("budget")
      .evaluate((table) => table.scrollWidth - table.parentElement!.clientWidth);
    expect(beyond).toBeLessThanOrEqual(0);
    await picture(page, "measure-print");
    const pdf = await page.pdf({ format: "A4", printBackground: true, path: `${screenshots}measure.pdf` });
    expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  });
});

describe("the measuring sheet for everyone", () => {
  it("is sound at every width and in every colour, empty and with readings", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expectSoundEverywhere(page, "measure-empty");
    await typeReadings(page, depthMm, insertionMm);
    await page.locator("[data-testid=readings] svg").waitFor({ state: "attached" });
    await expectSoundEverywhere(page, "measure");
    expectQuiet(visited);
  });
});
