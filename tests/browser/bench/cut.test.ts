import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { WorkCard } from "../../../src/app/tasks/cut/workCard.ts";
import { usualCautions } from "../../../src/bench/cut/cautions.ts";
import { planCut } from "../../../src/bench/cut/cut.ts";
import { cutQuestion } from "../../../src/bench/cut/cutSetup.ts";
import { stageSize, wayWords } from "../../../src/words/bench/cut.ts";
import { cutCard } from "../../../src/words/bench/cutCard.ts";
import { CAUTION } from "../../../src/words/bench/cutCautions.ts";
import { demo } from "../../acoustics/setups.ts";
import { expectQuiet, picture, useBrowser } from "../browser.ts";
import { showsGap } from "../gap/sheet.ts";
import { focused, tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab } from "../still.ts";

const { visit } = useBrowser();

const planTo = (targetMm: number) => planCut(cutQuestion(demo(), { targetMm }));
const turnDown = "Choose: turn the shank's taper down";

async function open(options: Parameters<typeof visit>[0] = {}) {
  const visited = await visit({ hasModel: false, ...options, hash: "#cut" });
  await field(visited.page, "Gap to reach").waitFor();
  return visited;
}

/** Within the sheet: the copy of the card for the printer is another. */
const sheet = (page: Page) => page.locator("annulus-cut");
const part = (page: Page, name: string) => sheet(page).getByTestId(name);
/** Of an element that is nothing but its shadow. */
const shown = (at: Locator): Promise<string> =>
  at.evaluate((element) =>
    Array.from(element.shadowRoot!.children, (child) => (child as HTMLElement).innerText).join("\n"),
  );
const field = (page: Page, label: string) => page.getByRole("textbox", { name: label, exact: true });

/** By Tab to the field, its text replaced. */
async function typeByKeys(page: Page, label: string, text: string): Promise<void> {
  if ((await focused(page)) !== label) await tabTo(page, label);
  await page.keyboard.press("Control+a");
  await page.keyboard.type(text);
  await page.keyboard.press("Enter");
}

async function order(page: Page, label: string, text: string): Promise<void> {
  await field(page, label).fill(text);
  await field(page, label).press("Enter");
}

async function confirmed(page: Page, target: string, choose: string): Promise<void> {
  await order(page, "Gap to reach", target);
  await page.getByRole("button", { name: choose }).click();
  await part(page, "confirm").check();
  await part(page, "card").waitFor();
}

