/** The gap after each stage of a cut: every one goes at most half of the way that remains, and the last ends within the limits. */
import { scaleLinear } from "d3";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, roundedLength } from "../../../units/uncertainLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  px,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { heading } from "../../kit/labels/text.ts";
import { levelBand } from "../../kit/marks/band.ts";
import { dot } from "../../kit/marks/dot.ts";
import { levelLine, referenceDash } from "../../kit/marks/line.ts";
import { heightOf, label, type Panel, plotBox, silent, widthOf } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn, ticksAt } from "../../kit/ticks.ts";

export interface StagesData {
  readonly targetMm: number;
  readonly limitsMm: readonly [lowMm: number, highMm: number];
  /** At least one. */
  readonly stages: readonly { readonly gapBeforeMm: number; readonly gapAfterMm: number }[];
}

export function stagesChart(data: StagesData, frame: Frame): Drawing {
  const { targetMm, limitsMm, stages } = data;
  const { unit } = frame;
  const { small, large } = typeSizes(frame);
  const presentMm = stages[0].gapBeforeMm;
  const svg = sheet(frame, {
    name: "stages-chart",
    title: "Gap after each stage",
    description: describe(data, unit),
  });
  const rowAxis = large + small + 10;
  const plot = plotBox(frame, { left: 3.6 * small, right: 10, top: rowAxis + 12 });
  const x = scaleLinear([0, stages.length + 0.5], [plot.left, plot.right]);
  const [lowMm, highMm] = [Math.min(presentMm, limitsMm[0]), Math.max(presentMm, limitsMm[1])];
  // above and below, for a label each
  const room = small + 10;
  const roomMm = ((highMm - lowMm) * room) / Math.max(room, plot.bottom - plot.top - 2 * room);
  const y = scaleLinear([lowMm - roomMm, highMm + roomMm], [plot.bottom, plot.top]);

  const ground: Panel = { parent: silent(svg), x, y, plot, size: small };
  heading(ground.parent, "Gap after each stage", large);
  label(ground, `gap, ${unit}`, 0, rowAxis, { fill: "muted" });
  levelBand(ground, limitsMm, { part: "limits" });
  for (const mm of limitsMm) levelLine(ground, mm, "muted", 0.8);
  const each = Math.max(1, Math.ceil((stages.length * 20) / widthOf(plot)));
  const numbers = stages.map((_, i) => i + 1).filter((number) => number % each === 0);
  bottomAxis(ground, [{ value: 0, text: "now" }, ...ticksAt(numbers)], "stage");
  const marks = lengthTicks(y, unit, marksIn(heightOf(plot), 34, 2, 6));
  leftAxis(
    ground,
    marks.filter(({ value }) => value >= 0),
  );
  levelLine(ground, presentMm, "reference", 1.25, referenceDash);
  levelLine(ground, targetMm, "gap", 1.5);

  const drawn = { ...ground, parent: silent(svg) };
  stages.forEach(({ gapBeforeMm, gapAfterMm }, i) => {
    const at = x(i + 1);
    const half = y((gapBeforeMm + targetMm) / 2);
    rule(drawn.parent, [at - 8, half], [at + 8, half], "muted", 1.5);
    const d = `M${px(x(i))},${px(y(gapBeforeMm))}H${px(at)}V${px(y(gapAfterMm))}`;
    add(drawn.parent, "path", { d, stroke: "ink", "stroke-width": 1.5 });
  });
  stages.forEach(({ gapAfterMm }, i) => {
    dot(drawn.parent, [x(i + 1), y(gapAfterMm)], 3.5, "ink");
  });
  labelGaps(drawn, data, presentMm, unit);
  return { svg, x, y, plot };
}

/** Present gap and target outside of what lies between them; the stages' own gaps where there is room. */
function labelGaps(
  on: Panel,
  { targetMm, limitsMm, stages }: StagesData,
  presentMm: number,
  unit: LengthUnit,
): void {
  const { x, y, plot, size } = on;
  const isLess = targetMm < presentMm;
  const [above, below] = [-6, size + 3];
  const now = `now ${bothUnits(presentMm, unit)}`;
  const nowRow = y(presentMm) + (isLess ? above : below);
  label(on, now, plot.right, nowRow, { anchor: "end", fill: "reference" });
  const bandEnd = isLess ? y(limitsMm[0]) + below : y(limitsMm[1]) + above;
  label(on, `target ${bothUnits(targetMm, unit)}`, plot.left + 6, bandEnd, { fill: "gap", weight: 600 });
  const enoughMm = limitsMm[1] - targetMm;
  stages.forEach(({ gapAfterMm }, i) => {
    const text = roundedLength(gapAfterMm, enoughMm, unit).replace(/ \w+$/, "");
    if (x(1) - x(0) < textWidth(text, size) + 14) return;
    label(on, text, x(i + 1) + 8, y(gapAfterMm) + (isLess ? -4 : size), { halo: true });
  });
}

export const stagesTable = ({ stages, targetMm }: StagesData, unit: LengthUnit): Table =>
  tableOf(stages, [
    ["stage", (_, i) => i + 1],
    lengthColumn("gap before", unit, ({ gapBeforeMm }) => gapBeforeMm),
    lengthColumn("gap after", unit, ({ gapAfterMm }) => gapAfterMm),
    lengthColumn("remaining to the planned gap", unit, ({ gapAfterMm }) => Math.abs(targetMm - gapAfterMm)),
  ]);

function describe({ stages, targetMm, limitsMm }: StagesData, unit: LengthUnit): string {
  const enoughMm = limitsMm[1] - targetMm;
  const gaps = stages.map(({ gapAfterMm }) => roundedLength(gapAfterMm, enoughMm, unit)).join(", ");
  return (
    `From a gap of ${bothUnits(stages[0].gapBeforeMm, unit)} towards ${bothUnits(targetMm, unit)} in ${stages.length} ` +
    `${stages.length === 1 ? "stage" : "stages"}: ${gaps}. Each goes at most half of the way that remains, marked by a short line. ` +
    `Done from ${lengthSpan(limitsMm, enoughMm, unit)}.`
  );
}

export const stagesFigure: Figure<StagesData> = {
  name: "cut-stages",
  label: "Gap after each stage",
  about:
    "The staircase goes from the gap now to the limits within which the work is done (hatched). Each stage goes at most half of " +
    "the way that remains to the planned gap, marked by a short line; then the gap is measured again.",
  caption: () => "Short lines: half of what remains. Hatched: done.",
  height: (width) => (width < 420 ? 240 : 260),
  draw: stagesChart,
  table: stagesTable,
};
