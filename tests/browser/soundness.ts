/** What every sheet must be at every width, in both themes and in the colours of a person's own. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { expect } from "vitest";
import { picture } from "./browser.ts";
import { AT_ONCE_MS, still } from "./still.ts";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** A finger's page is laid out otherwise than a mouse's. */
export const SIZES = [
  { size: "phone", width: 390, height: 844, touch: true },
  { size: "tablet", width: 820, height: 1180, touch: true },
  { size: "laptop", width: 1280, height: 900, touch: false },
  { size: "projector", width: 1920, height: 1080, touch: false },
] as const;

/** The rules of axe-core whose answer depends on the colours; a theme changes no other. */
const OF_COLOUR = ["color-contrast", "link-in-text-block"];

/**
 * The page as it stands is sound at every size: axe-core finds nothing serious, nothing runs over the edge. Looked at once in
 * each theme, and with forced colours; a picture of each is taken. Leaves the page at a laptop's size, light.
 */
export async function expectSoundEverywhere(page: Page, name: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const found: string[] = [];
  const look = async (where: string, rules?: readonly string[]): Promise<void> => {
    // colours are all in the style sheets: with others nothing is worked out or drawn anew
    await (rules === OF_COLOUR ? still(page, AT_ONCE_MS) : still(page));
    await picture(page, `${name}-${where}`);
    const said = [...(await overTheEdge(page)), ...(await serious(page, rules))];
    found.push(...said.map((text) => `${name} ${where}: ${text}`));
  };
  for (const { size, width, height, touch } of SIZES) {
    await session.send("Emulation.setTouchEmulationEnabled", { enabled: touch });
    await page.setViewportSize({ width, height });
    await page.emulateMedia({ colorScheme: "light" });
    await page.evaluate(() => scrollTo(0, 0));
    await look(`${size}-light`);
    await page.emulateMedia({ colorScheme: "dark" });
    await look(`${size}-dark`, OF_COLOUR);
  }
  await session.send("Emulation.setTouchEmulationEnabled", { enabled: false });
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme: "light", forcedColors: "active" });
  await look("forced-colours", OF_COLOUR);
  await page.emulateMedia({ forcedColors: "none" });
  await session.detach();
  expect(found).toEqual([]);
}

/** At the size and in the colours that it has: for a page that does not come to rest. */
export async function expectSound(page: Page): Promise<void> {
  expect([...(await overTheEdge(page)), ...(await serious(page))]).toEqual([]);
}

export async function expectWithinEdges(page: Page): Promise<void> {
  expect(await overTheEdge(page)).toEqual([]);
}

async function overTheEdge(page: Page): Promise<string[]> {
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  return overflow > 0 ? [`the page is ${overflow} pixels wider than its window`] : [];
}

/** Serious and critical findings, in words. */
async function serious(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  return page.evaluate(async (rules) => {
    const { violations } = await (window as any).axe.run(document, {
      resultTypes: ["violations"],
      ...(rules && { runOnly: { type: "rule", values: rules } }),
    });
    return violations
      .filter(({ impact }: { impact: string }) => impact === "serious" || impact === "critical")
      .map(
        ({ id, nodes }: { id: string; nodes: { target: unknown; failureSummary: string }[] }) =>
          `${id}: ${JSON.stringify(nodes[0].target)} ${nodes[0].failureSummary}`,
      );
  }, rules);
}