describe("planning a cut", () => {
  it("by keyboard alone: a target, the ways with the bench's sizes, stages only once it is confirmed, gone with another target", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expect.poll(() => part(page, "present-gap").innerText()).toBe("2.50 ± 0.07 mm");
    await typeByKeys(page, "Gap to reach", "2.0");
    const { ways } = planTo(2);
    expect(ways.filter(({ isPossible }) => isPossible).length).toBeGreaterThan(1);
    for (const way of ways) {
      const text = await part(page, `way-${way.name}`).innerText();
      if (way.isPossible) expect(text).toContain(stageSize(way.size!, way.unit));
      expect(text).toContain(wayWords(way, "mm")[0]);
    }
    await expect.poll(() => part(page, "way-turn-down").innerText()).toContain("9.700 → 9.675 mm");
    await tabTo(page, turnDown);
    await page.keyboard.press("Enter");
    await part(page, "confirm").waitFor();
    await expect.poll(() => part(page, "work").innerText()).toMatch(/cannot be undone.*qualified repairer/);
    await expect.poll(() => part(page, "card").count()).toBe(0);
    await expect.poll(() => part(page, "cut-stages").count()).toBe(0);

    await tabTo(page, "confirm");
    await page.keyboard.press("Space");
    await part(page, "card").waitFor();
    const card = cutCard(planTo(2), "turn-down")!;
    await expect.poll(() => part(page, "card").locator("tbody tr").count()).toBe(card.stages.length);
    await expect.poll(() => shown(part(page, "card"))).toContain(card.stages[0].size!);
    await part(page, "cut-stages").locator("svg").waitFor();

    await tabTo(page, "Gap to reach", "Shift+Tab");
    await typeByKeys(page, "Gap to reach", "1.9");
    await part(page, "card").waitFor({ state: "detached" });
    await typeByKeys(page, "Gap to reach", "2.0");
    await part(page, "way-turn-down")
      .getByText(stageSize(planTo(2).ways[2].size!, "off-diameter"))
      .waitFor();
    await expect.poll(() => part(page, "confirm").isChecked()).toBe(false);
    await expect.poll(() => part(page, "card").count()).toBe(0);
    expectQuiet(visited);
  });

  it("another way drops the confirmation too, and undoing brings back the plan without it", async () => {
    const { page } = await open();
    await confirmed(page, "2 mm", turnDown);
    await page.getByRole("button", { name: "Choose: exchange the shank" }).click();
    await part(page, "card").waitFor();
    await expect.poll(() => part(page, "confirm").count()).toBe(0);
    await page.getByRole("button", { name: turnDown }).click();
    await part(page, "confirm").waitFor();
    await expect.poll(() => part(page, "confirm").isChecked()).toBe(false);
    await part(page, "confirm").check();
    await part(page, "card").waitFor();
    await page.getByRole("button", { name: /^Undo/ }).click();
    await part(page, "confirm").waitFor({ state: "detached" });
    await page.getByRole("button", { name: /^Redo/ }).click();
    await part(page, "confirm").waitFor();
    await expect.poll(() => part(page, "confirm").isChecked()).toBe(false);
    await expect.poll(() => part(page, "card").count()).toBe(0);
  });

  it("answers in words: a wall too thin, a target that cannot be, a text that is none, nothing to do, a gap not known so well", async () => {
    const visited = await open();
    const { page } = visited;
    await order(page, "Minimum wall", "0.64 mm");
    await order(page, "Gap to reach", "1");
    await part(page, "way-turn-down")
      .getByText(/of wall would be left at the end, below the minimum of 0\.640 mm/)
      .waitFor();
    await expect.poll(() => page.getByRole("button", { name: turnDown }).count()).toBe(0);
    await picture(page, "cut-too-thin");
    await order(page, "Gap to reach", "30 mm");
    await part(page, "target")
      .getByText(/The planned gap is 30\.000 mm; give 0 to the receiver's depth/)
      .waitFor();
    await expect.poll(() => part(page, "no-plan").innerText()).toMatch(/^No plan/);
    await order(page, "Gap to reach", "two");
    await part(page, "target")
      .getByText(/is not a length/)
      .waitFor();
    await expect.poll(() => field(page, "Gap to reach").inputValue()).toBe("two");
    await expect.poll(() => field(page, "Gap to reach").getAttribute("aria-invalid")).toBe("true");
    await order(page, "Gap to reach", "2.52");
    await part(page, "no-plan")
      .getByText(/within 0\.05 mm of the planned gap already/)
      .waitFor();
    await order(page, "Gap to reach", "2.44");
    await part(page, "no-plan")
      .getByText(/known to ±0\.07 mm only.*measure again/)
      .waitFor();
    expect(await shown(sheet(page))).not.toMatch(/NaN|undefined|Infinity/);
    expectQuiet(visited);
  });

  it("offers the gap chosen in Explore and a tenth of an inch, and keeps the meaning under another unit", async () => {
    const { page } = await open();
    await part(page, "target-chosen").click();
    await expect.poll(() => field(page, "Gap to reach").inputValue()).toBe("5.04 mm");
    await part(page, "way-sleeve").waitFor();
    await part(page, "target-tenth").click();
    await part(page, "no-plan")
      .getByText(/already/)
      .waitFor();
    await order(page, "Gap to reach", "2.0");
    await page.getByRole("button", { name: /^inch,/ }).click();
    await part(page, "change").getByText("0.0197 in less").waitFor();
    await expect.poll(() => field(page, "Gap to reach").inputValue()).toBe("2.0 mm");
    await expect
      .poll(() => part(page, "way-turn-down").innerText())
      .toContain("0.0010 in off the diameter (0.025 mm)");
    await order(page, "Gap to reach", "0.08");
    await part(page, "change").getByText("0.0184 in less").waitFor();
  });

  it("keeps the order over a reload but not the confirmation, and undoes a target", async () => {
    const { page } = await open();
    await confirmed(page, "2 mm", turnDown);
    await keptInTab(page, /"2 mm"/);
    await page.reload();
    await part(page, "confirm").waitFor();
    await expect.poll(() => field(page, "Gap to reach").inputValue()).toBe("2 mm");
    await expect.poll(() => part(page, "confirm").isChecked()).toBe(false);
    await expect.poll(() => part(page, "card").count()).toBe(0);
    await order(page, "Gap to reach", "1.5 mm");
    await part(page, "change").getByText("1.00 mm less").waitFor();
    await page.getByRole("button", { name: /^Undo/ }).click();
    await part(page, "change").getByText("0.50 mm less").waitFor();
    await expect.poll(() => field(page, "Gap to reach").inputValue()).toBe("2 mm");
  });

  it("says what the model says, and shows it in Explore", async () => {
    const { page } = await open({ hasModel: true });
    await order(page, "Gap to reach", "2 mm");
    await part(page, "effect")
      .getByText(/Closing the gap by 0\.50 mm \(0\.020 in\) .* cents .* too small to notice/)
      .waitFor();
    await part(page, "see").click();
    await showsGap(page, "2.00 mm");
    await expect.poll(() => page.getByTestId("gap-difference").innerText()).toMatch(/0\.50 mm.*narrower/);
    await page.getByRole("button", { name: /^Undo/ }).click();
    await showsGap(page, "5.04 mm");
  });

  it("models a cut, which undo takes back; what nobody has measured then blocks the next one", async () => {
    const visited = await open();
    const { page } = visited;
    await order(page, "Gap to reach", "3.5 mm");
    await part(page, "effect")
      .getByText(/shortened one has another exit bore/)
      .waitFor();
    await page.getByRole("button", { name: "Choose: shorten the shank's end" }).click();
    await part(page, "cut-drawing").locator("svg").waitFor();
    await part(page, "model").click();
    await showsGap(page, "3.50 mm");
    await page.getByTestId("task-cut").click();
    await part(page, "unknown")
      .getByText(/how well the insertion is known/)
      .waitFor();
    await expect.poll(() => part(page, "unknown").getByRole("link").getAttribute("href")).toBe("#measure");
    await order(page, "Gap to reach", "2.5 mm");
    await part(page, "way-turn-down")
      .getByText(/cannot be undone, and the gap's uncertainty is not known/)
      .waitFor();
    await expect.poll(() => page.getByRole("button", { name: turnDown }).count()).toBe(0);
    await expect.poll(() => page.getByRole("button", { name: "Choose: exchange the shank" }).count()).toBe(1);
    await picture(page, "cut-unknown");
    const undo = page.getByRole("button", { name: /^Undo/ });
    await undo.click();
    await undo.click();
    await part(page, "present-gap").getByText("2.50 ± 0.07 mm").waitFor();
    expectQuiet(visited);
  });

  it("prints the card and nothing else, on one page of either paper, however many stages", async () => {
    const { page } = await open();
    await confirmed(page, "2 mm", turnDown);
    const pages = async (format: "A4" | "Letter") => {
      const pdf = await page.pdf({ format, printBackground: true });
      return pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)!.length;
    };
    expect([await pages("A4"), await pages("Letter")]).toEqual([1, 1]);
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 703, height: 1032 });
    const printed = await shown(page.locator("body > annulus-work-card"));
    const card = cutCard(planTo(2), "turn-down")!;
    for (const words of ["2.00 mm", "2.50 ± 0.07 mm", demo().name, card.confirmation!, ...card.cautions])
      expect(printed).toContain(words);
    expect(printed).not.toMatch(/NaN|undefined/);
    await expect.poll(() => page.locator("annulus-app").isVisible()).toBe(false);
    await picture(page, "cut-card-print");
    await page.emulateMedia({ media: null });

    // as many stages as there can be: the whole depth by the finest tolerance
    const { standardUncertaintyMm: _, ...unknown } = cutQuestion(demo(), { targetMm: 0, toleranceMm: 0.001 });
    const longest = planCut({
      ...unknown,
      gapMm: 24.5,
      standardUncertaintyMm: 1e-4,
      stopMmPerMark: 0.25,
    });
    const { stages, cautions } = cutCard(longest, "stop")!;
    expect(stages.length).toBe(15);
    await page.locator("body > annulus-work-card").evaluate(
      (element, rest) => {
        Object.assign(element, { card: { ...(element as WorkCard).card, ...rest } });
      },
      { stages, cautions: [...card.cautions, ...cautions.slice(-1)] },
    );
    await expect.poll(() => page.locator("body > annulus-work-card tbody tr").count()).toBe(15);
    expect([await pages("A4"), await pages("Letter")]).toEqual([1, 1]);
  });

  it("shows the usual cautions always", async () => {
    const { page } = await open();
    const text = await part(page, "usual-cautions").innerText();
    expect(usualCautions.length).toBeGreaterThan(0);
    for (const caution of usualCautions) expect(text).toContain(CAUTION[caution]);
  });
});

describe("the sheet of a cut for everyone", () => {
  it("is sound at every width and in every colour, empty and with each way chosen", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await expectSoundEverywhere(page, "cut-empty");
    await confirmed(page, "2 mm", turnDown);
    await part(page, "effect")
      .getByText(/too small to notice/)
      .waitFor();
    await expectSoundEverywhere(page, "cut-turn-down");
    await confirmed(page, "3.5 mm", "Choose: shorten the shank's end");
    await expectSoundEverywhere(page, "cut-shorten");
    await page.getByRole("button", { name: "Choose: sleeve or plate the shank" }).click();
    await part(page, "confirm").waitFor({ state: "detached" });
    await expectSoundEverywhere(page, "cut-sleeve");
    expectQuiet(visited);
  });
});
