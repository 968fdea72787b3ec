import { describe, expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "./browser.ts";
import { answered } from "./sheet.ts";

const { visit } = useBrowser();

describe("where the numbers come from", () => {
  it("is marked beside each, and what is assumed widens what is said, for instruments like it", async () => {
    const visited = await visit({ width: 1280, height: 1000, hash: "#edit" });
    const { page } = visited;
    await answered(page);
    expect(await page.getByTestId("instruments-like-it").count()).toBe(0);
    const editor = page.locator("annulus-editor");
    const mark = (dimension: string) => editor.locator(`select[data-origin="${dimension}"]`);
    await editor.locator("summary", { hasText: "Body" }).click();
    await mark("body.profile").selectOption({ label: "assumed" });
    await expect
      .poll(() => page.getByTestId("instruments-like-it").innerText())
      .toMatch(/^Gap measured to ±0\.07 mm; of a stand-in: body/);
    expect(
      await mark("body.profile").evaluate((select) => getComputedStyle(select).textDecorationStyle),
    ).toBe("dotted");
    await picture(page, "provenance");
    // typed: measured, and its uncertainty asked for
    await mark("receiver.taper").selectOption("assumed");
    const taper = editor.locator('annulus-entry[data-path="receiver.taper"] input');
    await taper.fill("0.051");
    await taper.press("Enter");
    await expect.poll(() => mark("receiver.taper").inputValue()).toBe("measured");
    const asked = editor.locator(`annulus-entry[data-path='uncertainties["receiver.taper"]'] input`);
    await asked.fill("0.0005");
    await asked.press("Enter");
    await expect.poll(() => asked.inputValue()).toBe("0.0005");
    await editor.locator("summary", { hasText: "The file" }).click();
    const file = JSON.parse(await editor.locator("#file").inputValue());
    expect(file.provenance).toEqual({ "body.profile": "assumed", "receiver.taper": "measured" });
    expect(file.uncertainties["receiver.taper"]).toBe(0.0005);
    expectQuiet(visited);
  });
});
