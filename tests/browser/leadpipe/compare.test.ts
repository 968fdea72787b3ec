import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { expectQuiet, picture, useBrowser, type Visit } from "../browser.ts";
import { focused, tabTo } from "../keyboard.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { keptInTab, still } from "../still.ts";

const { visit } = useBrowser();

/** Inches, radii, the bell's end first. */
const REVERSED_INCHES = "0\t0.2299\n3\t0.2126\n5.7\t0.1935\n8.2\t0.1752\n9.45\t0.1722\n";

async function open(options: Parameters<typeof visit>[0] = {}): Promise<Visit> {
  const visited = await visit({ hasModel: false, ...options, hash: "#compare" });
  await visited.page.getByTestId("add-invented").waitFor();
  return visited;
}

const candidate = (page: Page, number: number) => page.getByTestId(`candidate-${number}`);
const compared = (page: Page, number: number): Promise<void> =>
  page
    .getByTestId("whole")
    .locator("thead th")
    .nth(number - 1)
    .waitFor({ timeout: 30_000 });
/** Nothing is being worked out any more. */
const atRest = (page: Page): Promise<void> =>
  page.locator("annulus-side-by-side[aria-busy=false]").waitFor({ timeout: 30_000 });

async function invented(page: Page): Promise<void> {
  await page.getByTestId("add-invented").click();
  await compared(page, 4);
  await atRest(page);
}

