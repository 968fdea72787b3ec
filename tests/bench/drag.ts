/**
 * A drag of the shank: from every move of the pointer to the redrawn chart, to the frame that shows it and to the one that shows
 * the sentence, and how long the page stood still. What is redrawn waits for the screen's next beat, up to 16.7 ms, which
 * no program can take from it.
 */
import type { Row } from "./bench.ts";
import { AT, type PageBench, slowedDown } from "./chromium.ts";

const MOVES = 120;
const SLOWDOWN = 6;

interface Drag {
  /** ms from each move until the chart has been redrawn. */
  readonly redrawn: readonly number[];
  /** ms from each move to the frame painted that has its curve, its sentence. */
  readonly curves: readonly number[];
  readonly sentences: readonly number[];
  /** ms between two frames, the longest. */
  readonly longestFrame: number;
}

const rows = (
  redrawn: number | null,
  curve: number | null,
  sentence: number | null,
  frame: number | null,
  slowed: number | null,
): readonly Row[] => [
  {
    name: "page: gap drag to redrawn charts, 95th percentile",
    value: redrawn,
    goal: 16,
    unit: "ms",
    better: "less",
  },
  {
    name: "page: gap drag to the frame that shows them, 95th percentile",
    value: curve,
    goal: null,
    unit: "ms",
    better: "less",
  },
  {
    name: "page: gap drag to the sentence, 95th percentile",
    value: sentence,
    goal: 50,
    unit: "ms",
    better: "less",
  },
  { name: "page: longest frame of a gap drag", value: frame, goal: 50, unit: "ms", better: "less" },
  {
    name: `page: gap drag to redrawn charts, 95th percentile, processor ${SLOWDOWN} times slower`,
    value: slowed,
    goal: 60,
    unit: "ms",
    better: "less",
  },
];

export const ABSENT_DRAG = rows(null, null, null, null, null);

async function dragged({ visit }: PageBench, slowdown: number): Promise<Drag> {
  const page = await visit();
  await page
    .getByTestId("headline")
    .getByText(/Slotting:/)
    .waitFor();
  await page.waitForTimeout(1500);
  if (slowdown !== 1) await slowedDown(page, slowdown);
  const shank = await page.getByTestId("shank").elementHandle();
  const box = (await shank!.boundingBox())!;
  const drag = await page.evaluate(
    async ([element, at, x0, y0, count]) => {
      const { find, painted } = window.bench;
      const send = (type: string, dx: number) =>
        element!.dispatchEvent(
          new PointerEvent(type, {
            pointerId: 1,
            isPrimary: true,
            button: 0,
            buttons: type === "pointerup" ? 0 : 1,
            clientX: x0 + dx,
            clientY: y0,
            bubbles: true,
            composed: true,
            cancelable: true,
          }),
        );
      const never = { redrawn: Number.NaN, shown: Number.NaN };
      const changed = (within: Node, since: number) =>
        new Promise<typeof never>((resolve) => {
          const observer = new MutationObserver(() => {
            const redrawn = performance.now() - since;
            observer.disconnect();
            void painted().then((now) => resolve({ redrawn, shown: now - since }));
          });
          observer.observe(within, { childList: true, subtree: true, attributes: true, characterData: true });
          setTimeout(() => resolve(never), 1000);
        });
      const chart = find(at.chart)!.shadowRoot!;
      const sentence = find(at.sentence)!;
      const redrawn: number[] = [];
      const curves: number[] = [];
      const sentences: number[] = [];
      let longestFrame = 0;
      let last = performance.now();
      let isDragging = true;
      const tick = (now: number) => {
        longestFrame = Math.max(longestFrame, now - last);
        last = now;
        if (!isDragging) return;
        // every frame is watched from its start: what is drawn while one is made counts to that one, not to the next
        void painted();
        requestAnimationFrame(tick);
      };
      send("pointerdown", 0);
      await new Promise((resolve) => requestAnimationFrame(resolve));
      last = performance.now();
      requestAnimationFrame(tick);
      for (let i = 1; i <= count; i++) {
        await new Promise((resolve) => setTimeout(resolve, 40));
        const since = performance.now();
        const both = [changed(chart, since), changed(sentence, since)];
        send("pointermove", i % 40 < 20 ? i % 40 : 40 - (i % 40));
        const [curve, said] = await Promise.all(both);
        redrawn.push(curve.redrawn);
        curves.push(curve.shown);
        sentences.push(said.shown);
      }
      isDragging = false;
      send("pointerup", 0);
      return { redrawn, curves, sentences, longestFrame };
    },
    [shank, AT, box.x + box.width / 2, box.y + box.height / 2, MOVES] as const,
  );
  await page.context().close();
  return drag;
}

function percentile95(times: readonly number[], what: string): number {
  const drawn = times.filter(Number.isFinite).sort((a, b) => a - b);
  if (drawn.length < MOVES / 2) throw new Error(`only ${drawn.length} of ${MOVES} moves changed the ${what}`);
  return drawn[Math.floor(0.95 * drawn.length)];
}

export async function dragRows(bench: PageBench): Promise<readonly Row[]> {
  const { redrawn, curves, sentences, longestFrame } = await dragged(bench, 1);
  const slowed = await dragged(bench, SLOWDOWN);
  return rows(
    percentile95(redrawn, "curve"),
    percentile95(curves, "curve"),
    percentile95(sentences, "sentence"),
    longestFrame,
    percentile95(slowed.redrawn, "curve"),
  );
}
