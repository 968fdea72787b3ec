/** How far the gaps of a set of parts lie apart: a line a part, a mark a gap, its expanded uncertainty as a bar. */
import { scaleLinear } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { shortened, writeWithin } from "../../kit/labels/text.ts";
import { hatched, rectangle } from "../../kit/marks/band.ts";
import { ring } from "../../kit/marks/dot.ts";
import { intervalBar } from "../../kit/marks/intervalBar.ts";
import { levelLine, referenceDash } from "../../kit/marks/line.ts";
import { bottomAxisRoom, label, type Panel, widthOf } from "../../kit/panel.ts";
import { lengthColumn, tableOf } from "../../kit/table.ts";
import { lengthTicks, marksIn } from "../../kit/ticks.ts";

export interface SpreadGap {
  readonly name: string;
  readonly gapMm: number;
  readonly standardUncertaintyMm: number | undefined;
  readonly isChosen: boolean;
  /** The shank's end touches the leadpipe: a gap, but none that its taper decides. */
  readonly isOnLeadpipe: boolean;
}

export interface SpreadRow {
  readonly name: string;
  readonly gaps: readonly SpreadGap[];
  /** Why there is no gap, if there is none. */
  readonly without: string;
}

export interface SpreadData {
  /** What the rows have in common, for the title. */
  readonly of: string;
  readonly rows: readonly SpreadRow[];
  readonly meanMm: number | undefined;
  readonly standardDeviationMm: number | undefined;
  readonly preferredMm: number | undefined;
  /** The finding in words. */
  readonly words: string;
}

const rowPx = 20;
const longestName = 22;
/** Half of the axis where all gaps are one. */
const leastReachMm = 0.25;

/** The height follows from the rows. */
export const spreadHeight = ({ rows }: SpreadData, width: number): number => {
  const { small } = typeSizes({ width });
  return top(small) + rows.length * rowPx + 6 + bottomAxisRoom(small);
};

const top = (size: number): number => 2 * size + 12;

export function spreadChart(data: SpreadData, frame: Frame): Drawing {
  const { rows, meanMm, standardDeviationMm, preferredMm } = data;
  const { small } = typeSizes(frame);
  const names = rows.map(({ name }) => shortened(name, longestName));
  const left = Math.min(0.38 * frame.width, 14 + Math.max(0, ...names.map((name) => textWidth(name, small))));
  const bottom = top(small) + rows.length * rowPx + 6;
  const plot: Box = { left, right: frame.width - 14, top: top(small), bottom };
  const x = scaleLinear(reach(data), [plot.left + 8, plot.right]);
  const y = scaleLinear([0, Math.max(1, rows.length)], [plot.top + 3, plot.bottom - 3]);
  const svg = sheet(frame, { name: "spread", title: `Gaps: ${data.of}`, description: data.words });
  const on: Panel = { parent: svg, x, y, plot, size: small };

  if (meanMm !== undefined) {
    if (standardDeviationMm !== undefined) {
      const [low, high] = [meanMm - standardDeviationMm, meanMm + standardDeviationMm].map((mm) => x(mm));
      hatched(svg, rectangle({ ...plot, left: low, right: high }), { part: "deviation" });
    }
    upright(on, meanMm, `mean ${formatLength(meanMm, frame.unit)}`, small, "ink");
  }
  if (preferredMm !== undefined)
    upright(on, preferredMm, `preferred ${bothUnits(preferredMm, frame.unit)}`, 2 * small + 4, "reference");

  rows.forEach((row, i) => {
    const at = y(i + 0.5);
    levelLine(on, i + 0.5, "hairline", 0.8);
    label(on, names[i], plot.left - 8, at + 0.36 * small, { anchor: "end" });
    if (row.gaps.length === 0)
      label(on, row.without, plot.left + 8, at + 0.36 * small, { fill: "muted", halo: true });
    const isSingle = row.gaps.length === 1;
    for (const gap of row.gaps) mark(on, gap, at, isSingle, frame.unit);
  });
  bottomAxis(on, lengthTicks(x, frame.unit, marksIn(widthOf(plot), 70, 2)), `gap (${frame.unit})`);
  return { svg, x, y, plot };
}

