/** The note of each line where it ends; where they would crowd, the labels step apart and leaders follow. */
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { noteLabel } from "../../../words/instruments.ts";
import { add, px } from "../drawing.ts";
import { label, type Panel } from "../panel.ts";
import { resonanceColour } from "../tokens.ts";
import { spread } from "./spread.ts";

export interface LineEnd {
  readonly n: number;
  /** px */
  readonly x: number;
  readonly y: number;
}

/** Room beside the plot for them, in sizes of their type. */
export const END_LABEL_ROOM = 4.4;

export function endLabels(
  on: Panel,
  lines: readonly LineEnd[],
  highlight: number | undefined,
  instrument: InstrumentKind | undefined,
): void {
  const { parent, plot, size } = on;
  const apart = size + 1;
  const room = Math.max(1, Math.floor((plot.bottom - plot.top) / apart) + 1);
  const shown = thinned(
    [...lines].sort((a, b) => a.y - b.y),
    room,
    highlight,
  );
  const places = spread(
    shown.map(({ y }) => y),
    apart,
    [plot.top, plot.bottom],
  );
  shown.forEach(({ n, x, y }, i) => {
    const elbow = plot.right + 0.9 * size;
    add(parent, "path", {
      d: `M${px(x)},${px(y)}L${px(elbow)},${px(places[i])}h4`,
      stroke: resonanceColour(n),
      "stroke-width": 0.75,
    });
    const weight = n === highlight ? 700 : 500;
    label(on, noteLabel(n, instrument), elbow + 7, places[i] + 0.36 * size, { weight, class: "end-label" });
  });
}

/** At most `room` of them, evenly through their order, the highlighted one always. */
function thinned(items: readonly LineEnd[], room: number, highlight?: number): LineEnd[] {
  if (items.length <= room) return [...items];
  const kept = new Set(Array.from({ length: room }, (_, i) => Math.floor(((i + 0.5) * items.length) / room)));
  const wanted = items.findIndex(({ n }) => n === highlight);
  if (wanted >= 0 && !kept.has(wanted)) {
    const nearest = [...kept].reduce((a, b) => (Math.abs(a - wanted) <= Math.abs(b - wanted) ? a : b));
    kept.delete(nearest);
    kept.add(wanted);
  }
  return items.filter((_, i) => kept.has(i));
}
