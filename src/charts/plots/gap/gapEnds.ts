/** The numbers at the ends of a gap chart's lines. */
import { add, type Box, px, type Scale, write } from "../../kit/drawing.ts";
import { spread } from "../../kit/spread.ts";
import { resonanceColour } from "../../kit/tokens.ts";
import type { Series } from "./gapSeries.ts";

/** The number of each resonance where its line ends; where they would crowd, the labels step apart and leaders follow. */
export function labelEnds(
  parent: Element,
  series: readonly Series[],
  x: Scale,
  y: Scale,
  plot: Box,
  size: number,
  highlight?: number,
): void {
  const ends = series
    .map(({ n, samples }) => ({ n, last: samples.findLast(({ value }) => value !== null)! }))
    .sort((a, b) => y(a.last.value!) - y(b.last.value!));
  const apart = size + 1;
  const room = Math.max(1, Math.floor((plot.bottom - plot.top) / apart) + 1);
  const shown = thinned(ends, room, highlight);
  const places = spread(
    shown.map(({ last }) => y(last.value!)),
    apart,
    [plot.top, plot.bottom],
  );
  shown.forEach(({ n, last }, i) => {
    const stroke = resonanceColour(n);
    const elbow = plot.right + 0.9 * size;
    add(parent, "path", {
      d: `M${px(x(last.gapMm))},${px(y(last.value!))}L${px(elbow)},${px(places[i])}h4`,
      stroke,
      "stroke-width": 0.75,
    });
    write(parent, `${n}`, elbow + 7, places[i] + 0.36 * size, {
      size,
      weight: n === highlight ? 700 : 500,
    }).setAttribute("class", "end-label");
  });
}

/** At most `room` of them, evenly through their order, the highlighted one always. */
function thinned<T extends { readonly n: number }>(
  items: readonly T[],
  room: number,
  highlight?: number,
): T[] {
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
