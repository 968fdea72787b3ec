/** What to know of a leadpipe that was searched for, beside how near it comes to its goal. */
import type { Design } from "../../study/design/design.ts";
import type { Freedom } from "../../study/design/designFreedom.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { signed } from "../numbers.ts";

/** What comes before all else: targets that are farther off than they were. null where none is. */
export function worseWords({
  targets,
  missBefore,
  missAfter,
}: Pick<Design, "targets" | "missBefore" | "missAfter">): string | null {
  const worse = targets.filter(({ isWorse }) => isWorse);
  const one = ({ quantity, n, missedBefore, missedBy }: (typeof worse)[number]) =>
    missedBy === null
      ? `${quantity}${n}, which is not there any more`
      : `${quantity}${n}, ${signed(missedBefore ?? 0, 2)} off before and ${signed(missedBy, 2)} now`;
  const all =
    missAfter > missBefore ? "Nothing was found that comes nearer to the goal than your leadpipe does." : "";
  const made = worse.length === 0 ? "" : `Made worse: ${worse.map(one).join("; ")}.`;
  return [all, made].filter(Boolean).join(" ") || null;
}

/** How each start ended, a sentence each. */
export const startWords = ({ starts }: Pick<Design, "starts">): readonly string[] =>
  starts.map(({ miss, steps, ended }, i) => {
    const [at, after] = [missText(miss), `${steps} ${steps === 1 ? "step" : "steps"}`];
    const how = {
      converged: `came to ${at} in ${after}`,
      "not-converged": `has not converged: it stands at ${at} after its last step, the ${ordinal(steps)}`,
      stopped: `was stopped at ${at}, after ${after}`,
    }[ended];
    return `Start ${i + 1} ${how}.`;
  });

const ordinal = (n: number): string => {
  const suffix = /1[123]$/.test(`${n}`) ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th");
  return `${n}${suffix}`;
};

/** Three figures, as far as anybody could care. */
export const missText = (miss: number): string =>
  miss < 0.001 ? "under 0.001" : `${Number(miss.toPrecision(3))}`;

/** Less than a mandrel is turned to, mm. */
const NOTHING_MM = 5e-4;

/** A sentence each. */
export function designWords(
  {
    knots,
    splineOffByMm,
    narrowsByMm,
    starts,
    chosen,
  }: Pick<Design, "knots" | "splineOffByMm" | "narrowsByMm" | "starts" | "chosen">,
  unit: LengthUnit,
): readonly string[] {
  const length = (mm: number) => formatLength(mm, unit, unit === "mm" ? 3 : 4);
  return [
    ...(starts[chosen].ended === "not-converged"
      ? [
          `This leadpipe is start ${chosen + 1}'s, which has not converged: with more steps it would come nearer to the goal.`,
        ]
      : []),
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
