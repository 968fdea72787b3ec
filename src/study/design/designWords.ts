/** What to know of a leadpipe that was searched for, beside how near it comes to its goal. */
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import type { Design } from "./design.ts";

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
          `The first start is the leadpipe there is, as ${knots.length} knots can have it: up to ${length(splineOffByMm)} of diameter off.`,
        ]
      : []),
    ...(narrowsByMm > NOTHING_MM ? [`Between knots it narrows by ${length(narrowsByMm)} at most.`] : []),
  ];
}
