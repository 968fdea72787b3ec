/** What charts against gap have in common under a hand: a read-out line that follows it, and arrow keys that lead it. */

import type { GapDrawing } from "../../charts/plots/gap/gapChart.ts";
import { shownGaps } from "../../setup/gapLimits.ts";
import { bothUnits } from "../../words/numbers.ts";
import { keyMove } from "../form/gap/gapSteps.ts";
import type { Page } from "../state/page.ts";
import type { PageFigure, ShownChart } from "./pageFigure.ts";

type Gaps = Parameters<GapDrawing["move"]>[0];

/** Its gap lines alone follow the hand. */
export const gapLines = {
  followsHand: false,
  followed: ({ store }, { parts: { gapMm } }) => ({
    chosenGapMm: store.parts.document.gapMm,
    ...(gapMm !== null && { cursorGapMm: gapMm }),
  }),
  follow: ({ drawing }, gaps) => (drawing as GapDrawing).move(gaps),
} as const satisfies Partial<PageFigure<unknown, Gaps>>;

/** The gaps on the axis, mm. */
export function gapsShown({ store }: Page): [low: number, high: number] {
  const { setup, gapMm, referenceGapMm } = store.parts.document;
  const { leastMm, mostMm } = shownGaps(setup);
  return [leastMm, Math.max(mostMm, gapMm, referenceGapMm)];
}

/** Where the read-out line stands, or would begin to move. */
export const readGapMm = ({ page, cursor }: ShownChart): number =>
  cursor.value.gapMm ?? page.store.state.document.gapMm;

/**
 * Left and right move the line, Enter takes its gap, Escape puts it away.
 * @param found what is said of the gap that the line has come to
 */
export function moveGapLine(
  event: KeyboardEvent,
  chart: ShownChart,
  found?: (gapMm: number) => string,
): void {
  const { page, cursor } = chart;
  const { unit } = page.store.state.view;
  if (event.key === "Enter") page.store.setGap(readGapMm(chart));
  if (event.key === "Escape") cursor.leave();
  const move = keyMove(event, unit);
  if (move === null) return;
  event.preventDefault();
  const [low, high] = gapsShown(page);
  const gapMm = Math.min(high, Math.max(low, readGapMm(chart) + move));
  cursor.point({ gapMm });
  chart.say(`gap ${bothUnits(gapMm, unit)}${found ? `, ${found(gapMm)}` : ""}`);
}
