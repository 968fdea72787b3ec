/**
 * The shank's wall in section, before and after: what is taken off or laid on in the accent. Lengths are true to one scale,
 * diameters to a larger one, and a thin layer is drawn thicker still; the drawing says by how much. One wall is shown, the
 * bore below it.
 */
import { scaleLinear } from "d3";
import { exitBoreMm } from "../../setup/geometry.ts";
import type { LengthUnit } from "../../units/length.ts";
import { bothUnits } from "../../words/numbers.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  resize,
  rule,
  type Scale,
  sheet,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import type { Figure } from "../kit/figure.ts";
import { arrowhead } from "../kit/marks/arrowhead.ts";
import { hatchPath } from "../kit/marks/hatch.ts";
import { referenceDash } from "../kit/marks/line.ts";
import { label } from "../kit/panel.ts";
import type { Paint } from "../kit/tokens.ts";
import { dimension } from "./dimension.ts";
import { boreBetween, type Outline } from "./profile.ts";
import {
  cutInWords,
  cutTable,
  endWallMm,
  fineLength,
  type ShankCut,
  type ShankState,
  shankEndMm,
} from "./shankCut.ts";

/** Of the shank before the receiver's face, mm. */
const shownBefore = 5;
/** A layer thinner than this cannot be seen, px. */
const leastLayer = 7;
const wallRoom = 150;

export function cutDrawing(cut: ShankCut, frame: Frame): Drawing {
  const { before, after, taper } = cut;
  const { unit } = frame;
  const { small } = typeSizes(frame);
  const endMm = shankEndMm(before);
  const newEndMm = shankEndMm(after);
  const cutOffMm = endMm - newEndMm;
  const layerMm = (after.endDiameterMm + taper * (newEndMm - endMm) - before.endDiameterMm) / 2;

  const fromMm = Math.max(
    before.boreMm[0][0],
    endMm - Math.max(before.insertionMm, after.insertionMm + cutOffMm) - shownBefore,
  );
  const outsideMm = (at: number) => (before.endDiameterMm + taper * (endMm - at)) / 2;
  const bore = boreBetween(before.boreMm, fromMm, endMm, 0);
  const lowMm = Math.min(...bore.map(([, radius]) => radius));
  const highMm = Math.max(lowMm + 0.1, outsideMm(fromMm), outsideMm(endMm));

  const rightRoom = clamp(0.24 * frame.width, 92, 190);
  const x = scaleLinear([fromMm, endMm], [0, frame.width - rightRoom]);
  const pxPerMm = x(1) - x(0);
  const radialPxPerMm = wallRoom / (highMm - lowMm);
  const isCutOff = Math.abs(cutOffMm) > 1e-9;
  const layerTimes = isCutOff
    ? 1
    : Math.max(1, Math.ceil(leastLayer / Math.max(1e-6, Math.abs(layerMm) * radialPxPerMm)));
  const drawnLayer = isCutOff ? 0 : layerTimes * layerMm * radialPxPerMm;
  const top = 2 * small + 24 + Math.max(0, drawnLayer);
  const y = scaleLinear([lowMm, highMm], [top + wallRoom, top]);
  const under = top + wallRoom + (isCutOff ? 2 * small + 14 : small + 6);
  const height = under + 2 * small + 14;

  const svg = sheet(frame, {
    name: "cut-drawing",
    title: "The shank's wall, before and after",
    description: cutInWords(cut, unit),
  });
  resize(svg, frame.width, height);
  const drawn = add(svg, "g", { "aria-hidden": "true" });
  const line = (outline: Outline, lift = 0): Point[] =>
    outline.map(([at, radius]) => [x(at), y(radius) - lift]);
  const outside = (toMm: number, lift = 0): Point[] =>
    line(
      [
        [toMm, outsideMm(toMm)],
        [fromMm, outsideMm(fromMm)],
      ],
      lift,
    );

  const stays = [
    ...line(boreBetween(before.boreMm, fromMm, newEndMm, 0)),
    ...outside(newEndMm, Math.min(0, drawnLayer)),
  ];
  metal(drawn, stays);
  const changed: Point[] = isCutOff
    ? [
        ...line(boreBetween(before.boreMm, newEndMm, endMm, 0)),
        [x(endMm), y(outsideMm(endMm))],
        [x(newEndMm), y(outsideMm(newEndMm))],
      ]
    : [...outside(endMm), ...outside(endMm, drawnLayer).reverse()];
  accent(drawn, changed);

  const notes = add(svg, "g", { "aria-hidden": "true" });
  const edge = Math.min(0, -drawnLayer);
  face(notes, cut, { x, y: (at) => y(outsideMm(at)) + edge, endMm, newEndMm, row: small + 4, size: small });
  const on = { parent: notes, size: small };
  const bold = { fill: "gap", weight: 600 } as const;
  if (isCutOff) {
    const row = top + wallRoom + 12;
    const bottom = y(bore[bore.length - 1][1]) + 3;
    dimension(notes, [x(newEndMm), x(endMm)], row, [bottom, bottom], "gap");
    label(on, `${bothUnits(cutOffMm, unit)} off`, x(endMm) + 22, row + 0.36 * small, bold);
  } else {
    const at = 0.42 * x(endMm) + 0.58 * x(endMm - before.insertionMm);
    const words = `${fineLength(Math.abs(layerMm), unit)} ${layerMm < 0 ? "off" : "on"}, all along`;
    const tip = y(outsideMm(x.invert(at))) - drawnLayer / 2;
    rule(notes, [at, small + 8], [at, tip], "gap", 0.9);
    label(on, words, clamp(at, 0, frame.width - textWidth(words, small)), small + 4, bold);
  }
  if (cut.isEndKnown)
    wall(notes, cut, {
      at: x(endMm) + 12,
      from: [x(newEndMm), y(exitBoreMm(after.boreMm) / 2)],
      to: [x(newEndMm), y(outsideMm(newEndMm)) - drawnLayer],
      size: small,
      unit,
    });
  label(on, "bore", 0.62 * x(endMm), y(bore[bore.length - 1][1]) + 2 * small + 6, { fill: "muted" });
  scaleWords(radialPxPerMm / pxPerMm, layerTimes).forEach((words, i) => {
    label(on, words, 6, under + (i + 1) * (small + 3), { fill: "muted" });
  });
  return { svg, x, y, plot: { left: 0, right: x(endMm), top, bottom: top + wallRoom } };
}

