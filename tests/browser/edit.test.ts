import { describe, expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "./browser.ts";
import { answered, showsGap } from "./sheet.ts";
import { expectWithinEdges } from "./soundness.ts";
import { still } from "./still.ts";

const { visit } = useBrowser();

async function opened(width = 1280) {
  const visited = await visit({ width });
  const { page } = visited;
  await answered(page);
  await page.getByTestId("edit-instrument").click();
  const editor = page.locator("annulus-editor");
  await editor.getByLabel("Insertion").waitFor();
  return { ...visited, editor };
}

describe("editing the instrument", () => {
  it("takes a dimension with its unit, one edit one undo, and the sheet follows", async () => {
    const visited = await opened();
    const { page, editor } = visited;
    const depth = editor.getByLabel("Depth", { exact: true });
    await depth.fill("1 in");
    await depth.press("Enter");
    await page
      .getByText(/receiver depth 25\.40 mm/)
      .first()
      .waitFor({ state: "attached" });
    await page.keyboard.press("Escape");
    await page.keyboard.press("Control+z");
    await page
      .getByText(/receiver depth 24\.50 mm/)
      .first()
      .waitFor({ state: "attached" });
    expectQuiet(visited);
  });

  it("says beside the field what is wrong, keeps what was typed, and keeps the old instrument in use", async () => {
    const { page, editor } = await opened();
    const insertion = editor.getByLabel("Insertion");
    await insertion.fill("30 mm");
    await insertion.press("Enter");
    await editor.getByRole("alert").first().waitFor();
    expect(await editor.getByRole("alert").first().innerText()).not.toMatch(/NaN|undefined/);
    await expect.poll(() => insertion.inputValue()).toBe("30 mm");
    await expect.poll(() => insertion.getAttribute("aria-invalid")).toBe("true");
    await showsGap(page, "5.04 mm");
    await picture(page, "edit-refused");
    // the depth that makes it right takes both
    const depth = editor.getByLabel("Depth", { exact: true });
    await depth.fill("32 mm");
    await depth.press("Enter");
    await showsGap(page, "2.00 mm");
    await expect.poll(() => editor.getByRole("alert").count()).toBe(0);
  });

  it("edits a bore by its table, as a spreadsheet", async () => {
    const { page, editor } = await opened();
    await editor.getByText("Leadpipe", { exact: true }).click();
    const profile = editor.locator('annulus-profile-table[bore="leadpipe"]');
    const cell = profile.getByLabel("Inner diameter, row 1", { exact: true });
    if (!(await cell.isVisible())) await editor.getByText("Bore profile").nth(1).click();
    await cell.waitFor();
    await cell.fill("0.35 in");
    await cell.press("Enter");
    await expect.poll(() => cell.inputValue()).toBe("8.89");
    await still(page);
    await picture(page, "edit-leadpipe");
  });

  it("fits a phone", async () => {
    const { page } = await opened(390);
    await still(page);
    await expectWithinEdges(page);
    await picture(page, "edit-phone");
  });
});
