import { describe, expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { answered, showsGap } from "../gap/sheet.ts";
import { expectWithinEdges } from "../soundness.ts";
import { still } from "../still.ts";

const { visit } = useBrowser();

async function opened(width = 1280) {
  const visited = await visit({ width });
  const { page } = visited;
  await answered(page);
  await page.getByTestId("edit-instrument").click();
  const editor = page.locator("annulus-editor");
  await editor.getByLabel("Insertion", { exact: true }).waitFor();
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
    const insertion = editor.getByLabel("Insertion", { exact: true });
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

  it("begins with a stand-in, and draws its mouthpiece from the numbers a technician knows", async () => {
    const visited = await opened();
    const { page, editor } = visited;
    await editor.getByTestId("stand-in").selectOption("flugelhorn");
    await editor.getByTestId("begin-stand-in").click();
    await page.getByRole("heading", { name: "Stand-in B-flat flugelhorn" }).waitFor();
    await showsGap(page, "2.00 mm");
    await answered(page);
    await editor.getByText("Bore from usual numbers").click();
    await expect.poll(() => editor.getByLabel("Cup volume").inputValue()).toBe("1.90");
    await editor.getByLabel("Throat diameter").fill("4.4");
    await picture(page, "edit-stand-in");
    await editor.getByTestId("draw-mouthpiece").click();
    await expect.poll(() => editor.getByLabel("Throat diameter").inputValue()).toBe("4.4");
    await expectWithinEdges(page);
    expectQuiet(visited);
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
