/** What every sheet must be at every width and in both themes: nothing axe-core calls serious, nothing over the edge. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { expect } from "vitest";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const SIZES = [
  ["phone", 390, 844],
  ["laptop", 1280, 900],
  ["projector", 1920, 1080],
] as const;

export async function expectSound(page: Page): Promise<void> {
  expect(await serious(page)).toEqual([]);
  await expectWithinEdges(page);
}

export async function expectWithinEdges(page: Page): Promise<void> {
  const overflow = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(overflow).toBeLessThanOrEqual(0);
}

/** Serious and critical findings, in words. */
export async function serious(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { violations } = await (window as any).axe.run(document, { resultTypes: ["violations"] });
    return violations
      .filter(({ impact }: { impact: string }) => impact === "serious" || impact === "critical")
      .map(
        ({ id, nodes }: { id: string; nodes: { target: unknown; failureSummary: string }[] }) =>
          `${id}: ${JSON.stringify(nodes[0].target)} ${nodes[0].failureSummary}`,
      );
  });
}
