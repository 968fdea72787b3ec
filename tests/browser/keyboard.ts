/** A page walked by keyboard alone. */
import type { Page } from "playwright-core";

/** What has the focus, within all shadows: the label of a field, else the test id, label or text. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let at: Element | null = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    if (at instanceof HTMLInputElement && at.type === "text") return at.labels?.[0]?.textContent ?? "";
    if (at instanceof HTMLTextAreaElement && !at.dataset.testid) return at.labels?.[0]?.textContent ?? "";
    return at?.getAttribute("data-testid") ?? at?.getAttribute("aria-label") ?? at?.textContent?.trim() ?? "";
  });

/** Walks by Tab until what has the focus is called so. */
export async function tabTo(page: Page, name: string, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
  for (let i = 0; i < 250; i++) {
    await page.keyboard.press(key);
    if ((await focused(page)) === name) return;
  }
  throw new Error(`no ${key} leads to ${name}`);
}