describe("leadpipes compared before they are built", () => {
  it("by keyboard alone: three leadpipes, a table understood before it is taken, ranked, opened, undone", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await tabTo(page, "add-invented");
    await page.keyboard.press("Enter");
    await compared(page, 4);
    await atRest(page);
    await expect.poll(() => candidate(page, 2).innerText()).toMatch(/invented: nobody has made it/);
    const whole = await page.getByTestId("whole").innerText();
    expect(whole).toMatch(/by the tuning slide/);
    expect(whole).not.toMatch(/NaN|undefined|Infinity/);
    await expect.poll(() => page.getByTestId("figures").innerText()).toMatch(/framed from 3\.5 on/);

    await tabTo(page, "table-text", "Shift+Tab");
    await page.evaluate((text) => navigator.clipboard.writeText(text), REVERSED_INCHES);
    await page.keyboard.press("Control+v");
    const found = page.getByTestId("table-found");
    await found.getByText(/5 rows, 240\.03 mm · 9\.450 in long, diameter 8\.748 mm to 11\.679 mm/).waitFor();
    await expect.poll(() => found.innerText()).toMatch(/a guess: no bore is 0\.1722 mm wide/);
    await expect
      .poll(() => page.getByTestId("table-unit").locator("option:checked").innerText())
      .toBe("as found: in");
    await expect
      .poll(() => page.getByTestId("table-measure").locator("option:checked").innerText())
      .toBe("as found: radius");
    await expect
      .poll(() => page.getByTestId("table-direction").locator("option:checked").innerText())
      .toBe("as found: bell end first");
    await expect.poll(() => candidate(page, 5).count()).toBe(0);
    await tabTo(page, "table-measure");
    await page.keyboard.press("ArrowDown");
    await found.getByText(/diameter 4\.374 mm to 5\.839 mm/).waitFor();
    await found.getByText("as you said").waitFor();
    await page.keyboard.press("ArrowUp");
    await tabTo(page, "table-take");
    await page.keyboard.press("Enter");
    await candidate(page, 5).getByText("leadpipe from a table: 5 rows, radius in in").waitFor();
    await compared(page, 5);
    await atRest(page);

    await tabTo(page, "Goal");
    await page.keyboard.type("abs(sents2)");
    await page.keyboard.press("Tab");
    await page.getByText(/"sents2" is not known; known are f1 to f12, cents1 to cents12/).waitFor();
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Control+a");
    await page.keyboard.type("abs(shift6) + abs(slide)/10");
    const ranking = page.getByTestId("ranking").locator("li");
    await expect.poll(() => ranking.count()).toBe(5);
    await expect.poll(() => ranking.first().innerText()).toMatch(/^1\.\s+1 Invented B-flat/);
    await page.keyboard.press("Tab");

    await tabTo(page, "Open in Explore: 2 Even taper (invented)", "Shift+Tab");
    await page.keyboard.press("Enter");
    await candidate(page, 1).getByText("Even taper (invented)").waitFor();
    await candidate(page, 2).getByText("the setup that was open before").waitFor();
    await page.keyboard.press("Control+z");
    await candidate(page, 1).getByText("Invented B-flat no. 7").waitFor();
    await tabTo(page, "Remove 3 Long entry (invented)");
    await page.keyboard.press("Enter");
    await expect.poll(() => candidate(page, 5).count()).toBe(0);
    await page.keyboard.press("Control+z");
    await candidate(page, 5).waitFor();
    expect(await focused(page)).not.toBe("");
    expectQuiet(visited);
  });

  it("answers broken, swapped, doubled and half-empty tables with their lines, and keeps them", async () => {
    const { page } = await open();
    const text = page.getByTestId("table-text");
    const problems = page.getByTestId("table-problems");
    for (const [table, words] of [
      ["0 8.8\nx y\n240 11.68", /Line 2: /],
      ["8.8\t0\n9\t100\n11.68\t240", /Line 1: the columns look swapped/],
      ["0 8.8\n240 11.68\n0 8.8\n240 11.68", /Line 3: the table starts again as it did in line 1/],
      ["0\t8.8\n100\t\n240\t11.68", /Line 2: "100" stands alone: the second column is empty/],
    ] as const) {
      await text.fill(table);
      await text.blur();
      await problems.getByText(words).waitFor();
      await expect.poll(() => page.getByTestId("table-take").isDisabled()).toBe(true);
      await expect.poll(() => text.inputValue()).toBe(table);
    }
    // dropped on it, a file is a table and no instrument
    await text.evaluate((box) => {
      const data = new DataTransfer();
      data.items.add(new File(['0,"8,75"\n120,"10,1"\n240,"11,68"\n'], "lp.csv", { type: "text/csv" }));
      box.dispatchEvent(
        new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true, composed: true }),
      );
    });
    await page
      .getByTestId("table-found")
      .getByText(/3 rows, 240\.00 mm/)
      .waitFor();
    await expect.poll(() => page.getByTestId("table-name").getByRole("textbox").inputValue()).toBe("lp");
    await text.fill("8.8\t0\n9\t100\n11.68\t240");
    await text.blur();
    await page.getByTestId("table-swapped").selectOption("yes");
    await page
      .getByTestId("table-found")
      .getByText(/3 rows, 240\.00 mm/)
      .waitFor();
    await page.getByTestId("table-take").click();
    await candidate(page, 2).waitFor();
    await expect.poll(() => text.inputValue()).toBe("");
  });

  it("keeps candidates, names, reference and goal over a reload, and means the same in inches", async () => {
    const visited = await open();
    const { page } = visited;
    await invented(page);
    await page.getByLabel("Name of candidate 3").fill("Mine");
    await page.getByLabel("Name of candidate 3").press("Tab");
    await page.getByLabel("3 Mine: compared with").check();
    await page.getByTestId("goal").getByRole("textbox").fill("2:1, 5:2");
    await page.getByTestId("goal").getByRole("textbox").press("Tab");
    await page.getByRole("button", { name: "By dimensions" }).click();
    await page.getByTestId("shape-like").click();
    await page.getByTestId("shape-length").getByRole("textbox").fill("250");
    await page.getByTestId("shape-length").getByRole("textbox").press("Tab");
    await keptInTab(page, /"length":"250/);
    await page.reload();
    await compared(page, 4);
    await atRest(page);
    await expect.poll(() => page.getByLabel("Name of candidate 3").inputValue()).toBe("Mine");
    await expect
      .poll(() => page.getByTestId("whole").locator("thead").innerText())
      .toContain("3 Mine (compared with)");
    await expect.poll(() => page.getByTestId("ranking").locator("li").count()).toBe(4);
    await page.getByRole("button", { name: "By dimensions" }).click();
    await page.getByRole("button", { name: /inch/ }).click();
    await expect
      .poll(() => page.getByTestId("shape-length").getByRole("textbox").inputValue())
      .toBe("250 mm");
    await page.getByTestId("shape-end").getByRole("textbox").fill("5 mm");
    await page.getByTestId("shape-end").getByRole("textbox").press("Tab");
    await page
      .getByTestId("shape-problem")
      .getByText(/is narrower than the narrowest place/)
      .waitFor();
    await expect.poll(() => page.getByTestId("shape-take").isDisabled()).toBe(true);
    expectQuiet(visited);
  });

  it("designs a leadpipe for a goal, step by step, stops with the best so far, and gives its stations", async () => {
    const visited = await open();
    const { page } = visited;
    const goal = page.getByTestId("design-goal").getByRole("textbox");
    await goal.fill("sents2=0");
    await goal.press("Tab");
    await page.getByText(/known are f, cents, height, spacing/).waitFor();
    await expect.poll(() => page.getByTestId("design-start").isDisabled()).toBe(true);
    await goal.fill("cents2=0, cents5=0, height4=32");
    await goal.press("Tab");
    await page.getByTestId("design-start").click();
    await page.getByTestId("design-stop").click();
    await page.getByTestId("design-result").waitFor({ timeout: 60_000 });
    await expect.poll(() => page.getByTestId("design-result").innerText()).toMatch(/height4\s+32\.00/);
    await candidate(page, 2)
      .getByText(/designed for cents2=0, cents5=0, height4=32/)
      .waitFor();
    await compared(page, 2);
    await page.getByTestId("stations-work").click();
    await page.getByTestId("stations").waitFor();
    await expect.poll(() => page.getByTestId("stations").locator("tbody tr").count()).toBe(25);
    await expect
      .poll(() => page.locator("annulus-design svg desc").textContent())
      .toMatch(/\d+ steps, start 1 of 3/);
    expectQuiet(visited);
  });

  it("designs a leadpipe like another candidate's, with the gap among what may change", async () => {
    const visited = await open();
    const { page } = visited;
    const like = page.getByRole("button", { name: "like another" });
    await like.click();
    await page.getByText("Add a candidate first: there is none beside the one it begins with.").waitFor();
    await expect.poll(() => page.getByTestId("design-start").isDisabled()).toBe(true);
    await invented(page);
    await page.getByTestId("design-like").selectOption({ label: "3 Long entry (invented)" });
    await page.getByTestId("design-movesGap").check();
    const widest = page.getByTestId("design-widestGap").getByRole("textbox");
    await widest.fill("30");
    await widest.press("Tab");
    await page.getByText(/The receiver is 24\.50 mm deep; give that or less/).waitFor();
    await widest.fill("0.25 in");
    await widest.press("Tab");
    await page.getByTestId("design-starts").getByRole("textbox").fill("1");
    await page.getByTestId("design-starts").getByRole("textbox").press("Tab");
    await page.getByTestId("design-start").click();
    await page.getByTestId("design-result").waitFor({ timeout: 60_000 });
    await expect
      .poll(() => page.getByTestId("design-result").innerText())
      .toMatch(
        /Gap 2\.50 mm · 0\.098 in before, assumed, not measured; designed: 2\.53 mm · 0\.100 in\.[\s\S]*height10/,
      );
    await candidate(page, 5)
      .getByText(/designed for the resonances of Long entry \(invented\)/)
      .waitFor();
    expectQuiet(visited);
  });

  it("works out hold and pull when asked", async () => {
    const { page } = await open();
    await invented(page);
    await page.getByTestId("quantity").selectOption("hold");
    await page.getByText("Not worked out yet: ask for slot width and pull above.").waitFor();
    await page.getByTestId("with-hold").check();
    await page.getByTestId("figures").waitFor({ timeout: 60_000 });
    await expect.poll(() => page.getByTestId("figures").locator("tbody tr").count()).toBe(9);
  });
});

