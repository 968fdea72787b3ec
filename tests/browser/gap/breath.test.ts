/** Exploring under a breath: by keyboard, kept in a link, and gone without a trace. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { expectQuiet, useBrowser } from "../browser.ts";
import { tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { still } from "../still.ts";
import { answered } from "./sheet.ts";

const { visit } = useBrowser();

const curve = (page: Page, part: string) => page.locator(`[data-part=${part}]`);
/** All that is drawn and said of peaks. */
async function shown(page: Page): Promise<readonly (string | null)[]> {
  await still(page);
  return [
    await curve(page, "chosen-curve").getAttribute("d"),
    await page.getByTestId("headline").innerText(),
    await page.getByTestId("impedance").locator("desc").textContent(),
    await page.getByTestId("height-against-gap").locator("desc").textContent(),
  ];
}

it("a breath set by keyboard changes curve and sentence, is sound at every width and in every colour, a link keeps it, and still air brings back exactly what was", async () => {
  const visited = await visit();
  const { page } = visited;
  await answered(page);
  const before = await shown(page);
  await expect.poll(() => curve(page, "still-curve").count()).toBe(0);
  await expect.poll(() => page.getByTestId("breath-finding").count()).toBe(0);

  await tabTo(page, "breath-slider");
  for (let i = 0; i < 20; i++) await page.keyboard.press("ArrowRight");
  await expect.poll(() => page.getByTestId("breath-field").inputValue()).toBe("20");
  const finding = page.getByTestId("breath-finding");
  await finding.getByText(/^A breath of 20 L\/min changes the height of the peaks by −\d\.\d\d/).waitFor();
  await finding.getByText(/^Opening the gap by 2\.54 mm .* in still air and by .* blown/).waitFor();
  await finding.getByText("Just noticeable: 1 dB.").waitFor();
  await curve(page, "still-curve").waitFor();
  const [still20, blown20] = await Promise.all(
    ["still-curve", "chosen-curve"].map((part) => curve(page, part).getAttribute("d")),
  );
  expect(still20!.length).toBeGreaterThan(1000);
  expect(blown20 === still20 || blown20 === before[0]).toBe(false);
  await page.getByTestId("verdicts-blown").getByText("20 L/min").waitFor();
  await page.getByTestId("breath-leaves-out").getByText("What this leaves out").click();
  await page.getByText(/laminar stream up to Re 3200/).waitFor();
  // the drawing of the stream, and that it is not this one
  await page.getByTestId("gap-stream").scrollIntoViewIfNeeded();
  await curve(page, "shear-layer").waitFor();
  await page.getByText(/nearest of the computed streams to yours/).waitFor();
  await expectSoundEverywhere(page, "explore-blown");

  // what cannot be stays as typed, with the reason beside it
  const field = page.getByTestId("breath-field");
  for (const [typed, said] of [
    ["75", /out of range; give a number from 0 to 60 L\/min/],
    ["hard", /is not a number/],
  ] as const) {
    await field.fill(typed);
    await field.press("Enter");
    await page.getByTestId("breath-problem").getByText(said).waitFor();
    await expect.poll(() => field.inputValue()).toBe(typed);
  }
  await field.press("Escape");
  await expect.poll(() => field.inputValue()).toBe("20");

  await page.getByRole("button", { name: /copy a link/i }).click();
  await page.getByTestId("message").getByText("The link is on the clipboard").waitFor();
  const link = await page.evaluate(() => navigator.clipboard.readText());
  const other = await visit({ hash: new URL(link).hash });
  await answered(other.page);
  await expect.poll(() => other.page.getByTestId("breath-field").inputValue()).toBe("20");
  await other.page
    .getByTestId("breath-finding")
    .getByText(/^A breath of 20 L\/min/)
    .waitFor();
  expectQuiet(other);

  await page.getByTestId("still-air").focus();
  await page.keyboard.press("Enter");
  await expect.poll(() => curve(page, "still-curve").count()).toBe(0);
  await expect.poll(() => page.getByTestId("gap-stream").count()).toBe(0);
  await page.getByTestId("headline").getByText("Unlikely to be noticed.").waitFor();
  const after = await shown(page);
  expect(after.map((one, i) => one === before[i])).toEqual(before.map(() => true));
  expectQuiet(visited);
});
