/** What axe-core finds on a page. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

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
