import { describe, expect, it } from "vitest";
import { writeDocument } from "../../../src/app/state/keeping/documentFile.ts";
import { FIRST_VIEW } from "../../../src/app/state/state.ts";
import { firstVisit } from "../../../src/app/state/store.ts";
import { headline } from "../../../src/app/tasks/explore/headline.ts";
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { roundedLength } from "../../../src/units/uncertainLength.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser, type VisitOptions } from "../browser.ts";
import { focused, tabTo } from "../keyboard.ts";
import { answered } from "./sheet.ts";

const { visit } = useBrowser();

/** With the uncertainties that its file states and nothing assumed. */
const drawn: Setup = { ...demo(), provenance: {} };

/** The demo's drawing taken for what it is. */
async function visitDrawn(options: VisitOptions) {
  const visited = await visit(options);
  await answered(visited.page);
  const document = writeDocument(firstVisit(drawn));
  await visited.page.evaluate(
    (text) => {
      // newer than anything that the page writes while it goes
      addEventListener("pagehide", () => {
        for (const shelf of [localStorage, sessionStorage]) shelf.setItem("annulus-autosave", text);
      });
    },
    JSON.stringify({ document, view: FIRST_VIEW, stamp: Date.now() + 60_000 }),
  );
  await visited.page.reload();
  await answered(visited.page);
  return visited;
}

describe("how sure it is, by keyboard alone", () => {
  it("gives every change with its uncertainty, says what most of that comes from, and draws instruments, which agree with the first order", async () => {
    const visited = await visitDrawn({ width: 1280, height: 1000 });
    const { page } = visited;
    const { gapMm, referenceGapMm } = firstVisit(drawn);
    const exploration = new Exploration(drawn, coverageFactor);
    // a setup's first answer does not wait for the uncertainties
    const [, explored] = [1, 2].map(() => exploration.explore(gapMm, referenceGapMm, FIRST_VIEW.resonance));
    const expanded = roundedLength(explored.gapExpandedMm!, explored.gapExpandedMm!, "mm");
    await expect.poll(() => page.getByTestId("gap-uncertainty").innerText()).toContain(`± ${expanded}`);
    const { heldAgainst } = headline({ explored, retuned: null, felt: null, setup: drawn, unit: "mm" });
    const [known] = /known to ±[\d.]+ cents and ±[\d.]+ dB/.exec(heldAgainst)!;
    await page.getByTestId("headline").getByText(known).waitFor();
    await tabTo(page, "How sure is this?");
    await page.keyboard.press("Enter");
    const panel = page.getByTestId("uncertainty");
    const { standard } = drawn.uncertainties["receiver.depth"]!;
    await panel.getByText(`receiver depth ${standard.toFixed(3)} mm`).waitFor();
    const rows = await panel.locator("tbody tr").allInnerTexts();
    expect(rows).toHaveLength(9);
    for (const row of rows) {
      expect(row).toMatch(/[+−]?\d\.\d\d ± 0\.\d\d\s/);
      expect(row).toMatch(/insertion at the (chosen|reference) gap \d+ %/);
      expect(row).not.toMatch(/NaN|undefined|Infinity/);
    }

    // it shows how far it is, and stops when told to: as many as take longer than the way to the button
    await tabTo(page, "5000");
    await page.keyboard.press("Enter");
    await tabTo(page, "draw", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.getByRole("progressbar", { name: "Running random trials" }).waitFor();
    await tabTo(page, "stop-drawing", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.getByTestId("draw").waitFor();
    await expect.poll(() => page.getByTestId("drawn").count()).toBe(0);
    await tabTo(page, "200");
    await page.keyboard.press("Enter");
    await tabTo(page, "draw", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.getByText("200 random trials run").waitFor({ timeout: 100_000 });
    await expect
      .poll(() => page.getByTestId("drawn").innerText())
      .toContain("They scatter as the first-order figures say");
    await picture(page, "uncertainty");
    // the hand moves on: what was drawn is about another gap
    await page.getByTestId("gap-field").fill("4");
    await page.getByTestId("gap-field").press("Enter");
    await page.getByTestId("drawn").waitFor({ state: "detached" });
    expectQuiet(visited);
  });

  it("takes a badly known insertion for what it is", async () => {
    const { page } = await visitDrawn({ width: 1280, height: 1000, hash: "#edit" });
    await page.getByText("How well it is known").click();
    const field = page.locator(`annulus-entry[data-path='uncertainties["mouthpiece.insertion"]'] input`);
    await field.fill("2");
    await field.press("Enter");
    await page.getByTestId("headline").getByText("The measurements are too uncertain to say.").waitFor();
    await expect.poll(() => page.getByTestId("gap-uncertainty").innerText()).toContain("± 4 mm");
    await field.fill("a lot");
    await field.press("Enter");
    expect(await focused(page)).not.toBe("");
    await page
      .getByText(/"a lot"/)
      .first()
      .waitFor();
    await field.fill("");
    await field.press("Enter");
    // depth alone does not make a gap's uncertainty
    await page.getByTestId("gap-uncertainty").waitFor({ state: "detached" });
  });
});
