/** The gap after each stage of a cut: every one goes at most half of the way that remains, and the last ends within the limits. */
import { scaleLinear, ticks } from "d3";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, roundedLength } from "../../../units/uncertainLength.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  px,
  referenceDash,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { hatchPath } from "../../kit/hatch.ts";
import { inUnit, lengthTicks } from "../../kit/numbers.ts";
import { colour } from "../../kit/tokens.ts";

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
  const plot: Box = {
    left: 3.6 * small,
    right: frame.width - 10,
    top: rowAxis + 12,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const x = scaleLinear([0, stages.length + 0.5], [plot.left, plot.right]);
  const [lowMm, highMm] = [Math.min(presentMm, limitsMm[0]), Math.max(presentMm, limitsMm[1])];
  // above and below, for a label each
  const room = small + 10;
  const roomMm = ((highMm - lowMm) * room) / Math.max(room, plot.bottom - plot.top - 2 * room);
  const y = scaleLinear([lowMm - roomMm, highMm + roomMm], [plot.bottom, plot.top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  write(ground, "Gap after each stage", 0, large, { size: large, weight: 600 });
  write(ground, `gap, ${unit}`, 0, rowAxis, { size: small, fill: colour("muted") });
  const band: Point[] = [
    [plot.left, y(limitsMm[1])],
    [plot.right, y(limitsMm[1])],
    [plot.right, y(limitsMm[0])],
    [plot.left, y(limitsMm[0])],
  ];
  add(ground, "path", { "data-part": "limits", d: hatchPath(band, 6, -1), stroke: colour("feel") });
  for (const mm of limitsMm) rule(ground, [plot.left, y(mm)], [plot.right, y(mm)], colour("muted"), 0.8);
  const each = Math.max(1, Math.ceil((stages.length * 20) / (plot.right - plot.left)));
  bottomAxis(
    ground,
    x,
    plot,
    [
      { value: 0, text: "now" },
      ...stages.flatMap((_, i) => ((i + 1) % each === 0 ? [{ value: i + 1, text: `${i + 1}` }] : [])),
    ],
    "stage",
    small,
  );
  leftAxis(
    ground,
    y,
    plot,
    lengthTicks(y, ticks, unit, clamp(Math.floor((plot.bottom - plot.top) / 34), 2, 6)).flatMap(
      ({ mm, text }) => (mm < 0 ? [] : [{ value: mm, text }]),
    ),
    small,
  );
  rule(
    ground,
    [plot.left, y(presentMm)],
    [plot.right, y(presentMm)],
    colour("reference"),
    1.25,
    referenceDash,
  );
  rule(ground, [plot.left, y(targetMm)], [plot.right, y(targetMm)], colour("gap"), 1.5);

  const drawn = add(svg, "g", { "aria-hidden": "true" });
  stages.forEach(({ gapBeforeMm, gapAfterMm }, i) => {
    const at = x(i + 1);
    const half = y((gapBeforeMm + targetMm) / 2);
    rule(drawn, [at - 8, half], [at + 8, half], colour("muted"), 1.5);
    add(drawn, "path", {
      d: `M${px(x(i))},${px(y(gapBeforeMm))}H${px(at)}V${px(y(gapAfterMm))}`,
      stroke: colour("ink"),
      "stroke-width": 1.5,
    });
  });
  stages.forEach(({ gapAfterMm }, i) => {
    add(drawn, "circle", { cx: x(i + 1), cy: y(gapAfterMm), r: 3.5, fill: colour("ink") });
  });
  label(drawn, data, presentMm, { x, y, plot, size: small, unit });
  return { svg, x, y, plot };
}

interface Places {
  readonly x: (stage: number) => number;
  readonly y: (mm: number) => number;
  readonly plot: Box;
  readonly size: number;
  readonly unit: LengthUnit;
}

/** Present gap and target outside of what lies between them; the stages' own gaps where there is room. */
function label(
  parent: Element,
  { targetMm, limitsMm, stages }: StagesData,
  presentMm: number,
  { x, y, plot, size, unit }: Places,
): void {
  const isLess = targetMm < presentMm;
  const [above, below] = [-6, size + 3];
  write(parent, `now ${bothUnits(presentMm, unit)}`, plot.right, y(presentMm) + (isLess ? above : below), {
    size,
    anchor: "end",
    fill: colour("reference"),
  });
  const bandEnd = isLess ? y(limitsMm[0]) + below : y(limitsMm[1]) + above;
  write(parent, `target ${bothUnits(targetMm, unit)}`, plot.left + 6, bandEnd, {
    size,
    fill: colour("gap"),
    weight: 600,
  });
  const enoughMm = limitsMm[1] - targetMm;
  stages.forEach(({ gapAfterMm }, i) => {
    const text = roundedLength(gapAfterMm, enoughMm, unit).replace(/ \w+$/, "");
    if (x(1) - x(0) < textWidth(text, size) + 14) return;
    write(parent, text, x(i + 1) + 8, y(gapAfterMm) + (isLess ? -4 : size), { size, halo: true });
  });
}

export function stagesTable({ stages, targetMm }: StagesData, unit: LengthUnit): Table {
  return {
    columns: ["stage", `gap before (${unit})`, `gap after (${unit})`, `remaining to the target (${unit})`],
    rows: stages.map(({ gapBeforeMm, gapAfterMm }, i) => [
      i + 1,
      inUnit(gapBeforeMm, unit),
      inUnit(gapAfterMm, unit),
      inUnit(Math.abs(targetMm - gapAfterMm), unit),
    ]),
  };
}

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
    "the way that remains to the target, marked by a short line; then the gap is measured again.",
  caption: () => "Short lines: half of what remains. Hatched: done.",
  height: (width) => (width < 420 ? 240 : 260),
  draw: stagesChart,
  table: stagesTable,
};
