/** Where the gap lies, with 95 % confidence, against no gap at all: the shank's end touching the leadpipe. */
import { scaleLinear, ticks } from "d3";
import type { LengthUnit } from "../../../units/length.ts";
import { lengthSpan, plusMinus, roundedLength } from "../../../units/uncertainLength.ts";
import { bottomAxis, bottomAxisRoom } from "../../kit/axes.ts";
import {
  add,
  type Box,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
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
  const plot: Box = {
    left: 10,
    right: frame.width - 10,
    top: large + 10,
    bottom: frame.height - bottomAxisRoom(small),
  };
  const low = Math.min(0, gapMm - expandedMm);
  const high = Math.max(gapMm + expandedMm, setupGapMm, 0.5);
  const x = scaleLinear([low - 0.14 * (high - low), high + 0.08 * (high - low)], [plot.left, plot.right]);
  const y = scaleLinear([0, 1], [plot.bottom, plot.top]);

  const metal: Point[] = [
    [plot.left, plot.top],
    [x(0), plot.top],
    [x(0), plot.bottom],
    [plot.left, plot.bottom],
  ];
  add(svg, "path", { d: polygonPath(metal), fill: colour("metal") });
  add(svg, "path", { d: hatchPath(metal, 7), stroke: colour("metal-hatch"), "stroke-width": 0.9 });
  rule(svg, [x(0), plot.top], [x(0), plot.bottom], colour("ink"), 1.5);
  const contact = "touches the leadpipe";
  if (x(0) - plot.left > textWidth(contact, small) + 12)
    write(svg, contact, x(0) - 6, plot.top + small + 2, { size: small, anchor: "end", halo: true });

  const setupText = `open setup ${roundedLength(setupGapMm, data.expandedMm, unit)}`;
  rule(
    svg,
    [x(setupGapMm), plot.top],
    [x(setupGapMm), plot.bottom],
    colour("reference"),
    1.75,
    referenceDash,
  );
  placed(svg, setupText, x(setupGapMm), plot.bottom - 6, plot, {
    size: small,
    fill: colour("reference"),
  });

  const middle = (plot.top + plot.bottom) / 2 - 4;
  if (expandedMm > 0) {
    const [from, to] = [x(gapMm - expandedMm), x(gapMm + expandedMm)];
    add(svg, "path", {
      d: `M${px(from)},${px(middle)}H${px(to)}M${px(from)},${px(middle - 8)}v16M${px(to)},${px(middle - 8)}v16`,
      stroke: colour("gap"),
      "stroke-width": 2.5,
    });
  }
  add(svg, "circle", { cx: x(gapMm), cy: middle, r: 5, fill: colour("gap"), stroke: colour("paper") });
  const text = `gap ${plusMinus(gapMm, data.expandedMm, unit)}`;
  const half = textWidth(text, large) / 2;
  write(svg, text, clamp(x(gapMm), plot.left + half, plot.right - half), large, {
    size: large,
    anchor: "middle",
    fill: colour("gap"),
    weight: 700,
  });

  const marks = lengthTicks(x, ticks, unit, clamp(Math.floor(frame.width / 90), 2, 9));
  bottomAxis(
    svg,
    x,
    plot,
    marks.map(({ mm, text: mark }) => ({ value: mm, text: mark })),
    `gap, ${unit}`,
    small,
  );
  return { svg, x, y, plot };
}

/** Beside a line, on the side with more room. */
function placed(
  svg: SVGSVGElement,
  text: string,
  at: number,
  row: number,
  { left, right }: Box,
  style: { size: number; fill: string },
): void {
  const isRight = right - at > at - left;
  write(svg, text, at + (isRight ? 6 : -6), row, { ...style, anchor: isRight ? "start" : "end", halo: true });
}

export function gapIntervalTable({ gapMm, expandedMm, setupGapMm }: GapInterval, unit: LengthUnit): Table {
  const rows: [string, number | undefined][] = [
    ["measured gap", gapMm],
    ["low end of the 95 % interval", expandedMm === undefined ? undefined : gapMm - expandedMm],
    ["high end of the 95 % interval", expandedMm === undefined ? undefined : gapMm + expandedMm],
    ["gap of the open setup", setupGapMm],
  ];
  return {
    columns: ["what", `length (${unit})`],
    rows: rows.map(([what, mm]) => [what, mm === undefined ? "" : inUnit(mm, unit)]),
  };
}

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
