/**
 * What makes gaps differ: each dimension's share of their variance as a bar. Shares may pass 1 where dimensions make up for
 * one another, and what they do together may be less than nothing: the bars say so, to either side of 0.
 */
import { scaleLinear } from "d3";
import { bottomAxis } from "../../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  polygonPath,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../../kit/drawing.ts";
import type { Figure } from "../../kit/figure.ts";
import { rectangle } from "../../kit/marks/band.ts";
import { hatchPath } from "../../kit/marks/hatch.ts";
import { referenceDash, uprightLine } from "../../kit/marks/line.ts";
import { tickText } from "../../kit/numbers.ts";
import { bottomAxisRoom, label, type Panel, widthOf } from "../../kit/panel.ts";
import { tableOf } from "../../kit/table.ts";
import { marksIn, roundTicks } from "../../kit/ticks.ts";

export interface Cause {
  readonly name: string;
  /** Of the variance; all of them sum to 1. */
  readonly varianceShare: number;
  /** What the dimensions do together, and no single one. */
  readonly isTogether: boolean;
}

export interface CausesData {
  readonly of: string;
  readonly causes: readonly Cause[];
  /** The finding in words. */
  readonly words: string;
}

const rowPx = 26;
const barPx = 14;
const topPx = 8;

export const causesHeight = ({ causes }: CausesData, width: number): number =>
  topPx + Math.max(1, causes.length) * rowPx + bottomAxisRoom(typeSizes({ width }).small);

/** A share as it is read: whole percent, with a true minus sign. */
export const shareText = (share: number): string => `${tickText(Math.round(100 * share))} %`;

export function causesChart({ of, causes, words }: CausesData, frame: Frame): Drawing {
  const { small } = typeSizes(frame);
  const left = 10 + Math.max(0, ...causes.map(({ name }) => textWidth(name, small)));
  const bottom = topPx + Math.max(1, causes.length) * rowPx;
  const plot: Box = { left, right: frame.width - 4, top: topPx, bottom };
  const shares = causes.map(({ varianceShare }) => varianceShare);
  const beside = textWidth("−100 % ", small);
  const [least, most] = [Math.min(0, ...shares), Math.max(1, ...shares)];
  const x = scaleLinear([least, most], [plot.left + (least < 0 ? beside : 0), plot.right - beside]);
  const y = scaleLinear([0, Math.max(1, causes.length)], [plot.top, plot.bottom]);
  const svg = sheet(frame, {
    name: "causes",
    title: `What makes the gaps differ: ${of}`,
    description: words,
  });
  const on: Panel = { parent: svg, x, y, plot, size: small };

  uprightLine(on, 1, "muted", 1, referenceDash);
  causes.forEach(({ name, varianceShare, isTogether }, i) => {
    const middle = y(i + 0.5);
    const [from, to] = [x(Math.min(0, varianceShare)), x(Math.max(0, varianceShare))];
    const bar = rectangle({ left: from, right: to, top: middle - barPx / 2, bottom: middle + barPx / 2 });
    const d = polygonPath(bar);
    const group = add(svg, "g", { "data-cause": name });
    add(group, "path", { d, fill: isTogether ? "paper" : "ink" });
    if (isTogether) {
      add(group, "path", { d: hatchPath(bar, 5, -1), stroke: "muted" });
      add(group, "path", { d, stroke: "ink" });
    }
    const row = middle + 0.36 * small;
    label(on, name, plot.left - 8, row, { anchor: "end" });
    const [at, anchor] = varianceShare < 0 ? [from - 5, "end" as const] : [to + 5, "start" as const];
    label(on, shareText(varianceShare), at, row, { anchor, weight: 600, halo: true });
  });
  uprightLine(on, 0, "ink");
  bottomAxis(on, roundTicks(x, marksIn(widthOf(plot), 80, 2), shareText), "share of the gaps' variance");
  return { svg, x, y, plot };
}

export const causesTable = ({ causes }: CausesData): Table =>
  tableOf(causes, [
    ["cause", ({ name }) => name],
    ["share of variance", ({ varianceShare }) => varianceShare],
  ]);

export const causesFigure: Figure<CausesData> = {
  name: "causes",
  label: "What makes the gaps differ",
  about:
    "Each dimension's share of the gaps' variance, to first order about the mean dimensions. What dimensions do together, by " +
    "going up and down with each other, is hatched; it is negative where they make up for one another, and single " +
    "shares may then pass 100 %. All shares sum to 100 %.",
  caption: () => "Shares of the variance; they sum to 100 %.",
  height: (width, data) => (data ? causesHeight(data, width) : 0),
  draw: causesChart,
  table: causesTable,
};
