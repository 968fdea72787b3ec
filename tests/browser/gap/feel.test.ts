import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { expectQuiet, useBrowser } from "../browser.ts";
import { expectSoundEverywhere } from "../soundness.ts";
import { answered, gapText } from "./sheet.ts";

const { visit } = useBrowser();
/** Lips take their time, on a busy machine most of all. */
const LONG = { timeout: 100_000 };

/** Both felt verdicts of Explore are there. */
const felt = async (page: Page): Promise<void> => {
  await page
    .getByTestId("verdict-slots")
    .getByText(/^Slot width /)
    .waitFor(LONG);
  await page
    .getByTestId("verdict-noGap")
    .getByText(/Backpressure: pressure drop/)
    .waitFor(LONG);
};

describe("how it feels, in Explore", () => {
  it("has its verdicts from the model, with numbers and thresholds, and is sound with them", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    await felt(page);
    const slots = await page.getByTestId("verdict-slots").innerText();
    expect(slots).toMatch(
      /Slot width −\d+\.\d to \+\d+\.\d cents, .* on average \(.* over the lips tried, on this drawing only: one-mass lips .*, two-way lips .*; just noticeable: 20 cents/,
    );
    expect(slots).toMatch(/(At half of|The same at half)/);
    await page.getByTestId("verdict-slots").locator("summary").click();
    expect(await page.getByTestId("verdict-slots").innerText()).toMatch(
      /By the peaks alone: too small to notice/,
    );
    await page.getByTestId("other-claims").locator("summary").click();
    for (const claim of ["tooWide", "tooNarrow", "attack", "brightness", "octaves", "shoulder", "sameMake"])
      expect(await page.getByTestId(`verdict-${claim}`).innerText()).not.toMatch(/^being|NaN|undefined/);
    expect(await page.getByTestId("just-noticeable").innerText()).toMatch(/Kopiez 2003/);
    const resistance = await page.getByTestId("verdict-resistance").innerText();
    expect(resistance).toMatch(/Backpressure: pressure drop .* % at 20 L\/min .* between the bounds/);
    expect(resistance).toMatch(
      /Starting pressures .* % \(.* over the lips tried, on this drawing only: one-mass lips .*, two-way lips .*\)/,
    );
    expect(resistance).toMatch(/Just noticeable: 10 %/);
    await expect.poll(() => page.getByTestId("verdict-noGap").innerText()).toMatch(/as if the leadpipe were/);
    await expectSoundEverywhere(page, "explore-felt");
    expectQuiet(visited);
  });

  it("is there at once at the next visit, the same and worked out by nobody; another gap is asked for anew", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    await felt(page);
    const verdicts = () =>
      Promise.all(["verdict-slots", "verdict-noGap"].map((one) => page.getByTestId(one).innerText()));
    const before = await verdicts();
    const feels = () => page.workers().filter((worker) => /feel\.worker/.test(worker.url())).length;
    expect(feels()).toBe(1);
    await page.reload();
    await answered(page);
    await felt(page);
    expect(await verdicts()).toEqual(before);
    expect(feels()).toBe(0);
    await page.getByTestId("gap-field").fill("4 mm");
    await page.getByTestId("gap-field").press("Enter");
    await expect.poll(feels).toBe(1);
    expectQuiet(visited);
  });

  it("never holds up a drag: the gap follows while the lips are being worked out, and they begin anew after it", async () => {
    const visited = await visit();
    const { page } = visited;
    await answered(page);
    await page.getByTestId("verdict-slots").locator("progress").waitFor(LONG);
    const shank = (await page.getByTestId("shank").boundingBox())!;
    const [x, y] = [shank.x + shank.width / 2, shank.y + shank.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    const seen = new Set<string>();
    for (let i = 1; i <= 12; i++) {
      await page.mouse.move(x + 3 * i, y);
      await page.evaluate(
        () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
      );
      seen.add(await gapText(page));
    }
    expect(seen.size).toBeGreaterThan(8);
    // while the hand is on it nothing is worked out
    await expect.poll(() => page.getByTestId("verdict-slots").locator("progress").count()).toBe(0);
    await page.mouse.up();
    await felt(page);
    await expect.poll(() => page.getByTestId("verdict-slots").getByTestId("working").count()).toBe(0);
    expectQuiet(visited);
  });
});

describe("how it feels, where it is played", () => {
  it("shows slots and resistance with all that charts have, is sound, takes other lips and goes back to the usual ones, and leaps on demand", async () => {
    const visited = await visit({ hash: "#play" });
    const { page } = visited;
    for (const chart of ["slots", "hold-against-gap", "pressure-drop", "height-against-level"])
      await page
        .getByTestId(chart)
        .locator("svg")
        .waitFor({ ...LONG, state: "attached" });
    await expect
      .poll(() => page.getByTestId("stream-finding").innerText())
      .toMatch(
        /The gap takes \d\.\d % of the whole .* too small to notice \(just noticeable: 10 %\)\. A leadpipe .* narrower/,
      );
    await page.getByTestId("lips").locator("summary").click();
    await expectSoundEverywhere(page, "play-felt");
    await expectOtherLips(page);
    await expectLeaps(page);
    expectQuiet(visited);
  });

  /** Other lips, in the fields that are open: what cannot be read is kept with its reason, and the usual ones come back. */
  async function expectOtherLips(page: Page): Promise<void> {
    const finding = page.getByTestId("slots-finding");
    await finding.waitFor(LONG);
    const before = await finding.innerText();
    const quality = page.getByTestId("lips-quality").locator("input");
    await quality.fill("many");
    await quality.press("Tab");
    await page
      .getByTestId("lips-quality")
      .getByText(/"many" is not a number; give a number from 0\.5 to 1000/)
      .waitFor();
    await expect.poll(() => quality.inputValue()).toBe("many");
    await quality.fill("4");
    await quality.press("Tab");
    await expect.poll(() => finding.innerText(), LONG).not.toBe(before);
    await page.getByTestId("usual-lips").click();
    await expect.poll(() => quality.inputValue()).toBe("");
    await expect.poll(() => finding.innerText(), LONG).toBe(before);
  }

  /** Leaps, in workers of their own, which stop when told to. */
  async function expectLeaps(page: Page): Promise<void> {
    const runs = page.getByTestId("leap-runs").locator("input");
    await runs.fill("3");
    await runs.press("Tab");
    await page.getByTestId("start-leaps").click();
    await page
      .getByTestId("leaps-finding")
      .getByText(/of 3 .* cannot tell the two gaps apart/)
      .waitFor(LONG);
    await page.getByTestId("start-leaps").waitFor(LONG);
    await runs.fill("5000");
    await runs.press("Tab");
    await page.getByTestId("start-leaps").click();
    await page.getByTestId("stop-leaps").click();
    await page.getByTestId("start-leaps").waitFor();
  }
});
