/** Whose job it is and what is in doubt, from the page's head to every paper, read back from what is printed. */
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { readPdf, withoutSpaces } from "./pdf.ts";

const { visit } = useBrowser();

const JOB = { title: "Spring job", player: "Ada", instrument: "Kettle no. 9", mouthpiece: "5C" } as const;

async function go(page: Page, task: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, task);
}

async function nameJob(page: Page): Promise<void> {
  await go(page, "jobs");
  await page.getByTestId("keep-job").click();
  for (const [name, text] of Object.entries(JOB)) {
    const box = page.getByTestId("open-fields").getByTestId(`job-${name}`).getByRole("textbox");
    await box.fill(text);
    await box.press("Enter");
  }
  await expect.poll(() => page.locator("annulus-header h1").innerText()).toBe(JOB.instrument);
}

async function read(
  page: Page,
  options: Parameters<Page["pdf"]>[0] = { format: "A4" },
  pageCount = 1,
): Promise<string> {
  const pages = await readPdf(await page.pdf({ printBackground: true, ...options }));
  expect(pages).toHaveLength(pageCount);
  return pages.map(({ text }) => text).join("");
}

const expectAll = (text: string, ...words: readonly string[]): void => {
  for (const one of words) expect(text).toContain(withoutSpaces(one));
};
const COMPUTED_ON = `computed on: ${demo().name}`;

describe("papers", () => {
  it("say where the diameters contradict the gap, and Cut's choice waits until that is acknowledged", async () => {
    const visited = await visit({ hash: "#explore" });
    const { page } = visited;
    await page.locator("annulus-explore annulus-gap").waitFor();
    expect(await page.getByTestId("doubt").count()).toBe(0);
    await nameJob(page);
    await expect.poll(() => page.getByTestId("who").innerText()).toContain(COMPUTED_ON);
    await expect.poll(() => page.getByTestId("who").innerText()).toMatch(/Ada[\s\S]*5C/);

    // a number in the other unit is asked about, and taken as it was meant
    await go(page, "edit");
    const mouth = page.locator('annulus-entry[data-path="receiver.mouthDiameter"]');
    await mouth.getByRole("textbox").fill("0.4252");
    await mouth.getByRole("textbox").press("Tab");
    await mouth.getByRole("button", { name: "Take 0.4252 in" }).click();
    await expect.poll(() => mouth.getByRole("textbox").inputValue()).toMatch(/^10\.8/);
    await expect.poll(() => mouth.getByTestId("other-unit").count()).toBe(0);
    await page.keyboard.press("Escape");
    await go(page, "edit");
    const end = page.getByRole("textbox", { name: /^Shank end diameter/ });
    await end.fill("9.9 mm");
    await end.press("Enter");
    const DOUBT = /shank would be 0\.\d+ mm wider than the receiver at .*predict a gap of 6\.50 mm/;
    for (const task of ["explore", "fit", "cut"]) {
      await go(page, task);
      await page.locator(`annulus-${task}`).getByTestId("doubt").getByText(DOUBT).waitFor();
    }
    await picture(page, "cut-doubt");

    const cut = page.locator("annulus-cut");
    const target = page.getByRole("textbox", { name: "Gap to reach", exact: true });
    await target.fill("2 mm");
    await target.press("Enter");
    const choose = page.getByRole("button", { name: "Choose: turn the shank's taper down" });
    await choose.waitFor();
    await expect.poll(() => choose.isDisabled()).toBe(true);
    await cut.getByTestId("acknowledge").check();
    await choose.click();
    await cut.getByTestId("confirm").check();
    await cut.getByTestId("card").waitFor();
    expectAll(
      await read(page),
      ...Object.values(JOB),
      COMPUTED_ON,
      "wider than the receiver",
      "Owner’s consent.",
      "Owner’s signature",
    );
    await page.emulateMedia({ media: "print" });
    await picture(page, "cut-card-names-print");
    await page.emulateMedia({ media: null });

    // another contradiction is asked about again, and the choice waits once more
    await go(page, "edit");
    await end.fill("10 mm");
    await end.press("Enter");
    await go(page, "cut");
    await cut
      .getByTestId("doubt")
      .getByText(/predict a gap of 8\.50 mm/)
      .waitFor();
    await expect.poll(() => cut.getByTestId("acknowledge").isChecked()).toBe(false);
    await expect.poll(() => choose.isDisabled()).toBe(true);
    expect(await cut.getByTestId("card").count()).toBe(0);

    await go(page, "sheet");
    for (const [name, text] of [
      ["workshop", "Reed Street"],
      ["technician", "T. Marsh"],
    ] as const) {
      const box = page.getByTestId(`sheet-${name}`).getByRole("textbox");
      await box.fill(text);
      await box.press("Enter");
    }
    await page
      .getByTestId("sheet-status")
      .getByText(/^Ready/)
      .waitFor({ timeout: 120_000 });
    const report = await read(page, { preferCSSPageSize: true }, 2);
    expectAll(
      report,
      ...Object.values(JOB),
      COMPUTED_ON,
      "Reed Street",
      "T. Marsh",
      "wider than the receiver",
    );

    // nothing is handed to a class without it either
    await page.getByRole("button", { name: "For the class", exact: true }).click();
    await page.getByTestId("paper").getByText("a ring of air is left").waitFor();
    await page
      .getByTestId("sheet-status")
      .getByText(/^Ready: a page for the class/)
      .waitFor({ timeout: 120_000 });
    expectAll(
      // the sheet, and the teacher's answers
      await read(page, { preferCSSPageSize: true }, 2),
      JOB.instrument,
      COMPUTED_ON,
      "wider than the receiver",
      "The gap is assumed, not measured",
      "of a stand-in:",
    );

    // typed once: the next job's papers have it too
    await go(page, "jobs");
    await page.getByTestId("new-demo").click();
    await expect.poll(() => page.locator("annulus-header h1").innerText()).toBe(demo().name);
    expect(await page.getByTestId("who").count()).toBe(0);
    await go(page, "sheet");
    await page.getByTestId("paper").getByText("Reed Street").waitFor();
    await page.getByTestId("paper").getByText("T. Marsh").waitFor();
    expect(await page.getByTestId("paper-doubt").count()).toBe(0);

    await go(page, "measure");
    await page.getByRole("button", { name: "inch, inches" }).click();
    const reading = page.locator('annulus-entry[data-field="depth.0"]');
    await reading.getByRole("textbox").fill("23.68");
    await reading.getByRole("textbox").press("Enter");
    await reading.getByText("23.68 in would be 601.5 mm; did you mean 23.68 mm?").waitFor();
    await picture(page, "measure-other-unit");
    await reading.getByRole("button", { name: "Take 23.68 mm" }).click();
    await expect.poll(() => reading.getByRole("textbox").inputValue()).toBe("23.68 mm");
    await expect.poll(() => reading.getByTestId("other-unit").count()).toBe(0);
    expectQuiet(visited);
  }, 300_000);
});
