import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { expectQuiet, picture, useBrowser } from "./browser.ts";

const { visit } = useBrowser();

/** The smallest text of the figure that is shown, px on the screen. */
const smallestText = (page: Page) =>
  page.getByTestId("projector-page").evaluate((dialog) => {
    const within = (root: Element | ShadowRoot): Element[] =>
      Array.from(root.querySelectorAll("*")).flatMap((one) => [
        ...(one instanceof SVGTextElement ? [one] : []),
        ...(one.shadowRoot ? within(one.shadowRoot) : []),
      ]);
    const sizes = within(dialog).map((text) => {
      const svg = (text as SVGTextElement).ownerSVGElement!;
      return (
        Number.parseFloat(getComputedStyle(text).fontSize) *
        (svg.getBoundingClientRect().width / svg.viewBox.baseVal.width)
      );
    });
    return sizes.length > 0 ? Math.min(...sizes) : 0;
  });

it("Explore shows one figure at a time, with type of 30 px and more at 1920 × 1080, by arrow keys", async () => {
  const visited = await visit({ hash: "#explore" });
  const { page } = visited;
  await page.setViewportSize({ width: 1920, height: 1080 });
  await page.getByTestId("impedance").locator("svg").first().waitFor();
  await page.getByTestId("projector").click();
  const shown = page.getByTestId("projector-page");
  const place = shown.getByTestId("projector-place");
  for (let i = 1; i <= 6; i++) {
    await expect.poll(() => place.innerText()).toBe(`${i} of 6`);
    await expect.poll(() => smallestText(page), { message: `figure ${i}` }).toBeGreaterThanOrEqual(30);
    expect((await shown.getByTestId("projector-note").innerText()).length).toBeGreaterThan(40);
    await picture(page, `projector-explore-${i}`);
    // nothing is beside or below the screen
    const over = await shown.evaluate(({ scrollWidth, scrollHeight }) => [scrollWidth, scrollHeight]);
    expect(over[0]).toBeLessThanOrEqual(1920);
    expect(over[1]).toBeLessThanOrEqual(1080);
    await page.keyboard.press("ArrowRight");
  }
  await page.keyboard.press("PageUp");
  await expect.poll(() => place.innerText()).toBe("5 of 6");
  const before = await shown.getByTestId("projector-gap").innerText();
  await page.keyboard.press("ArrowUp");
  await expect.poll(() => shown.getByTestId("projector-gap").innerText()).not.toBe(before);
  await page.keyboard.press("ArrowDown");
  await expect.poll(() => shown.getByTestId("projector-gap").innerText()).toBe(before);
  await page.keyboard.press("Escape");
  await expect.poll(() => shown.count()).toBe(0);
  expectQuiet(visited);
});

it("Play shows its figures on a projector too, with what sounds and the stream", async () => {
  const visited = await visit({ hash: "#play" });
  const { page } = visited;
  await page.setViewportSize({ width: 1920, height: 1080 });
  await page.getByTestId("slots").locator("rect").first().waitFor();
  await page.getByTestId("projector").click();
  const shown = page.getByTestId("projector-page");
  for (let i = 1; i <= 4; i++) {
    await expect.poll(() => shown.getByTestId("projector-place").innerText()).toBe(`${i} of 4`);
    await expect.poll(() => smallestText(page), { message: `figure ${i}` }).toBeGreaterThanOrEqual(30);
    expect((await shown.getByTestId("projector-note").innerText()).length).toBeGreaterThan(40);
    await picture(page, `projector-play-${i}`);
    const over = await shown.evaluate(({ scrollWidth, scrollHeight }) => [scrollWidth, scrollHeight]);
    expect(over[0]).toBeLessThanOrEqual(1920);
    expect(over[1]).toBeLessThanOrEqual(1080);
    await page.keyboard.press("PageDown");
  }
  await page.keyboard.press("Escape");
  await expect.poll(() => shown.count()).toBe(0);
  expectQuiet(visited);
});
