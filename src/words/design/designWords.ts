/** What to know of a leadpipe that was searched for, beside how near it comes to its goal. */
import type { Design } from "../../study/design/design.ts";
import type { Freedom } from "../../study/design/designFreedom.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";

/** Less than a mandrel is turned to, mm. */
const NOTHING_MM = 5e-4;

/** A sentence each. */
export function designWords(
  { knots, splineOffByMm, narrowsByMm }: Pick<Design, "knots" | "splineOffByMm" | "narrowsByMm">,
  unit: LengthUnit,
): readonly string[] {
  const length = (mm: number) => formatLength(mm, unit, unit === "mm" ? 3 : 4);
  return [
    ...(splineOffByMm > NOTHING_MM
      ? [
          `The first start is your leadpipe, as ${knots.length} knots can have it: up to ${length(splineOffByMm)} of diameter off.`,
        ]
      : []),
    ...(narrowsByMm > NOTHING_MM ? [`Between knots it narrows by ${length(narrowsByMm)} at most.`] : []),
  ];
}

/** What the goal leaves open, in a sentence or two. */
export function freedomWords({ directions, settled, settledMm }: Freedom): string {
  const all = directions.length;
  if (settled === all)
    return `The goal settles the bore: all ${all} directions to within ${settledMm} mm for one cent or dB.`;
  const open = directions.filter(({ reachMm }) => reachMm === Infinity).length;
  const last = directions[all - 1].reachMm.toPrecision(2);
  const loosest =
    open > 0
      ? `along ${open} of the others no target changes at all, to first order`
      : `along the loosest the knots may move ${last} mm together before the targets change by one`;
  return (
    `The goal does not settle the bore: ${settled} of ${all} directions are known to within ${settledMm} mm for one cent or dB, ` +
    `and ${loosest}. Many bores serve equally; this is one of them.`
  );
}
