/** The standing wave of one resonance along the bore, over the bore's outline: where on the wave the gap sits. */
import { max, scaleLinear, ticks } from "d3";
import type { StandingWave } from "../../study/instrument/standingWave.ts";
import type { LengthUnit } from "../../units/length.ts";
import { nearestNote } from "../../words/notes.ts";
import { percent, signed } from "../../words/numbers.ts";
import { bottomAxis, bottomAxisRoom, leftAxis } from "../kit/axes.ts";
import { corners, curvePath } from "../kit/curve.ts";
import {
  add,
  type Box,
  clamp,
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
  write,
} from "../kit/drawing.ts";
import { inUnit, lengthTicks } from "../kit/numbers.ts";
import { colour } from "../kit/tokens.ts";

/** Share of the drawing's height that the bore's outline gets. */
const boreShare = 0.34;
const flowDash = "1 4";

export function standingWaveChart(wave: StandingWave, frame: Frame): Drawing {
  const { small, large } = typeSizes(frame);
  const note = nearestNote(wave.frequencyHz);
  const title = `Standing wave of resonance ${wave.n}`;
  const svg = sheet(frame, { name: "standing-wave-chart", title, description: describe(wave) });
  const pitch = `${wave.frequencyHz.toFixed(1)} Hz, ${note.name} ${signed(note.cents, 0)} cents`;
  const rowKey = large + small + 12;
  const left = 3.4 * small;
  const right = frame.width - 10;
  const top = rowKey + 14;
  const bottom = frame.height - bottomAxisRoom(small);
  const boreHeight = boreShare * (bottom - top);
  const waveBottom = bottom - boreHeight - 10;
  const plot: Box = { left, right, top, bottom: waveBottom };
  const lengthMm = wave.xMm[wave.xMm.length - 1];
  const x = scaleLinear([0, lengthMm], [left, right]);
  const y = scaleLinear([0, 1], [waveBottom, top]);

  const ground = add(svg, "g", { "aria-hidden": "true" });
  const heading =
    [`${title}, ${pitch}`, `Resonance ${wave.n} along the bore, ${wave.frequencyHz.toFixed(1)} Hz`].find(
      (text) => textWidth(text, large) < frame.width,
    ) ?? title;
  write(ground, heading, 0, large, { size: large, weight: 600 });
  const shares = [0, 0.5, 1].map((value) => ({ value, text: `${100 * value}` }));
  leftAxis(ground, y, plot, shares, small, true);
  const axisTitle = "% of largest";
  write(ground, axisTitle, 0, rowKey, { size: small, fill: colour("muted") });
  const keyWidth = (texts: readonly string[]) =>
    texts.reduce((sum, text) => sum + textWidth(text, small) + 46, -12);
  const named = ["pressure |p|", "flow |U|"];
  const texts = textWidth(axisTitle, small) + keyWidth(named) + 16 < frame.width ? named : ["|p|", "|U|"];
  let keyAt = frame.width - 4 - keyWidth(texts);
  texts.forEach((text, i) => {
    const row = rowKey - 0.33 * small;
    const sample = rule(
      ground,
      [keyAt, row],
      [keyAt + 28, row],
      colour("ink"),
      i ? 2.25 : 1.75,
      i ? flowDash : undefined,
    );
    if (i) sample.setAttribute("stroke-linecap", "round");
    write(ground, text, keyAt + 34, rowKey, { size: small });
    keyAt += textWidth(text, small) + 46;
  });

  // The gap, through wave and bore alike.
  const [from, to] = wave.gapMm;
  const gapLeft = x(from) - Math.max(0, 2.5 - (x(to) - x(from))) / 2;
  const gapWidth = Math.max(2.5, x(to) - x(from));
  add(ground, "rect", {
    "data-part": "gap",
    x: gapLeft,
    y: top - 6,
    width: gapWidth,
    height: bottom - top + 6,
    fill: colour("gap"),
    "fill-opacity": "0.35",
  });

  const exaggeration = drawBore(ground, wave, x(lengthMm) - left, boreHeight, left, bottom - boreHeight / 2);
  const boreText = `bore drawn ${exaggeration} × as wide as long`;
  write(ground, boreText, gapLeft + gapWidth + 10, bottom - boreHeight + small - 4, {
    size: small,
    fill: colour("muted"),
    halo: true,
  });
  const along = x.ticks(clamp(Math.floor((right - left) / 80), 2, 9)).length;
  bottomAxis(
    ground,
    x,
    { left, right, top, bottom },
    lengthTicks(x, ticks, frame.unit, along).map(({ mm, text }) => ({ value: mm, text })),
    `from the rim, ${frame.unit}`,
    small,
  );

  const xs = wave.xMm.map((mm) => x(mm));
  const curve = (values: Float64Array) =>
    curvePath(
      corners(
        xs,
        values.map((value) => y(value)),
      ),
    );
  add(svg, "path", {
    "data-part": "flow",
    d: curve(wave.flow),
    stroke: colour("ink"),
    "stroke-width": 2.25,
    "stroke-dasharray": flowDash,
    "stroke-linecap": "round",
  });
  add(svg, "path", {
    "data-part": "pressure",
    d: curve(wave.pressure),
    stroke: colour("ink"),
    "stroke-width": 1.75,
  });
  callOut(svg, wave, (x(from) + x(to)) / 2, (value) => y(value), plot, small);
  return { svg, x, y, plot };
}

