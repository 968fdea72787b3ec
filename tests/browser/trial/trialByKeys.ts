/** A blind trial planned, sealed and played by keys alone. */
import type { Page } from "playwright-core";
import { expect } from "vitest";
import type { Trial } from "../../../src/trial/trial.ts";
import { tabTo } from "../keyboard.ts";

/** All trials as the browser keeps them. */
export const allKept = (page: Page): Promise<Trial[]> =>
  page.evaluate(() => JSON.parse(sessionStorage.getItem("annulus-autosave")!).document.notes.trial.trials);

/** The newest trial as the browser keeps it. */
export const kept = async (page: Page): Promise<Trial> => (await allKept(page)).at(-1)!;

/** Reloads the page as if its newest trial had been kept like this: newer than anything that the page writes while it goes. */
export async function reloadWith(page: Page, trial: Trial): Promise<void> {
  await page.evaluate((trial) => {
    const kept = JSON.parse(sessionStorage.getItem("annulus-autosave")!);
    const notes = kept.document.notes.trial;
    notes.trials = [...notes.trials.slice(0, -1), trial];
    notes.shown = trial.id;
    kept.stamp = Date.now() + 60_000;
    addEventListener("pagehide", () => {
      for (const shelf of [sessionStorage, localStorage])
        shelf.setItem("annulus-autosave", JSON.stringify(kept));
    });
  }, trial);
  await page.reload();
}

/** Types the gaps, mm, one after the other, and how often each is played. */
export async function plan(page: Page, gaps: readonly string[], repeats = 2): Promise<void> {
  for (const [i, gap] of gaps.entries()) {
    await page.getByRole("textbox", { name: `gap ${i + 1}`, exact: true }).focus();
    await page.keyboard.type(gap);
    await page.keyboard.press("Tab");
  }
  const field = page.getByRole("textbox", { name: "Repeats", exact: true });
  await field.fill(`${repeats}`);
  await field.press("Tab");
}

export async function seal(page: Page): Promise<Trial> {
  await page.getByTestId("seal").press("Enter");
  await page.getByTestId("code").waitFor();
  const code = await page.getByTestId("code").innerText();
  await expect.poll(async () => (await kept(page))?.turns[0].code).toBe(code);
  return kept(page);
}

/** A turn is there to be rated: its code, and a moment later the focus on its first scale. */
export async function atTurn(page: Page, code: string): Promise<void> {
  await page.getByTestId("code").filter({ hasText: code }).waitFor();
  const first = page.getByRole("slider", { name: "Slotting", exact: true });
  const hasFocus = () =>
    first.evaluate((slider) => (slider.getRootNode() as ShadowRoot).activeElement === slider);
  await expect.poll(hasFocus).toBe(true);
}

/** Rates all four scales alike, in steps of ten, from the slider that has the focus, and goes on. */
async function rate(page: Page, tens: number): Promise<void> {
  for (let scale = 0; scale < 4; scale++) {
    await page.keyboard.press("Home");
    for (let i = 0; i < tens; i++) await page.keyboard.press("PageUp");
    if (scale < 3) await page.keyboard.press("Tab");
  }
  await tabTo(page, "next");
  await page.keyboard.press("Enter");
}

/** @param liking of a turn, in tens of 100 */
export async function playAll(
  page: Page,
  { turns }: Trial,
  liking: (at: number) => number,
  from = 0,
  to = turns.length,
): Promise<void> {
  for (let at = from; at < to; at++) {
    if (at === from) await page.getByRole("slider", { name: "Slotting", exact: true }).focus();
    await atTurn(page, turns[at].code);
    await rate(page, liking(at));
  }
}