describe("comparing for everyone", () => {
  it("is sound at every width and in every colour", async () => {
    const visited = await open({ hasModel: true });
    const { page } = visited;
    await invented(page);
    await page.getByTestId("table-text").fill(REVERSED_INCHES);
    await page.getByTestId("table-text").blur();
    await page.getByTestId("goal").getByRole("textbox").fill("2:1, 3:1, 4:1, 5:2, 6:1");
    await page.getByTestId("goal").getByRole("textbox").press("Tab");
    await page.getByTestId("curves-around").selectOption("5");
    await page.getByTestId("design-goal").getByRole("textbox").fill("cents2=0, cents5=0");
    await page.getByTestId("design-goal").getByRole("textbox").press("Tab");
    await page.getByTestId("design-start").click();
    await page.getByTestId("design-stop").click();
    await page.getByTestId("design-result").waitFor({ timeout: 60_000 });
    await page.getByTestId("stations-work").click();
    await page.getByTestId("stations").waitFor({ timeout: 30_000 });
    await compared(page, 5);
    await atRest(page);
    // a message goes by itself, on a busy machine before it could be closed
    await page
      .getByRole("button", { name: "Close this message" })
      .waitFor({ state: "hidden", timeout: 30_000 });
    await expectSoundEverywhere(page, "compare");
    await page.getByRole("button", { name: "By dimensions" }).click();
    await page.getByTestId("shape-like").click();
    await still(page);
    await picture(page, "compare-shape");
    expectQuiet(visited);
  });
});