/** What is written on the drawing and, in the page, beneath it. */
function scaleWords(radial: number, layerTimes: number): string[] {
  return [
    `diameters ${radial.toFixed(1)} times as large as lengths`,
    ...(layerTimes > 1 ? [`the layer ${layerTimes} times as thick again`] : []),
  ];
}

function metal(parent: Element, polygon: readonly Point[]): void {
  add(parent, "path", { "data-part": "shank", d: polygonPath(polygon), fill: "metal" });
  add(parent, "path", { d: hatchPath(polygon, 8, -1), stroke: "metal-hatch", "stroke-width": 0.9 });
  outlined(parent, polygon, "ink", 1.5);
}

function accent(parent: Element, polygon: readonly Point[]): void {
  add(parent, "path", {
    "data-part": "change",
    d: polygonPath(polygon),
    fill: "gap",
    "fill-opacity": "0.14",
  });
  add(parent, "path", { d: hatchPath(polygon, 4, 1), stroke: "gap", "stroke-width": 1 });
  outlined(parent, polygon, "gap", 1.25);
}

/** All but the left edge, where the part is only broken off. */
function outlined(parent: Element, polygon: readonly Point[], stroke: Paint, width: number): void {
  polygon.forEach((point, i) => {
    const next = polygon[(i + 1) % polygon.length];
    if (point[0] < 0.5 && next[0] < 0.5) return;
    rule(parent, point, next, stroke, width);
  });
}

interface FacePlaces {
  readonly x: Scale;
  /** The outermost line drawn there, px. */
  readonly y: (atMm: number) => number;
  readonly endMm: number;
  readonly newEndMm: number;
  readonly row: number;
  readonly size: number;
}

/** Where the receiver's face stands on the shank, now and afterwards. */
function face(parent: Element, { before, after }: ShankCut, places: FacePlaces): void {
  const { x, y, endMm, newEndMm, row, size } = places;
  const nowMm = endMm - before.insertionMm;
  const thenMm = newEndMm - after.insertionMm;
  const isSame = Math.abs(x(nowMm) - x(thenMm)) < 1;
  const mark = (atMm: number, stroke: Paint, dash?: string) =>
    rule(parent, [x(atMm), row + 6], [x(atMm), y(atMm) + 14], stroke, 1.25, dash);
  mark(nowMm, "reference", referenceDash);
  if (!isSame) mark(thenMm, "gap");
  const isThenLeft = thenMm < nowMm;
  const on = { parent, size };
  const beside = (words: string, atMm: number, isLeft: boolean, fill: Paint) =>
    label(on, words, x(atMm) + (isLeft ? -4 : 4), row + size + 4, { anchor: isLeft ? "end" : "start", fill });
  const left = x(Math.min(nowMm, thenMm)) - textWidth("receiver’s", size);
  label(on, "receiver’s face", Math.max(0, left), row, { fill: "muted" });
  beside(isSame ? "now and then" : "now", nowMm, !isThenLeft && !isSame, "reference");
  if (!isSame) beside("then", thenMm, isThenLeft, "gap");
}

interface WallPlaces {
  /** Where its dimension stands, px. */
  readonly at: number;
  readonly from: Point;
  readonly to: Point;
  readonly size: number;
  readonly unit: LengthUnit;
}

/** The wall at the end as it then is, dimensioned beside it. */
function wall(parent: Element, { before, after }: ShankCut, { at, from, to, size, unit }: WallPlaces): void {
  for (const [x, y] of [from, to]) rule(parent, [x + 3, y], [at + 4, y], "ink", 0.8);
  rule(parent, [at, from[1]], [at, to[1]], "ink");
  for (const [tip, angle] of [
    [from, Math.PI / 2],
    [to, -Math.PI / 2],
  ] as const)
    add(parent, "path", { d: polygonPath(arrowhead([at, tip[1]], angle)), fill: "ink" });
  const words = (state: ShankState) => fineLength(endWallMm(state), unit);
  const middle = (from[1] + to[1]) / 2;
  write(parent, "wall then", at + 9, middle - 0.7 * size, { size });
  write(parent, words(after), at + 9, middle + 0.5 * size, { size, weight: 700 });
  write(parent, `now ${words(before)}`, at + 9, middle + 1.7 * size, { size, fill: "muted" });
}

export const cutFigure: Figure<ShankCut> = {
  name: "cut-drawing",
  label: "The shank's wall before and after, in section",
  about:
    "One wall of the shank cut open along its axis, the bore below it. Lengths are to one scale, diameters to a larger one, " +
    "and a layer too thin to be seen is drawn thicker again: the drawing says by how much. The wall is given as it is, " +
    "not as it is drawn. The receiver's face is where the receiver begins on the seated shank.",
  caption: () => "Hatched in the accent: what is taken off, or laid on.",
  height: () => 240,
  draw: cutDrawing,
  table: cutTable,
};