/** All gaps with their bars, the preferred one, and a little paper around. */
function reach({ rows, meanMm, standardDeviationMm, preferredMm }: SpreadData): [number, number] {
  const lengths = rows.flatMap(({ gaps }) =>
    gaps.flatMap(({ gapMm, standardUncertaintyMm = 0 }) =>
      gaps.length === 1 ? [gapMm - 2 * standardUncertaintyMm, gapMm + 2 * standardUncertaintyMm] : [gapMm],
    ),
  );
  if (preferredMm !== undefined) lengths.push(preferredMm);
  if (meanMm !== undefined && standardDeviationMm !== undefined)
    lengths.push(meanMm - standardDeviationMm, meanMm + standardDeviationMm);
  if (lengths.length === 0) return [0, 2 * leastReachMm];
  const [low, high] = [Math.min(...lengths), Math.max(...lengths)];
  const around = high - low < leastReachMm ? leastReachMm : 0.04 * (high - low);
  return [low - around, high + around];
}

function upright(on: Panel, mm: number, text: string, row: number, paint: "ink" | "reference"): void {
  const { parent, x, size } = on;
  const { left, right, bottom } = on.plot;
  const [width, dash] = paint === "ink" ? [1, undefined] : [1.5, referenceDash];
  rule(parent, [x(mm), row + 4], [x(mm), bottom], paint, width, dash);
  const least = Math.min(left, right - textWidth(text, size));
  writeWithin(parent, text, x(mm), row, [least, right], { size, fill: paint, halo: true });
}

/** A bar only where the gap has the line to itself. */
function mark({ parent, x }: Panel, gap: SpreadGap, row: number, hasBar: boolean, unit: LengthUnit): void {
  const { gapMm, standardUncertaintyMm: u, isChosen, isOnLeadpipe, name } = gap;
  const stroke = isChosen ? "gap" : "ink";
  if (hasBar && u !== undefined)
    intervalBar(parent, { ends: [x(gapMm - 2 * u), x(gapMm + 2 * u)], at: row, cap: 3 }, stroke);
  const fill = isOnLeadpipe ? "paper" : stroke;
  const circle = ring(parent, [x(gapMm), row], isChosen ? 6 : 4, stroke, fill, { "data-gap": name });
  const where = isOnLeadpipe ? ", on the leadpipe" : "";
  add(circle, "title", {}, `${name}: ${bothUnits(gapMm, unit)}${where}`);
}

/** Every gap of the drawing. */
export const spreadTable = ({ rows }: SpreadData, unit: LengthUnit): Table =>
  tableOf(
    rows.flatMap(
      ({ name: part, gaps, without }): (Partial<SpreadGap> & { part: string; without?: string })[] =>
        gaps.length === 0 ? [{ part, without }] : gaps.map((gap) => ({ part, ...gap })),
    ),
    [
      ["part", ({ part }) => part],
      ["gap of", ({ name }) => name],
      lengthColumn("gap", unit, ({ gapMm }) => gapMm),
      lengthColumn("standard uncertainty", unit, ({ standardUncertaintyMm }) => standardUncertaintyMm),
      ["remark", ({ without, isOnLeadpipe }) => without ?? (isOnLeadpipe ? "on the leadpipe" : "")],
    ],
  );

export const spreadFigure: Figure<SpreadData> = {
  name: "spread",
  label: "How far the gaps lie apart",
  about:
    "A line a part, a mark a gap, its bar twice the standard uncertainty to either side. An open mark is a shank on the " +
    "leadpipe: it counts for neither mean nor deviation. Hatched: one standard deviation about the mean. The dashed line " +
    "is the preferred gap. In the accent: the pair you picked.",
  caption: () => "Every gap, with twice its uncertainty.",
  height: (width, data) => (data ? spreadHeight(data, width) : 0),
  draw: spreadChart,
  table: spreadTable,
};
