import { readFileSync } from "node:fs";
import DxfParser from "dxf-parser";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { readPdf } from "../report/pdf.ts";

const { visit } = useBrowser();

async function saved(page: Page, button: string): Promise<Uint8Array> {
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: button, exact: true }).click();
  return readFileSync(await (await download).path());
}

it("a plug and a ring are drawn in Cut and saved as a shop takes them, with their cautions beside them", async () => {
  const visited = await visit({ hash: "#cut" });
  const { page } = visited;
  const drawing = page.getByTestId("drawing");
  await expect.poll(() => drawing.locator("svg title").textContent()).toMatch(/^Stepped depth plug/);
  await expect
    .poll(() => page.getByTestId("drawing-notes").innerText())
    .toMatch(/eye protection[\s\S]*qualified repairer/);
  await page.getByRole("button", { name: "Go/no-go ring for the shank" }).click();
  await expect
    .poll(() => drawing.locator("svg desc").textContent())
    .toMatch(/gaps of 2\.25 \[0\.089\] and 2\.75/);
  // a planned gap moves the ring's limits with it
  await page.getByRole("textbox", { name: "Gap to reach", exact: true }).fill("2.0");
  await page.keyboard.press("Enter");
  await expect
    .poll(() => drawing.locator("svg desc").textContent())
    .toMatch(/gaps of 1\.75 \[0\.069\] and 2\.25/);
  await picture(page, "cut-ring");
  const [sheet] = await readPdf(await saved(page, "Save PDF"));
  expect([sheet.widthMm, sheet.heightMm].map(Math.round)).toEqual([297, 210]);
  expect(sheet.text).toContain("NO-GO");
  const dxf = new DxfParser().parseSync(Buffer.from(await saved(page, "Save DXF")).toString("utf8"))!;
  expect(dxf.entities.some(({ layer }) => layer === "OUTLINE")).toBe(true);
  expect(Buffer.from(await saved(page, "Save SVG")).toString("utf8")).toMatch(/^<svg .*width="297mm"/);
  // what cannot be read leaves the last drawing; what cannot be made says why
  await page.getByTestId("gauge-step").getByRole("textbox").fill("x");
  await page.keyboard.press("Tab");
  await expect.poll(() => drawing.locator("svg").count()).toBe(1);
  await page.getByTestId("gauge-step").getByRole("textbox").fill("0.1 mm");
  await page.keyboard.press("Tab");
  await expect
    .poll(() => page.getByTestId("no-drawing").innerText())
    .toMatch(/marks 0\.100 mm apart cannot be read/);
  expectQuiet(visited);
});

it("Compare draws the leadpipe and its mandrel, smaller by the spring-back", async () => {
  const visited = await visit({ hash: "#compare", hasModel: false });
  const { page } = visited;
  const drawing = page.getByTestId("drawing");
  await expect
    .poll(() => drawing.locator("svg desc").textContent())
    .toMatch(/8\.750 \[0\.3445\] at the start/);
  await picture(page, "compare-leadpipe");
  await page.getByRole("button", { name: "Mandrel for the leadpipe" }).click();
  await page.getByTestId("making-springBack").getByRole("textbox").fill("0.03");
  await page.keyboard.press("Tab");
  await expect.poll(() => drawing.locator("svg desc").textContent()).toMatch(/8\.720 \[0\.3433\] at 0\.00/);
  await picture(page, "compare-mandrel");
  expectQuiet(visited);
});

it("Cut says what a repairer says first, and plans a wrap from a foil that was measured", async () => {
  const visited = await visit({ hash: "#cut", hasModel: false });
  const { page } = visited;
  await page.getByRole("textbox", { name: "Gap to reach", exact: true }).fill("3.3");
  await page.keyboard.press("Enter");
  // 0.8 mm more gap at 1:20
  await expect
    .poll(() => page.getByTestId("wrap-needed").innerText())
    .toBe("For 0.80 mm more gap: 0.020 mm thick.");
  await page.getByTestId("foil-add").click();
  await page.getByTestId("foil-name-0").getByRole("textbox").fill("kitchen foil");
  await page.getByTestId("foil-thickness-0").getByRole("textbox").fill("0.01");
  await page.keyboard.press("Tab");
  await expect
    .poll(() => page.getByTestId("foil-0").innerText())
    .toContain("One layer opens the gap by 0.40 mm; 2 layers, to 3.30 mm.");
  await page.getByText("In order of regret").click();
  await expect.poll(() => page.getByTestId("advice").innerText()).toMatch(/Do nothing[\s\S]*Only then metal/);
  await picture(page, "cut-wrap");
  await page.getByRole("textbox", { name: "Gap to reach", exact: true }).fill("2.0");
  await page.keyboard.press("Enter");
  await expect.poll(() => page.getByTestId("wrap-needed").innerText()).toMatch(/only ever widens/);
  expectQuiet(visited);
});
