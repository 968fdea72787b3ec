/** Where the gap lies, with 95 % confidence, against no gap at all: the shank's end touching the leadpipe. */
import { scaleLinear } from "d3";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  type Drawing,
  type Frame,
  polygonPath,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { writeWithin } from "../../kit/labels/text.ts";
import { rectangle } from "../../kit/marks/band.ts";
import { hatchPath } from "../../kit/marks/hatch.ts";
import { intervalPath } from "../../kit/marks/intervalBar.ts";
import { referenceDash, uprightLine } from "../../kit/marks/line.ts";
import { label, type Panel, plotBox } from "../../kit/panel.ts";
import { lengthsTable } from "../../kit/table.ts";
import { lengthTicks, marksIn } from "../../kit/ticks.ts";

export interface GapInterval {
  readonly gapMm: number;
  /** ±U at 95 %, mm; undefined where the readings cannot tell. */
  readonly expandedMm: number | undefined;
  /** The gap of the setup that is open, mm. */
  readonly setupGapMm: number;
}

export function gapIntervalChart(data: GapInterval, frame: Frame): Drawing {
  const { gapMm, expandedMm = 0, setupGapMm } = data;
  const { unit } = frame;
  const { small, large } = typeSizes(frame);
  const svg = sheet(frame, {
    name: "gap-interval",
    title: "The gap's interval against contact",
    description: describe(data, unit),
  });
  const plot = plotBox(frame, { left: 10, right: 10, top: large + 10 });
  const low = Math.min(0, gapMm - expandedMm);
  const high = Math.max(gapMm + expandedMm, setupGapMm, 0.5);
  const x = scaleLinear([low - 0.14 * (high - low), high + 0.08 * (high - low)], [plot.left, plot.right]);
  const y = scaleLinear([0, 1], [plot.bottom, plot.top]);
  const on: Panel = { parent: svg, x, y, plot, size: small };

  const metal = rectangle({ ...plot, right: x(0) });
  add(svg, "path", { d: polygonPath(metal), fill: "metal" });
  add(svg, "path", { d: hatchPath(metal, 7), stroke: "metal-hatch", "stroke-width": 0.9 });
  uprightLine(on, 0, "ink", 1.5);
  const contact = "touches the leadpipe";
  if (x(0) - plot.left > textWidth(contact, small) + 12)
    label(on, contact, x(0) - 6, plot.top + small + 2, { anchor: "end", halo: true });

  uprightLine(on, setupGapMm, "reference", 1.75, referenceDash);
  // beside its line, on the side with more room
  const setupText = `open setup ${roundedLength(setupGapMm, data.expandedMm, unit)}`;
  const at = x(setupGapMm);
  const [place, anchor] =
    plot.right - at > at - plot.left ? [at + 6, "start" as const] : [at - 6, "end" as const];
  label(on, setupText, place, plot.bottom - 6, { fill: "reference", anchor, halo: true });

  const middle = (plot.top + plot.bottom) / 2 - 4;
  if (expandedMm > 0) {
    const ends = [x(gapMm - expandedMm), x(gapMm + expandedMm)] as const;
    const { bar, caps } = intervalPath({ ends, at: middle, cap: 8 });
    add(svg, "path", { d: bar + caps, stroke: "gap", "stroke-width": 2.5 });
  }
  add(svg, "circle", { cx: x(gapMm), cy: middle, r: 5, fill: "gap", stroke: "paper" });
  const text = `gap ${plusMinus(gapMm, data.expandedMm, unit)}`;
  const style = { size: large, fill: "gap", weight: 700 } as const;
  writeWithin(svg, text, x(gapMm), large, [plot.left, plot.right], style);
  bottomAxis(on, lengthTicks(x, unit, marksIn(frame.width, 90, 2, 9)), `gap, ${unit}`);
  return { svg, x, y, plot };
}

export const gapIntervalTable = ({ gapMm, expandedMm, setupGapMm }: GapInterval, unit: LengthUnit): Table =>
  lengthsTable(
    ["what", "length"],
    [
      ["measured gap", gapMm],
      ["low end of the 95 % interval", expandedMm === undefined ? undefined : gapMm - expandedMm],
      ["high end of the 95 % interval", expandedMm === undefined ? undefined : gapMm + expandedMm],
      ["gap of the open setup", setupGapMm],
    ],
    unit,
  );

function describe({ gapMm, expandedMm, setupGapMm }: GapInterval, unit: LengthUnit): string {
  const setup = `The open setup has ${roundedLength(setupGapMm, expandedMm, unit)}.`;
  if (expandedMm === undefined)
    return `The gap is ${roundedLength(gapMm, undefined, unit)}; the readings cannot tell how well it is known. ${setup}`;
  const contact =
    gapMm + expandedMm < 0
      ? "All of it is below 0, where no gap can be"
      : gapMm - expandedMm <= 0
        ? "It reaches contact at 0"
        : "It is clear of contact at 0";
  return `With 95 % confidence the gap lies from ${lengthSpan([gapMm - expandedMm, gapMm + expandedMm], expandedMm, unit)}. ${contact}. ${setup}`;
}

export const gapIntervalFigure: Figure<GapInterval> = {
  name: "gap-interval",
  label: "The gap's interval against contact",
  about:
    "The dot is the measured gap, the line through it the interval that holds the gap with 95 % confidence. Left of 0 there " +
    "is metal: at 0 the shank touches the leadpipe, and no gap is below. The dashed line is the gap of the open setup.",
  caption: () => "Where the gap lies with 95 % confidence. At 0 the shank touches the leadpipe.",
  height: () => 150,
  draw: gapIntervalChart,
  table: gapIntervalTable,
};
