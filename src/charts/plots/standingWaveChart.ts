/** The standing wave of one resonance along the bore, over the bore's outline: where on the wave the gap sits. */
import { max, scaleLinear } from "d3";
import type { StandingWave } from "../../study/instrument/standingWave.ts";
import type { LengthUnit } from "../../units/length.ts";
import { concertPitch, noteText } from "../../words/instruments.ts";
import { percent } from "../../words/numbers.ts";
import { bottomAxis, leftAxis } from "../kit/axes.ts";
import {
  add,
  type Box,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  rule,
  sheet,
  type Table,
  textWidth,
  typeSizes,
} from "../kit/drawing.ts";
import { drawKey, type KeyItem, keyWidth } from "../kit/labels/key.ts";
import { firstFitting, heading } from "../kit/labels/text.ts";
import { corners, curvePath } from "../kit/marks/curve.ts";
import { curve } from "../kit/marks/line.ts";
import { inUnit } from "../kit/numbers.ts";
import { label, type Panel, plotBox, silent } from "../kit/panel.ts";
import { lengthColumn, tableOf } from "../kit/table.ts";
import { lengthTicks, marksIn, ticksAt } from "../kit/ticks.ts";

/** Share of the drawing's height that the bore's outline gets. */
const boreShare = 0.34;
const flowDash = "1 4";

export function standingWaveChart(wave: StandingWave, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const note = noteText(wave.n, frame.instrument);
  const title = `Standing wave of ${note}`;
  const svg = sheet(frame, { name: "standing-wave-chart", title, description: describe(wave, note) });
  const pitch = `${wave.frequencyHz.toFixed(1)} Hz, ${concertPitch(wave.frequencyHz, wave.n, frame.instrument)}`;
  const rowKey = large + small + 12;
  const whole = plotBox(frame, { left: 3.4 * small, right: 10, top: rowKey + 14 });
  const { left, right, top, bottom } = whole;
  const boreHeight = boreShare * (bottom - top);
  const plot: Box = { ...whole, bottom: bottom - boreHeight - 10 };
  const lengthMm = wave.xMm[wave.xMm.length - 1];
  const x = scaleLinear([0, lengthMm], [left, right]);
  const y = scaleLinear([0, 1], [plot.bottom, top]);

  const on: Panel = { parent: silent(svg), x, y, plot, size: small };
  const ground = on.parent;
  const titles = [`${title}, ${pitch}`, `${title}, ${wave.frequencyHz.toFixed(1)} Hz`];
  heading(ground, firstFitting(titles, frame.width, large) ?? title, large);
  leftAxis(
    on,
    ticksAt([0, 0.5, 1], (value) => `${100 * value}`),
    true,
  );
  const axisTitle = "% of largest";
  label(on, axisTitle, 0, rowKey, { fill: "muted" });
  const room = frame.width - textWidth(axisTitle, small) - 16;
  const named = keyOf("pressure |p|", "flow |U|");
  const widthOfKey = (items: readonly KeyItem[]) => keyWidth(items, keyStyle, small) - keyStyle.apart;
  const key = widthOfKey(named) < room ? named : keyOf("|p|", "|U|");
  drawKey(on, key, frame.width - 4 - widthOfKey(key), rowKey, keyStyle);

  // The gap, through wave and bore alike.
  const [from, to] = wave.gapMm;
  const gapWidth = Math.max(2.5, x(to) - x(from));
  const gapLeft = (x(from) + x(to) - gapWidth) / 2;
  add(ground, "rect", {
    "data-part": "gap",
    x: gapLeft,
    y: top - 6,
    width: gapWidth,
    height: bottom - top + 6,
    fill: "gap",
    "fill-opacity": "0.35",
  });

  const exaggeration = drawBore(ground, wave, x(lengthMm) - left, boreHeight, left, bottom - boreHeight / 2);
  const boreText = `bore drawn ${exaggeration} × as wide as long`;
  const boreRow = bottom - boreHeight + small - 4;
  label(on, boreText, gapLeft + gapWidth + 10, boreRow, { fill: "muted", halo: true });
  const along = x.ticks(marksIn(right - left, 80, 2, 9)).length;
  bottomAxis({ ...on, plot: whole }, lengthTicks(x, frame.unit, along), `from the rim, ${frame.unit}`);

  const xs = wave.xMm.map((mm) => x(mm));
  for (const [part, values, { line: style }] of [
    ["flow", wave.flow, named[1]],
    ["pressure", wave.pressure, named[0]],
  ] as const) {
    const d = curve(
      xs,
      values.map((value) => y(value)),
    );
    add(svg, "path", { "data-part": part, d, ...style });
  }
  callOut({ ...on, parent: svg }, wave, (x(from) + x(to)) / 2);
  return { svg, x, y, plot };
}

