/** How far the gaps of a set of parts lie apart: a line a part, a mark a gap, its expanded uncertainty as a bar. */
import { scaleLinear, ticks } from "d3";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { bothUnits } from "../../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom } from "../../kit/axes.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
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
  const { small } = typeSizes({ width, height: 0, unit: "mm" });
  return top(small) + rows.length * rowPx + 6 + bottomAxisRoom(small);
};

const top = (size: number): number => 2 * size + 12;

export function spreadChart(data: SpreadData, frame: Frame): Drawing {
  const { rows, meanMm, standardDeviationMm, preferredMm } = data;
  const { small } = typeSizes(frame);
  const names = rows.map(({ name }) => shortened(name));
  const left = Math.min(0.38 * frame.width, 14 + Math.max(0, ...names.map((name) => textWidth(name, small))));
  const plot = {
    left,
    right: frame.width - 14,
    top: top(small),
    bottom: top(small) + rows.length * rowPx + 6,
  };
  const x = scaleLinear(reach(data), [plot.left + 8, plot.right]);
  const y = scaleLinear([0, Math.max(1, rows.length)], [plot.top + 3, plot.bottom - 3]);
  const svg = sheet(frame, { name: "spread", title: `Gaps: ${data.of}`, description: data.words });

  if (meanMm !== undefined) {
    if (standardDeviationMm !== undefined) {
      const [low, high] = [meanMm - standardDeviationMm, meanMm + standardDeviationMm].map((mm) => x(mm));
      const band: Point[] = [
        [low, plot.top],
        [high, plot.top],
        [high, plot.bottom],
        [low, plot.bottom],
      ];
      add(svg, "path", { "data-part": "deviation", d: hatchPath(band, 6, -1), stroke: colour("feel") });
    }
    upright(svg, x(meanMm), plot, `mean ${formatLength(meanMm, frame.unit)}`, small, small, "ink");
  }
  if (preferredMm !== undefined)
    upright(
      svg,
      x(preferredMm),
      plot,
      `preferred ${bothUnits(preferredMm, frame.unit)}`,
      2 * small + 4,
      small,
      "reference",
    );

  rows.forEach((row, i) => {
    const at = y(i + 0.5);
    rule(svg, [plot.left, at], [plot.right, at], colour("hairline"), 0.8);
    write(svg, names[i], plot.left - 8, at + 0.36 * small, { size: small, anchor: "end" });
    if (row.gaps.length === 0)
      write(svg, row.without, plot.left + 8, at + 0.36 * small, {
        size: small,
        fill: colour("muted"),
        halo: true,
      });
    const isSingle = row.gaps.length === 1;
    for (const gap of row.gaps) mark(svg, gap, x, at, isSingle, frame.unit);
  });
  bottomAxis(
    svg,
    x,
    plot,
    lengthTicks(x, ticks, frame.unit, Math.max(2, Math.floor((plot.right - plot.left) / 70))).map(
      ({ mm, text }) => ({ value: mm, text }),
    ),
    `gap (${frame.unit})`,
    small,
  );
  return { svg, x, y, plot };
}

const shortened = (name: string): string =>
  name.length > longestName ? `${name.slice(0, longestName - 1)}…` : name;

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

function upright(
  parent: Element,
  at: number,
  { left, right, bottom }: Drawing["plot"],
  text: string,
  row: number,
  size: number,
  token: "ink" | "reference",
): void {
  rule(
    parent,
    [at, row + 4],
    [at, bottom],
    colour(token),
    token === "ink" ? 1 : 1.5,
    token === "ink" ? undefined : referenceDash,
  );
  const half = textWidth(text, size) / 2;
  write(parent, text, clamp(at, Math.min(left, right - 2 * half) + half, right - half), row, {
    size,
    anchor: "middle",
    fill: colour(token),
    halo: true,
  });
}

/** A bar only where the gap has the line to itself. */
function mark(
  parent: Element,
  gap: SpreadGap,
  x: Drawing["x"],
  row: number,
  hasBar: boolean,
  unit: LengthUnit,
): void {
  const { gapMm, standardUncertaintyMm: u, isChosen, isOnLeadpipe, name } = gap;
  const stroke = colour(isChosen ? "gap" : "ink");
  if (hasBar && u !== undefined) {
    const [low, high] = [x(gapMm - 2 * u), x(gapMm + 2 * u)];
    rule(parent, [low, row], [high, row], stroke, 1.5);
    for (const end of [low, high]) rule(parent, [end, row - 3], [end, row + 3], stroke, 1.5);
  }
  const circle = add(parent, "circle", {
    "data-gap": name,
    cx: x(gapMm),
    cy: row,
    r: isChosen ? 6 : 4,
    fill: isOnLeadpipe ? colour("paper") : stroke,
    stroke,
    "stroke-width": 1.5,
  });
  const where = isOnLeadpipe ? ", on the leadpipe" : "";
  add(circle, "title", {}, `${name}: ${bothUnits(gapMm, unit)}${where}`);
}

/** Every gap of the drawing. */
export const spreadTable = ({ rows }: SpreadData, unit: LengthUnit): Table => ({
  columns: ["part", "gap of", `gap (${unit})`, `standard uncertainty (${unit})`, "remark"],
  rows: rows.flatMap(({ name, gaps, without }) =>
    gaps.length === 0
      ? [[name, "", "", "", without]]
      : gaps.map((gap) => [
          name,
          gap.name,
          inUnit(gap.gapMm, unit),
          gap.standardUncertaintyMm === undefined ? "" : inUnit(gap.standardUncertaintyMm, unit),
          gap.isOnLeadpipe ? "on the leadpipe" : "",
        ]),
  ),
});

export const spreadFigure: Figure<SpreadData> = {
  name: "spread",
  label: "How far the gaps lie apart",
  about:
    "A line a part, a mark a gap, its bar twice the standard uncertainty to either side. An open mark is a shank on the " +
    "leadpipe: it counts for neither mean nor deviation. Hatched: one standard deviation about the mean. The dashed line " +
    "is the preferred gap. In the accent: the chosen pair.",
  caption: () => "Every gap, with twice its uncertainty.",
  height: (width, data) => (data ? spreadHeight(data, width) : 0),
  draw: spreadChart,
  table: spreadTable,
};
