import { describe, expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { answered } from "./sheet.ts";

const { visit } = useBrowser();

/** All of the demo but its gap, its body's bore and the taper that is typed. */
const DRAWN = [
  "mouthpiece.profile",
  "mouthpiece.cupDepth",
  "mouthpiece.shankEndDiameter",
  "mouthpiece.shankTaper",
  "receiver.mouthDiameter",
  "receiver.taper",
  "leadpipe.profile",
  "body.slideAt",
];

describe("where the numbers come from", () => {
  it("is marked beside each, and what is assumed widens what is said, for instruments like it", async () => {
    const visited = await visit({ width: 1280, height: 1000, hash: "#edit" });
    const { page } = visited;
    await answered(page);
    // nobody has measured the demo
    const said = page.getByTestId("instruments-like-it");
    await expect
      .poll(() => said.innerText())
      .toMatch(
        /^The gap is assumed, not measured; the rest is a stand-in; on instruments like it the change is .* cents/,
      );
    const editor = page.locator("annulus-editor");
    const mark = (dimension: string) => editor.locator(`select[data-origin="${dimension}"]`);
    for (const part of ["Leadpipe", "Body"])
      await editor.locator("summary", { hasText: part }).first().click();
    for (const dimension of ["receiver.depth", "mouthpiece.insertion"])
      await mark(dimension).selectOption({ label: "measured" });
    await expect.poll(() => said.innerText()).toMatch(/^Gap measured to ±0\.07 mm; the rest is a stand-in/);
    for (const dimension of DRAWN) await mark(dimension).selectOption("file");
    await expect
      .poll(() => said.innerText())
      .toMatch(/^Gap measured to ±0\.07 mm; of a stand-in: body; on instruments/);
    await mark("body.profile").selectOption("file");
    await expect.poll(() => said.count()).toBe(0);
    await mark("body.profile").selectOption({ label: "assumed" });
    await expect.poll(() => said.innerText()).toMatch(/^Gap measured to ±0\.07 mm; of a stand-in: body/);
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
    expect(file.provenance).toMatchObject({
      ...Object.fromEntries(
        DRAWN.map((dimension) => [dimension === "leadpipe.profile" ? "leadpipe" : dimension, "file"]),
      ),
      "receiver.depth": "measured",
      "mouthpiece.insertion": "measured",
      "body.profile": "assumed",
      "receiver.taper": "measured",
    });
    expect(file.uncertainties["receiver.taper"]).toBe(0.0005);
    expectQuiet(visited);
  });
});