const keyStyle = { sample: 28, apart: 12 };

const keyOf = (pressure: string, flow: string): KeyItem[] => [
  { text: pressure, line: { stroke: "ink", "stroke-width": 1.75 } },
  {
    text: flow,
    line: { stroke: "ink", "stroke-width": 2.25, "stroke-dasharray": flowDash, "stroke-linecap": "round" },
  },
];

export const standingWaveTable = (wave: StandingWave, unit: LengthUnit): Table =>
  tableOf(Array.from(wave.xMm), [
    lengthColumn("distance from the rim", unit, (xMm) => xMm),
    [`inner diameter (${unit})`, (_, i) => inUnit(wave.diameterMm[i], unit)],
    ["pressure, share of largest (1)", (_, i) => wave.pressure[i]],
    ["flow, share of largest (1)", (_, i) => wave.flow[i]],
  ]);

/** The outline, both walls; returns how much wider it is drawn than it is, a round number. */
function drawBore(
  parent: Element,
  { xMm, diameterMm }: StandingWave,
  lengthPx: number,
  height: number,
  left: number,
  axis: number,
): number {
  const pxPerMm = lengthPx / xMm[xMm.length - 1];
  const most = height / (max(diameterMm)! * pxPerMm);
  const exaggeration = [10, 5, 4, 3, 2, 1.5, 1, 0.5, 0.2, 0.1].find((factor) => factor <= most) ?? 0.05;
  const [wall] = corners(
    xMm.map((mm) => left + pxPerMm * mm),
    diameterMm.map((mm) => 0.5 * mm * pxPerMm * exaggeration),
  );
  const [upper, lower] = [-1, 1].map((side) => wall.map(([at, radius]): Point => [at, axis + side * radius]));
  const d = polygonPath([...upper, ...[...lower].reverse()]);
  add(parent, "path", { d, fill: "metal", "fill-opacity": "0.6" });
  add(parent, "path", { d: curvePath([upper, lower]), stroke: "ink", "stroke-width": 1.25 });
  rule(parent, [left, axis], [left + lengthPx, axis], "muted", 0.75, "14 4 2 4");
  return exaggeration;
}

function callOut({ parent, y, plot, size }: Panel, { atGap }: StandingWave, at: number): void {
  const on = { parent: add(parent, "g", { "data-part": "callout" }), size };
  const lines = ["at the gap", `|p| ${percent(atGap.pressure)}`, `|U| ${percent(atGap.flow)}`];
  const width = Math.max(...lines.map((text) => textWidth(text, size))) + 12;
  const height = 3 * (size + 4) + 6;
  const left = Math.min(at + 34, plot.right - width);
  const top = plot.top + 4;
  add(on.parent, "path", { d: `M${px(at)},${px(top + 10)}H${px(left)}`, stroke: "gap" });
  add(on.parent, "rect", { x: left, y: top, width, height, fill: "paper", stroke: "gap" });
  lines.forEach((text, i) => {
    label(on, text, left + 6, top + (i + 1) * (size + 4), { fill: "gap", weight: i === 0 ? 400 : 600 });
  });
  for (const value of [atGap.pressure, atGap.flow])
    add(on.parent, "circle", { cx: at, cy: y(value), r: 4, fill: "paper", stroke: "gap", "stroke-width": 2 });
}

function describe({ frequencyHz, atGap, gapMm, xMm }: StandingWave, note: string): string {
  const where =
    atGap.pressure > 0.7 && atGap.flow < 0.5
      ? "Pressure is large there: the gap works by its volume."
      : atGap.flow > 0.7 && atGap.pressure < 0.5
        ? "Flow is large there: the gap works by its mass."
        : "Neither is at its largest there.";
  return (
    `${note} at ${frequencyHz.toFixed(1)} Hz along a bore of ${Math.round(xMm[xMm.length - 1])} mm. ` +
    `At the gap, ${Math.round(gapMm[0])} mm from the rim, pressure is ${percent(atGap.pressure)} and flow ` +
    `${percent(atGap.flow)} of the largest along the bore. ${where}`
  );
}
