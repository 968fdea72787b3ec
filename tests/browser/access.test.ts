import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { expectQuiet, useBrowser } from "./browser.ts";
import { answered } from "./gap/sheet.ts";
import { expectSoundEverywhere } from "./soundness.ts";

const { visit } = useBrowser();
describe("the page for everyone", () => {
  it("is reached by keyboard alone, is sound at every width and in every colour, and has a table behind every chart", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    await expectReached(page);
    await expectSoundEverywhere(page, "explore");
    await expectTables(page);
    expectQuiet(visited);
  });

  it("shows on a phone where one is among the tasks, coming in and going on", async () => {
    const { page } = await visit({ width: 390, height: 800, hash: "#learn" });
    const isInSight = async (task: string) => {
      const { x, width } = (await page.getByTestId(`task-${task}`).boundingBox())!;
      return x >= 0 && x + width <= 390;
    };
    await expect.poll(() => isInSight("learn")).toBe(true);
    await expect.poll(() => isInSight("jobs")).toBe(false);
    await page.evaluate(() => {
      location.hash = "#jobs";
    });
    await expect.poll(() => isInSight("jobs")).toBe(true);
  });

  /** Gap, reference, resonance, chart: by Tab alone. */
  async function expectReached(page: Page): Promise<void> {
    const reached = new Set<string>();
    for (let i = 0; i < 140; i++) {
      await page.keyboard.press("Tab");
      reached.add(
        await page.evaluate(() => {
          let at: Element | null = document.activeElement;
          while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
          return at?.getAttribute("data-testid") ?? at?.textContent?.trim() ?? "";
        }),
      );
    }
    for (const name of [
      "gap-field",
      "gap-slider",
      "shank",
      "edit-instrument",
      "resonance",
      "retune",
      "impedance",
      "height-against-gap",
    ])
      expect([...reached]).toContain(name);
  }

  async function expectTables(page: Page): Promise<void> {
    for (const chart of ["impedance", "height-against-gap"]) {
      const figure = page.locator("figure", { has: page.getByTestId(chart) });
      await figure.locator("summary").click();
      await figure.locator("[data-action=table]").click();
      await figure.getByRole("table").waitFor();
      await expect.poll(() => figure.getByRole("row").count()).toBeGreaterThan(5);
      expect(await figure.getByRole("table").innerText()).not.toMatch(/NaN|undefined/);
    }
  }

  it("says in its policy that it talks to nobody", async () => {
    const { page } = await visit();
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
    expect(policy).toMatch(/default-src 'none'/);
    expect(policy).not.toMatch(/unsafe|https?:/);
    const refused = await page.evaluate(() =>
      fetch("https://example.org/").then(
        () => "answered",
        () => "refused",
      ),
    );
    expect(refused).toBe("refused");
  });
});
