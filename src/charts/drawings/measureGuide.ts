/**
 * How the gap is measured, in four drawings of the setup's own parts: depth, mark, insertion, and why the shoulder gap
 * seen from outside is no measure of it.
 */
import type { Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import { bothUnits } from "../../words/numbers.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  resize,
  rule,
  sheet,
  type TextStyle,
  textWidth,
  write,
} from "../kit/drawing.ts";
import { arrowhead } from "../kit/marks/arrowhead.ts";
import { dimension } from "./dimension.ts";
import {
  at,
  type Bench,
  bench,
  drawAxis,
  drawGap,
  drawReceiver,
  drawShank,
  drawTool,
  shankOf,
} from "./measureGuideParts.ts";

export const MEASURE_STEPS = ["depth", "mark", "insertion", "shoulder"] as const;
export type MeasureStep = (typeof MEASURE_STEPS)[number];

const size = 12;
/** Rows for dimensions over and under the parts, px. */
const [above, below] = [42, 38];
/** How much the second shank of the last drawing is shorter, mm. */
const shorterMm = 3;

interface Picture {
  readonly title: string;
  readonly describe: (setup: Setup, frame: Frame) => string;
  readonly draw: (on: Bench, frame: Frame) => void;
}

const PICTURES: Readonly<Record<MeasureStep, Picture>> = {
  depth: {
    title: "Depth of the receiver",
    describe: ({ receiver }, { unit }) =>
      `A depth gauge lies flat on the receiver's face; its rod reaches along the wall to the start of the leadpipe, ${bothUnits(receiver.depthMm, unit)} in.`,
    draw: drawDepth,
  },
  mark: {
    title: "Mark on the seated shank",
    describe: () =>
      "The mouthpiece is seated in the receiver with a light twist; a pencil marks the shank where the receiver's face meets it.",
    draw: drawMark,
  },
  insertion: {
    title: "From the shank's end to the mark",
    describe: ({ mouthpiece }, { unit }) =>
      `The mouthpiece is out of the receiver; a caliper spans from the shank's end to the mark, ${bothUnits(mouthpiece.insertionMm, unit)}.`,
    draw: drawInsertion,
  },
  shoulder: {
    title: "The shoulder gap is not the gap",
    describe: (setup, { unit }) => {
      const gap = setup.receiver.depthMm - setup.mouthpiece.insertionMm;
      return (
        `One receiver, two shanks, each in half of the drawing. Both leave the same shoulder gap outside; the lower one is ` +
        `${formatLength(cutOff(setup), unit)} shorter, and its gap inside is ${formatLength(gap + cutOff(setup), unit)} instead of ${formatLength(gap, unit)}.`
      );
    },
    draw: drawShoulder,
  },
};

export function measureGuide(step: MeasureStep, setup: Setup, frame: Frame): Drawing {
  const { title, describe, draw } = PICTURES[step];
  const svg = sheet(frame, { name: "measure-guide", title, description: describe(setup, frame) });
  const on = bench(add(svg, "g", { "aria-hidden": "true" }), setup, frame, above, below);
  draw(on, frame);
  const { x, y, outerMm } = on;
  const plot = { left: 0, right: frame.width, top: y(outerMm), bottom: y(-outerMm) };
  resize(svg, frame.width, plot.bottom + below);
  return { svg, x, y, plot };
}

/** A short shank is not cut to nothing. */
const cutOff = ({ mouthpiece }: Setup): number => Math.min(shorterMm, mouthpiece.insertionMm / 3);

function drawDepth(on: Bench, frame: Frame): void {
  const { x, y, setup, outerMm, cavityMm } = on;
  const { depthMm } = setup.receiver;
  drawReceiver(on);
  drawAxis(on);
  const outside = -cavityMm(depthMm) + 0.05;
  const rod = 1.3;
  drawTool(on, [
    [-13, outside],
    [depthMm, outside],
    [depthMm, outside + rod],
    [-13, outside + rod],
  ]);
  drawTool(on, [
    [-3.5, -outerMm - 0.6],
    [0, -outerMm - 0.6],
    [0, outerMm + 0.6],
    [-3.5, outerMm + 0.6],
  ]);
  const row = y(outerMm) - 12;
  dimension(on.parent, [x(0), x(depthMm)], row, [y(outerMm + 0.6) - 2, y(outerMm - 0.5) - 2], "ink");
  label(on, `receiver depth ${formatLength(depthMm, frame.unit)}`, (x(0) + x(depthMm)) / 2, row - 7, frame);
  label(on, "gauge", x(-3.5) - 6, y(0.35 * outerMm), frame, { anchor: "end" });
  // the edge that the rod's end rests on
  const edge = at(on, depthMm, outside + 0.4);
  add(on.parent, "circle", { cx: edge[0], cy: edge[1], r: 8, stroke: "gap", "stroke-width": 2 });
  label(on, "start of the leadpipe", edge[0], y(-outerMm) + size + 8, frame, {
    fill: "gap",
    weight: 600,
  });
  rule(on.parent, [edge[0], edge[1] + 8], [edge[0], y(-outerMm) + 6], "gap", 1);
}

