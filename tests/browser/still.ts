/** Waiting for what a page has still to do, by what can be seen of it and never by the clock on the wall. */
import type { Page } from "playwright-core";
import { expect } from "vitest";

/** Longer than the page puts off drawing what is out of sight, and than it goes on showing an old answer as if new. */
const QUIET_MS = 300;

/** Some frames: for what is drawn at once or not at all, as other colours are. */
export const AT_ONCE_MS = 50;

/**
 * The page has come to rest: its own letters are there, which come after the first curve, nothing is being worked out anew, no animation with an end runs, and nothing
 * in any of its shadows has changed for a while.
 */
export const still = (page: Page, quietMs = QUIET_MS): Promise<void> =>
  page.evaluate(async (quietMs) => {
    const isOwn = ({ family, status }: FontFace) => family.includes("Source Sans 3") && status === "loaded";
    while (![...document.fonts].some(isOwn)) await new Promise(requestAnimationFrame);
    await document.fonts.ready;
    await new Promise<void>((done, fail) => {
      const roots = new Set<Document | ShadowRoot>();
      let last = "nothing yet";
      const observer = new MutationObserver(([{ target }]) => {
        last = target instanceof Element ? target.outerHTML.slice(0, 200) : (target.textContent ?? "");
        watch(document);
        wait();
      });
      const watch = (root: Document | ShadowRoot) => {
        if (!roots.has(root))
          observer.observe(root, { subtree: true, childList: true, attributes: true, characterData: true });
        roots.add(root);
        for (const { shadowRoot } of root.querySelectorAll("*")) if (shadowRoot) watch(shadowRoot);
      };
      const isMoving = (root: Document | ShadowRoot) =>
        root.querySelector("[aria-busy=true]") !== null ||
        root
          .getAnimations()
          .some(
            ({ playState, effect }) =>
              playState === "running" && effect?.getComputedTiming().endTime !== Number.POSITIVE_INFINITY,
          );
      let timer: ReturnType<typeof setTimeout>;
      const wait = () => {
        clearTimeout(timer);
        timer = setTimeout(() => ([...roots].some(isMoving) ? wait() : end(done)), quietMs);
      };
      const end = (then: () => void) => {
        clearTimeout(timer);
        clearTimeout(limit);
        observer.disconnect();
        then();
      };
      const limit = setTimeout(() => end(() => fail(new Error(`the page does not rest: ${last}`))), 60_000);
      watch(document);
      wait();
    });
  }, quietMs);

/** What the tab keeps over a reload has come to hold this. */
export const keptInTab = (page: Page, words: RegExp): Promise<void> =>
  expect.poll(() => page.evaluate(() => sessionStorage.getItem("annulus-autosave") ?? "")).toMatch(words);

/** This much of the page's own time has gone by. */
export async function passed(page: Page, ms: number): Promise<void> {
  const from = await page.evaluate(() => performance.now());
  await page.waitForFunction((until) => performance.now() > until, from + ms);
}
