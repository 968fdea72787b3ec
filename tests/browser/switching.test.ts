/** Going from task to task all day leaves nothing behind: what a task has drawn and listens to goes with it. */
import type { CDPSession, Page } from "playwright-core";
import { expect, it } from "vitest";
import { TASKS } from "../../src/app/shell/route.ts";
import { expectQuiet, useBrowser } from "./browser.ts";
import { answered } from "./gap/sheet.ts";
import { passed } from "./still.ts";

const { visit } = useBrowser();

/** Task after task, each drawn before the next. */
const goRound = (page: Page, switches: number): Promise<void> =>
  page.evaluate(
    async ([tasks, count]) => {
      const isDrawn = (task: string): boolean => {
        const app = document.querySelector("annulus-app")!.shadowRoot!;
        const [place, sheet] =
          task === "edit"
            ? ["annulus-editor-region", "annulus-editor"]
            : ["annulus-task-sheet", `annulus-${task}`];
        const element = app.querySelector(place)!.shadowRoot!.querySelector(sheet) as any;
        return element?.hasUpdated === true;
      };
      for (let i = 0; i < count; i++) {
        const task = tasks[i % tasks.length];
        location.hash = task;
        do await new Promise(requestAnimationFrame);
        while (!isDrawn(task));
      }
    },
    [TASKS, switches] as const,
  );

async function counted(session: CDPSession): Promise<{ listeners: number; nodes: number }> {
  // what one collection frees may let go of more
  for (let i = 0; i < 3; i++) await session.send("HeapProfiler.collectGarbage");
  const { metrics } = await session.send("Performance.getMetrics");
  const of = (name: string) => metrics.find((metric) => metric.name === name)!.value;
  return { listeners: of("JSEventListeners"), nodes: of("Nodes") };
}

/** Once what a task was still being answered has come and gone: an answer under way holds who asked for it. */
async function settled(page: Page, session: CDPSession): Promise<{ listeners: number; nodes: number }> {
  let last = await counted(session);
  for (let alike = 0; alike < 4; ) {
    await passed(page, 1000);
    const now = await counted(session);
    alike = now.nodes === last.nodes && now.listeners === last.listeners ? alike + 1 : 0;
    last = now;
  }
  return last;
}

it("keeps no listener and no node over 200 switches of task", async () => {
  const visited = await visit();
  const { page, context } = visited;
  await answered(page);
  const session = await context.newCDPSession(page);
  await session.send("Performance.enable");
  // every task's code is there, and what is kept once for each
  await goRound(page, 3 * TASKS.length);
  const before = await settled(page, session);
  // whole rounds, so that it is counted where it was counted first
  await goRound(page, Math.ceil(200 / TASKS.length) * TASKS.length);
  const after = await settled(page, session);
  console.info({ before, after });
  expect(after.listeners - before.listeners).toBeLessThan(20);
  expect(after.nodes - before.nodes).toBeLessThan(200);
  expectQuiet(visited);
});