function drawMark(on: Bench, frame: Frame): void {
  const { x, y, outerMm, setup } = on;
  drawReceiver(on);
  const { atFaceMm, endMm } = drawShank(on);
  drawGap(on, endMm);
  drawAxis(on);
  const tip = at(on, -0.15, atFaceMm);
  drawPencil(on, tip);
  label(on, "mark here", tip[0] + 30, y(outerMm) - 22, frame, { anchor: "start" });
  const twist = x(on.fromMm) + 22;
  const half = y(0) - y(0.55 * outerMm);
  add(on.parent, "path", {
    d: `M${px(twist)},${px(y(0) - half)}C${px(twist - 18)},${px(y(0) - half / 2)},${px(twist - 18)},${px(y(0) + half / 2)},${px(twist)},${px(y(0) + half)}`,
    stroke: "ink",
    "stroke-width": 2,
  });
  add(on.parent, "path", {
    d: polygonPath(arrowhead([twist + 3, y(0) + half + 4], Math.PI / 3.4, 12, 4)),
    fill: "ink",
  });
  label(on, "light twist", twist, y(-outerMm) + size + 8, frame, { anchor: "start" });
  const middle = (x(endMm) + x(setup.receiver.depthMm)) / 2;
  rule(on.parent, [middle, y(-on.cavityMm(endMm))], [middle, y(-outerMm) + 6], "gap", 1);
  label(on, "gap", middle, y(-outerMm) + size + 8, frame, { fill: "gap", weight: 600 });
}

/** Its point at a place, its body leaning to the right up to the top of the sheet. */
function drawPencil(on: Bench, [x, y]: Point): void {
  const along = ([up, across]: readonly [number, number]): Point => [
    x + up * 0.42 + across * 0.91,
    y - up * 0.91 + across * 0.42,
  ];
  const length = (y - 6) / 0.91;
  const body = [
    [0, 0],
    [14, 5],
    [length, 5],
    [length, -5],
    [14, -5],
  ] as const;
  add(on.parent, "path", {
    d: polygonPath(body.map(along)),
    fill: "paper",
    stroke: "ink",
    "stroke-width": 1.5,
    "stroke-linejoin": "round",
  });
  add(on.parent, "path", {
    d: polygonPath(
      (
        [
          [0, 0],
          [6, 2.2],
          [6, -2.2],
        ] as const
      ).map(along),
    ),
    fill: "ink",
  });
}

function drawInsertion(on: Bench, frame: Frame): void {
  const { x, y, setup, outerMm } = on;
  const { endMm, atFaceMm } = drawShank(on);
  const { outside } = shankOf(on);
  const tipMm = outside[outside.length - 1][1];
  drawAxis(on);
  const top = outerMm + 0.8;
  const beam = top - 1.4;
  const jaw = 2.2;
  const slideEnd = setup.receiver.depthMm + 6;
  drawTool(on, [
    [-jaw, top],
    [slideEnd, top],
    [slideEnd, beam],
    [endMm + jaw, beam],
    [endMm + jaw, 0.15 * tipMm],
    [endMm, 0.15 * tipMm],
    [endMm, beam],
    [0, beam],
    [0, atFaceMm + 0.1],
    [-0.6, atFaceMm + 0.1],
    [-jaw, beam - 0.4],
  ]);
  for (const side of [1, -1])
    rule(on.parent, at(on, 0, side * (atFaceMm - 0.9)), at(on, 0, side * (atFaceMm + 0.3)), "ink", 3);
  label(on, "caliper", (x(0) + x(endMm)) / 2, y(top) - 6, frame);
  const row = y(-outerMm) + 4;
  dimension(on.parent, [x(0), x(endMm)], row, [y(-atFaceMm) + 4, y(-tipMm) + 3], "ink");
  label(
    on,
    `insertion ${formatLength(setup.mouthpiece.insertionMm, frame.unit)}`,
    (x(0) + x(endMm)) / 2,
    row + size + 5,
    frame,
  );
  label(on, "mark", x(0) - 6, row + size + 5, frame, { anchor: "end" });
}

function drawShoulder(on: Bench, frame: Frame): void {
  const { x, y, setup, outerMm, cavityMm } = on;
  const { depthMm } = setup.receiver;
  drawReceiver(on);
  const cut = cutOff(setup);
  for (const side of [1, -1] as const) {
    const { endMm, shoulderMm } = drawShank(on, side === 1 ? 0 : cut, [side]);
    drawGap(on, endMm, [side]);
    const row = y(side * outerMm) - side * 13;
    const text = side === 1 ? row - 7 : row + size + 5;
    const rim = y(side * (outerMm - 0.4)) - side * 2;
    dimension(on.parent, [x(shoulderMm), x(0)], row, [rim, rim], "muted");
    label(on, "shoulder gap: the same", x(0), text, frame, { anchor: "end", fill: "muted" });
    const wall = y(side * cavityMm(depthMm));
    dimension(on.parent, [x(endMm), x(depthMm)], row, [wall, wall], "gap", true, 2);
    const gap = formatLength(depthMm - endMm, frame.unit);
    label(on, `gap ${gap}`, x(depthMm), text, frame, { fill: "gap", weight: 700 });
  }
  drawAxis(on);
}

/** Text that keeps on the sheet. */
function label(
  on: Bench,
  text: string,
  wanted: number,
  row: number,
  { width }: Frame,
  style: Partial<TextStyle> = {},
): void {
  const { anchor = "middle" } = style;
  const room = textWidth(text, size);
  const [left, right] = { start: [0, room], middle: [room / 2, room / 2], end: [room, 0] }[anchor];
  write(on.parent, text, clamp(wanted, left, width - right), row, { size, halo: true, ...style, anchor });
}
