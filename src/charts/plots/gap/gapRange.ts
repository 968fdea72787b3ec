/** Which lines of a gap chart have a name, and the range that all notes together lie in. */
import type { Point } from "../../kit/drawing.ts";
import type { Series } from "./gapSeries.ts";

/** The notes that go furthest up and down over the whole sweep, in this order, and the one that stands out at last, over them. */
export function namedOf(series: readonly Series[], highlight: number | undefined): Series[] {
  const others = series
    .filter(({ n }) => n !== highlight)
    .map((one) => ({ one, end: one.samples.findLast(({ value }) => value !== null)!.value! }))
    .sort((a, b) => b.end - a.end);
  const furthest = others.length < 2 ? others : [others[0], others[others.length - 1]];
  const chosen = series.find(({ n }) => n === highlight);
  return [...furthest.map(({ one }) => one), ...(chosen ? [chosen] : [])];
}

/** The areas between the lowest and the highest of all notes; a gap at which none has a value parts them. */
export function rangeAreas(
  series: readonly Series[],
  place: (gapMm: number, value: number) => Point,
): Point[][] {
  const gapsMm = series[0]?.samples.map(({ gapMm }) => gapMm) ?? [];
  const areas: [Point[], Point[]][] = [];
  let isOpen = false;
  gapsMm.forEach((gapMm, i) => {
    const values = series.flatMap(({ samples }) => samples[i].value ?? []);
    if (values.length > 0) {
      if (!isOpen) areas.push([[], []]);
      const [upper, lower] = areas[areas.length - 1];
      upper.push(place(gapMm, Math.max(...values)));
      lower.push(place(gapMm, Math.min(...values)));
    }
    isOpen = values.length > 0;
  });
  return areas.map(([upper, lower]) => [...upper, ...lower.reverse()]).filter(({ length }) => length > 2);
}
