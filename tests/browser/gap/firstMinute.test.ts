import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { TASKS_IN_ORDER } from "../../../src/words/tasks.ts";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { keptInTab, still } from "../still.ts";
import { answered, typeGap } from "./sheet.ts";

const { visit } = useBrowser();

const welcome = (page: Page) => page.getByTestId("welcome");

/** Of a hint and what it speaks of, whether they share any place on the page. */
async function covers(page: Page, hint: number, what: string): Promise<boolean> {
  const [a, b] = await Promise.all(
    [page.getByTestId(`hint-${hint}`), page.locator(what)].map(async (at) => (await at.boundingBox())!),
  );
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

describe("the first minute", () => {
  it("asks the question, answers it for the demo and covers nothing, on a phone, a laptop and a projector", async () => {
    const visited = await visit({ width: 390 });
    const { page } = visited;
    await answered(page);
    await welcome(page).getByText("What does your receiver gap do?").waitFor();
    const answer = page.getByTestId("welcome-answer");
    await answer.filter({ hasText: /lowers pitch by .* cents; once .* Unlikely to be noticed\./ }).waitFor();
    const headline = await page.getByTestId("headline").innerText();
    const number = /pitch by [\d.]+ to [\d.]+ cents/;
    expect(number.exec(await answer.innerText())![0]).toBe(number.exec(headline)![0]);
    await page.getByTestId("gap-which").filter({ hasText: "What if the gap were" }).waitFor();
    for (const width of [390, 1280, 1920]) {
      await page.setViewportSize({ width, height: 900 });
      // what is measured one after the other must not move in between
      await still(page);
      expect(await covers(page, 1, "annulus-cutaway")).toBe(false);
      expect(await covers(page, 2, "annulus-verdicts")).toBe(false);
      for (const chart of await page.locator(".against annulus-chart").all()) {
        const box = (await chart.boundingBox())!;
        const hint = (await page.getByTestId("hint-3").boundingBox())!;
        expect(hint.y + hint.height).toBeLessThanOrEqual(box.y);
      }
      await picture(page, `first-minute-${width}`);
    }
    expectQuiet(visited);
  });

  it("goes on with the demo at the slider, and does not ask again", async () => {
    const { page } = await visit();
    await answered(page);
    await page.getByTestId("welcome-demo").click();
    await expect.poll(() => welcome(page).count()).toBe(0);
    await page.keyboard.press("ArrowRight");
    await keptInTab(page, /"hintsSeen":true/);
    await page.reload();
    await answered(page);
    expect(await welcome(page).count()).toBe(0);
  });

  for (const [way, address] of [
    ["measure", "#measure"],
    ["job", "#jobs"],
  ])
    it(`leads to ${address} and is gone on the way back`, async () => {
      const { page } = await visit();
      await answered(page);
      await page.getByTestId(`welcome-${way}`).click();
      await expect.poll(() => new URL(page.url()).hash).toBe(address);
      await page.getByTestId("task-explore").click();
      await answered(page);
      expect(await welcome(page).count()).toBe(0);
    });

  it("stays while the demo is tried, so that nothing moves under the hand", async () => {
    const { page } = await visit();
    await answered(page);
    await typeGap(page, "1/8 in");
    expect(await welcome(page).count()).toBe(1);
    await expect.poll(() => page.getByTestId("hint-1").count()).toBe(0);
  });

  it("ends every task with the way to the next, in the order of the work", async () => {
    const visited = await visit({ hash: `#${TASKS_IN_ORDER[0].task}` });
    const { page } = visited;
    for (const { name } of [...TASKS_IN_ORDER.slice(1), TASKS_IN_ORDER[0]]) {
      const next = page.getByTestId("next-step").filter({ hasText: name });
      await next.waitFor();
      await next.click();
      await expect.poll(() => page.locator("[aria-current=page]").innerText()).toBe(name);
    }
    expectQuiet(visited);
  });

  it("tells before a cut that no trial was played, and leads there", async () => {
    const { page } = await visit({ hash: "#cut", hasModel: false });
    const line = page.getByTestId("trial-first");
    await line.filter({ hasText: "No blind trial was played" }).waitFor();
    await line.getByRole("link", { name: "Go to Trial" }).click();
    await expect.poll(() => new URL(page.url()).hash).toBe("#trial");
  });
});