export function standingWaveTable(wave: StandingWave, unit: LengthUnit): Table {
  return {
    columns: [
      `distance from the rim (${unit})`,
      `inner diameter (${unit})`,
      "pressure, share of largest (1)",
      "flow, share of largest (1)",
    ],
    rows: Array.from(wave.xMm, (xMm, i) => [
      inUnit(xMm, unit),
      inUnit(wave.diameterMm[i], unit),
      wave.pressure[i],
      wave.flow[i],
    ]),
  };
}

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
  add(parent, "path", {
    d: polygonPath([...upper, ...[...lower].reverse()]),
    fill: colour("metal"),
    "fill-opacity": "0.6",
  });
  add(parent, "path", { d: curvePath([upper, lower]), stroke: colour("ink"), "stroke-width": 1.25 });
  rule(parent, [left, axis], [left + lengthPx, axis], colour("muted"), 0.75, "14 4 2 4");
  return exaggeration;
}

function callOut(
  parent: Element,
  { atGap }: StandingWave,
  at: number,
  yOf: (value: number) => number,
  plot: Box,
  size: number,
): void {
  const group = add(parent, "g", { "data-part": "callout" });
  const lines = ["at the gap", `|p| ${percent(atGap.pressure)}`, `|U| ${percent(atGap.flow)}`];
  const width = Math.max(...lines.map((text) => textWidth(text, size))) + 12;
  const height = 3 * (size + 4) + 6;
  const left = Math.min(at + 34, plot.right - width);
  const top = plot.top + 4;
  add(group, "path", {
    d: `M${px(at)},${px(top + 10)}H${px(left)}`,
    stroke: colour("gap"),
  });
  add(group, "rect", { x: left, y: top, width, height, fill: colour("paper"), stroke: colour("gap") });
  lines.forEach((text, i) => {
    write(group, text, left + 6, top + (i + 1) * (size + 4), {
      size,
      fill: colour("gap"),
      weight: i === 0 ? 400 : 600,
    });
  });
  for (const value of [atGap.pressure, atGap.flow])
    add(group, "circle", {
      cx: at,
      cy: yOf(value),
      r: 4,
      fill: colour("paper"),
      stroke: colour("gap"),
      "stroke-width": 2,
    });
}

function describe({ n, frequencyHz, atGap, gapMm, xMm }: StandingWave): string {
  const where =
    atGap.pressure > 0.7 && atGap.flow < 0.5
      ? "Pressure is large there: the gap works by its volume."
      : atGap.flow > 0.7 && atGap.pressure < 0.5
        ? "Flow is large there: the gap works by its mass."
        : "Neither is at its largest there.";
  return (
    `Resonance ${n} at ${frequencyHz.toFixed(1)} Hz along a bore of ${Math.round(xMm[xMm.length - 1])} mm. ` +
    `At the gap, ${Math.round(gapMm[0])} mm from the rim, pressure is ${percent(atGap.pressure)} and flow ` +
    `${percent(atGap.flow)} of the largest along the bore. ${where}`
  );
}
