/** How well a value is known: a line from its low to its high end, each end with a cap. */
import { px, rule } from "../drawing.ts";
import type { Paint } from "../tokens.ts";

export interface IntervalBar {
  /** Both ends along the bar, px. */
  readonly ends: readonly [number, number];
  /** Where the bar lies across itself, px. */
  readonly at: number;
  /** Half of a cap, px. */
  readonly cap: number;
  readonly isUpright?: boolean;
}

export function intervalBar(
  parent: Element,
  { ends, at, cap, isUpright = false }: IntervalBar,
  paint: Paint,
  width = 1.5,
): void {
  const draw = (from: readonly [number, number], to: readonly [number, number]) => {
    const turned = ([along, across]: readonly [number, number]) =>
      isUpright ? ([across, along] as const) : ([along, across] as const);
    rule(parent, turned(from), turned(to), paint, width);
  };
  draw([ends[0], at], [ends[1], at]);
  for (const end of ends) draw([end, at - cap], [end, at + cap]);
}

/** The same as one path; `bar` and `caps` apart, where the bar alone is dashed. */
export function intervalPath({ ends: [from, to], at, cap, isUpright = false }: IntervalBar) {
  const place = (along: number, across: number) =>
    isUpright ? `${px(across)},${px(along)}` : `${px(along)},${px(across)}`;
  const [along, across] = isUpright ? ["V", "h"] : ["H", "v"];
  const tick = (end: number) => `M${place(end, at - cap)}${across}${2 * cap}`;
  return { bar: `M${place(from, at)}${along}${px(to)}`, caps: tick(from) + tick(to) };
}
