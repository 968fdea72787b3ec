/** From the hand's last key or click to all that the page then says. */
import type { Page } from "playwright-core";
import type { Row } from "./bench.ts";
import { AT, type PageBench } from "./chromium.ts";

const NAMES = {
  felt: "page: all felt verdicts, both lip models, after a new gap",
  edit: "page: an edit of the bore to sentence and charts",
  slurs: "page: a hundred slurs at each of two gaps",
  report: "page: the report ready, of a job that was worked out before",
};
const GOALS = { felt: 0.7, edit: 0.4, slurs: 6, report: 1 };
type Answer = keyof typeof NAMES;

const row = (answer: Answer, ms: number | null): Row => ({
  name: NAMES[answer],
  value: ms === null ? null : ms / 1000,
  goal: GOALS[answer],
  unit: "s",
  better: "less",
});

export const ABSENT_ANSWERS: readonly Row[] = (Object.keys(NAMES) as Answer[]).map((one) => row(one, null));

/** Explore with all its answers there. */
const settled = (page: Page): Promise<void> =>
  page
    .getByTestId("headline")
    .getByText(/Slotting:/)
    .waitFor();

/** Of several gaps the shortest: the machine's own noise only ever adds. */
async function felt({ visit }: PageBench): Promise<number> {
  const page = await visit();
  await settled(page);
  const times: number[] = [];
  for (const gap of ["4.00", "1.50", "3.30"]) {
    const field = page.getByTestId("gap-field");
    await field.fill(`${gap} mm`);
    await field.press("Enter");
    times.push(
      await page.evaluate(
        async ([at, change]) => {
          const { find, when } = window.bench;
          const isSaid = () => {
            const verdicts = find(at)!.shadowRoot!;
            const headline = verdicts.querySelector("[data-testid=headline]")!.textContent!;
            return (
              headline.includes(`gap by ${change} mm`) &&
              headline.includes("Slotting:") &&
              !verdicts.querySelector("article[aria-busy=true]") &&
              !/being worked out/.test(verdicts.textContent!)
            );
          };
          return (await when(isSaid)) - window.bench.hand;
        },
        [AT.verdicts, Math.abs(Number(gap) - 2.5).toFixed(2)] as const,
      ),
    );
  }
  await page.context().close();
  return Math.min(...times);
}

async function edit({ visit }: PageBench): Promise<number> {
  const page = await visit();
  await settled(page);
  await page.getByTestId("edit-instrument").click();
  const editor = page.locator("annulus-editor");
  await editor.getByText("Leadpipe", { exact: true }).click();
  const cell = editor
    .locator('annulus-profile-table[bore="leadpipe"]')
    .getByLabel("Inner diameter, row 1", { exact: true });
  if (!(await cell.isVisible())) await editor.getByText("Bore profile").nth(1).click();
  const times: number[] = [];
  for (const diameter of ["9.2", "8.7", "9.1"]) {
    await cell.fill(diameter);
    const before = await page.evaluate(({ sentence, curve }) => {
      const { find } = window.bench;
      return [find(sentence)!.textContent, find(curve)!.getAttribute("d")] as const;
    }, AT);
    await cell.press("Enter");
    times.push(
      await page.evaluate(
        async ([at, [sentence, curve]]) => {
          const { find, when } = window.bench;
          const isNew = () =>
            find(at.sentence)?.textContent !== sentence && find(at.curve)?.getAttribute("d") !== curve;
          return (await when(isNew)) - window.bench.hand;
        },
        [AT, before] as const,
      ),
    );
    await page.waitForTimeout(1500);
  }
  await page.context().close();
  return Math.min(...times);
}

async function slurs({ visit }: PageBench): Promise<number> {
  const page = await visit({ hash: "#play" });
  const runs = page.getByTestId("leap-runs").locator("input");
  await runs.fill("100");
  await runs.press("Tab");
  await page.getByTestId("start-leaps").click();
  const ms = await page.evaluate(async (at) => {
    const { find, when } = window.bench;
    return (await when(() => / of 100 /.test(find(at)?.textContent ?? ""))) - window.bench.hand;
  }, AT.slurs);
  await page.context().close();
  return ms;
}

/** From the moment the page is asked for anew. */
async function report({ visit }: PageBench): Promise<number> {
  const page = await visit({ hash: "#sheet" });
  const status = page.getByTestId("sheet-status").filter({ hasText: /^Ready/ });
  await status.waitFor();
  await page.waitForTimeout(1500);
  const times: number[] = [];
  for (let i = 0; i < 3; i++) {
    await page.reload({ waitUntil: "commit" });
    times.push(
      await page.evaluate((at) => {
        const { find, when } = window.bench;
        return when(() => find(at)?.textContent?.trim().startsWith("Ready"));
      }, AT.report),
    );
  }
  await page.context().close();
  return Math.min(...times);
}

export async function answerRows(bench: PageBench): Promise<readonly Row[]> {
  return [
    row("felt", await felt(bench)),
    row("edit", await edit(bench)),
    row("slurs", await slurs(bench)),
    row("report", await report(bench)),
  ];
}
