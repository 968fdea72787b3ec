/**
 * Receiver, shank, gap and leadpipe in section, true to scale both ways. What the setup does not say (outer walls, the
 * mouthpiece's shoulder, the leadpipe's wall) is drawn plausibly and carries no number.
 *
 * Distances run from the receiver's face into the instrument, mm; the axis of the bore is at radius 0.
 */
import { scaleLinear } from "d3";
import { cavityDiameterMm, exitBoreMm, profileLengthMm } from "../setup/geometry.ts";
import type { Setup } from "../setup/setup.ts";
import { formatLength } from "../units/formatLength.ts";
import type { LengthUnit } from "../units/length.ts";
import { dimension, outsideTail } from "./dimension.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  type Point,
  polygonPath,
  px,
  referenceDash,
  resize,
  rule,
  type Scale,
  sheet,
  type Table,
  textWidth,
  typeSizes,
  write,
} from "./drawing.ts";
import { hatchPath } from "./hatch.ts";
import { bothUnits, inUnit } from "./numbers.ts";
import { boreBetween, type Outline } from "./profile.ts";
import { colour } from "./tokens.ts";

export interface CutawayData {
  readonly setup: Setup;
  readonly chosenGapMm: number;
  readonly referenceGapMm: number;
}

export interface CutawayDrawing extends Drawing {
  /** How far along the bore one px is: what a pointer's movement is worth. */
  readonly mmPerPx: number;
}

/** Drawn, not measured, mm. */
const invented = {
  receiverWall: 1.5,
  beadHeight: 0.5,
  beadLength: 3,
  /** Receiver beyond the start of the leadpipe, which sits in it. */
  sleeve: 9,
  leadpipeWall: 0.5,
  /** From the receiver's face to the shoulder when the gap is closed. */
  shoulderClear: 3,
  shoulderHeight: 1.6,
};
/** Around the receiver's depth, on the narrowest sheet, mm. */
const least = { before: 13, after: 7 };
/** Share of a wide sheet that the mouthpiece may take. */
const mouthpieceShare = 0.3;
/** CSS px in a millimetre of a screen that keeps to the standard. */
const pxPerScreenMm = 96 / 25.4;

export function cutaway(data: CutawayData, frame: Frame): CutawayDrawing {
  const { setup } = data;
  const { receiver, mouthpiece, leadpipe } = setup;
  const { depthMm } = receiver;
  const gapMm = clamp(data.chosenGapMm, 0, depthMm);
  const insertionMm = depthMm - gapMm;
  const referenceMm = clamp(data.referenceGapMm, 0, depthMm);
  const { small, large } = typeSizes(frame);

  const outerMm = receiver.mouthDiameterMm / 2 + invented.receiverWall + invented.beadHeight;
  const narrow = frame.width < 560;
  const above = narrow ? 2 * small + 26 : small + 24;
  const below = narrow ? large + 3 * small + 62 : large + small + 46;
  const pxPerMm = Math.max(
    1,
    Math.min(
      (frame.height - above - below) / (2 * outerMm),
      frame.width / (least.before + depthMm + least.after),
    ),
  );
  const height = above + below + 2 * outerMm * pxPerMm;
  const shownMm = frame.width / pxPerMm;
  const beforeMm = clamp(shownMm * mouthpieceShare, least.before, Math.max(least.before, stemMm(setup)));
  const fromMm = -Math.min(beforeMm, shownMm - depthMm - least.after + 1e-9);
  const x = scaleLinear([fromMm, fromMm + shownMm], [0, frame.width]);
  const axis = above + outerMm * pxPerMm;
  const y = scaleLinear([-outerMm, outerMm], [axis + outerMm * pxPerMm, axis - outerMm * pxPerMm]);
  const top = axis - outerMm * pxPerMm;
  const bottom = axis + outerMm * pxPerMm;

  const svg = sheet(frame, {
    name: "cutaway",
    title: "The gap in section",
    description: describe(data, frame.unit),
    role: "group",
  });
  resize(svg, frame.width, height);
  const toMm = fromMm + shownMm;
  const cavityMm = (at: number) => cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, at) / 2;

  // Metal that stands still.
  const still = add(svg, "g", { "aria-hidden": "true" });
  const pipeEndMm = Math.min(toMm - 4 / pxPerMm, depthMm + profileLengthMm(leadpipe.profileMm));
  const pipeStart = leadpipe.profileMm[0][0];
  const pipeBore = boreBetween(
    leadpipe.profileMm,
    pipeStart,
    pipeStart + pipeEndMm - depthMm,
    depthMm - pipeStart,
  );
  const pipeOutside = pipeBore.map(([at, radius]) => [at, radius + invented.leadpipeWall] as const);
  const sleeveEndMm = Math.min(depthMm + invented.sleeve, pipeEndMm);
  const wallMm = receiver.mouthDiameterMm / 2 + invented.receiverWall;
  const sleeveBore = pipeOutside
    .filter(([at]) => at < sleeveEndMm)
    .concat([[sleeveEndMm, radiusOn(pipeOutside, sleeveEndMm)]]);
  const receiverInside: Outline = [[0, cavityMm(0)], [depthMm, cavityMm(depthMm)], ...sleeveBore];
  const receiverOutside: Outline = [
    [0, wallMm + 0.2],
    [0.4, wallMm + invented.beadHeight],
    [invented.beadLength - 0.4, wallMm + invented.beadHeight],
    [invented.beadLength, wallMm],
    [sleeveEndMm - 2.5, wallMm],
    [sleeveEndMm, Math.min(wallMm, radiusOn(pipeOutside, sleeveEndMm) + 0.5)],
  ];
  const section = (
    parent: Element,
    inside: Outline,
    outside: Outline,
    direction: 1 | -1,
    spacing: number,
    cut?: "start" | "end",
  ) => {
    for (const side of [1, -1]) {
      const ring = ringPoints(inside, outside, side, x, y, cut);
      const d = polygonPath(ring);
      add(parent, "path", { d, fill: colour("metal") });
      add(parent, "path", {
        d: hatchPath(ring, spacing, direction),
        stroke: colour("metal-hatch"),
        "stroke-width": 0.9,
      });
      add(parent, "path", { d, stroke: colour("ink"), "stroke-width": 1.5, "stroke-linejoin": "round" });
    }
  };
  section(still, pipeBore, pipeOutside, -1, 4, "end");
  section(still, receiverInside, receiverOutside, 1, 7);

  // The shank, the one part that moves.
  const shank = add(svg, "g", { class: "shank", "data-part": "shank", cursor: "ew-resize" });
  const profileEnd = mouthpiece.profileMm[mouthpiece.profileMm.length - 1][0];
  const shankFromMm = Math.max(fromMm + 4 / pxPerMm, insertionMm - profileLengthMm(mouthpiece.profileMm));
  const offset = insertionMm - profileEnd;
  const shankBore = boreBetween(mouthpiece.profileMm, shankFromMm - offset, profileEnd, offset);
  const shankOutside = outsideOfShank(setup, insertionMm, shankFromMm, cavityMm);
  section(shank, shankBore, shankOutside, -1, 7, "start");
  const shoulderMm = insertionMm - depthMm - invented.shoulderClear;
  add(shank, "rect", {
    class: "hit",
    x: 0,
    y: top - 8,
    width: Math.max(24, x(insertionMm) + 12),
    height: bottom - top + 16,
    fill: "transparent",
    "pointer-events": "all",
  });

  // The gap, over the shank's end face, so that it shows even when closed.
  const gap = add(svg, "g", {
    class: "gap",
    "data-part": "gap",
    "aria-hidden": "true",
    "pointer-events": "none",
  });
  const shankBoreMm = exitBoreMm(mouthpiece.profileMm) / 2;
  const pipeMouthMm = leadpipe.profileMm[0][1] / 2;
  drawGap(gap, { insertionMm, depthMm, shankBoreMm, pipeMouthMm, cavityMm }, x, y);

  // Centre line, names, reference, dimensions.
  const notes = add(svg, "g", { "aria-hidden": "true", "pointer-events": "none" });
  rule(notes, [0, axis], [frame.width, axis], colour("ink"), 0.8, "18 4 3 4");
  if (!narrow) nameParts(notes, { fromMm, toMm, depthMm, insertionMm }, x, y(0.42 * pipeMouthMm), small);
  drawReference(notes, { at: x(depthMm - referenceMm), top, bottom });

  const face = x(0);
  const end = x(insertionMm);
  const start = x(depthMm);
  const outside = (mm: number) => y(mm);
  const rowTop = top - 13;
  const rowGap = bottom + 22;
  const rowDepth = rowGap + large + 14;
  const rowLast = rowDepth + small + 10;

  dimension(
    notes,
    [face, start],
    rowTop,
    [outside(wallMm + invented.beadHeight) - 3, outside(wallMm) - 3],
    colour("ink"),
  );
  const depthText = `receiver depth ${formatLength(depthMm, frame.unit)}`;
  const depthMiddle = clamp(
    (face + start) / 2,
    textWidth(depthText, small) / 2,
    frame.width - textWidth(depthText, small) / 2,
  );
  write(notes, depthText, depthMiddle, rowTop - 8, { size: small, anchor: "middle" });
  const shoulder = Math.max(0, x(shoulderMm));
  dimension(
    notes,
    [shoulder, face],
    rowTop,
    [outside(shoulderRadius(shankOutside)) - 3, null],
    colour("muted"),
    x(shoulderMm) >= 0,
  );
  const shoulderText = "shoulder gap — not the gap";
  const shoulderWidth = textWidth(shoulderText, small);
  const shoulderStart = Math.max(
    2,
    Math.min((shoulder + face - shoulderWidth) / 2, face - 10 - shoulderWidth),
  );
  const collides = shoulderStart + shoulderWidth + 8 > depthMiddle - textWidth(depthText, small) / 2;
  const shoulderRow = rowTop - 8 - (collides ? small + 4 : 0);
  write(notes, shoulderText, shoulderStart, shoulderRow, { size: small, fill: colour("muted") });

  const insertionText = `insertion ${formatLength(insertionMm, frame.unit)}`;
  dimension(notes, [face, end], rowDepth, [outside(-wallMm - invented.beadHeight) + 3, null], colour("ink"));
  write(
    notes,
    insertionText,
    Math.max((face + end) / 2, textWidth(insertionText, small) / 2),
    rowDepth + small + 3,
    {
      size: small,
      anchor: "middle",
    },
  );

  rule(notes, [end, outside(-shankBoreMm) + 4], [end, rowDepth + 4], colour("gap"), 1);
  dimension(notes, [end, start], rowGap, [null, outside(-cavityMm(depthMm)) + 3], colour("gap"), true, 2);

  const referenceText = `reference ${bothUnits(referenceMm, frame.unit)}`;
  const referenceAt = x(depthMm - referenceMm);
  const rightRoom = frame.width - Math.max(referenceAt, start) - 24 > textWidth(referenceText, small);
  const referenceRow = rightRoom ? rowDepth + small + 3 : rowLast + small + 4;
  const referenceLine = referenceRow - 0.36 * small;
  add(notes, "path", {
    d: `M${px(referenceAt)},${px(bottom + 4)}V${px(referenceLine)}${rightRoom ? `H${px(Math.max(referenceAt, start) + 14)}` : "h-10"}`,
    stroke: colour("reference"),
    "stroke-width": 1.25,
    "stroke-dasharray": referenceDash,
  });
  write(
    notes,
    referenceText,
    rightRoom ? Math.max(referenceAt, start) + 20 : referenceAt - 15,
    referenceRow,
    {
      size: small,
      anchor: rightRoom ? "start" : "end",
      fill: colour("reference"),
    },
  );

  placeGapText(notes, `gap ${bothUnits(gapMm, frame.unit)}`, [end, start], rowGap, frame.width, large);
  drawScale(notes, frame, pxPerMm, rowLast + 2 * small + 8, rowDepth, face, small, narrow);
  return {
    svg,
    x,
    y,
    mmPerPx: 1 / pxPerMm,
    plot: { left: 0, right: frame.width, top, bottom },
  };
}

export function cutawayTable({ setup, chosenGapMm, referenceGapMm }: CutawayData, unit: LengthUnit): Table {
  const { receiver, mouthpiece, leadpipe } = setup;
  const insertionMm = receiver.depthMm - chosenGapMm;
  const rows: [string, number | undefined][] = [
    ["gap", chosenGapMm],
    ["reference gap", referenceGapMm],
    ["receiver depth", receiver.depthMm],
    ["insertion", insertionMm],
    ["receiver diameter at its face", receiver.mouthDiameterMm],
    [
      "receiver diameter at the shank's end",
      cavityDiameterMm(receiver.mouthDiameterMm, receiver.taper, insertionMm),
    ],
    ["shank's end, outside diameter", mouthpiece.shankEndDiameterMm],
    ["shank's end, bore", exitBoreMm(mouthpiece.profileMm)],
    ["leadpipe's start, bore", leadpipe.profileMm[0][1]],
  ];
  return {
    columns: ["dimension", `length (${unit})`],
    rows: rows.map(([name, mm]) => [name, mm === undefined ? "" : inUnit(mm, unit)]),
  };
}

/** How much of the mouthpiece before the receiver's face can be shown at any gap: up to where the cup begins. */
function stemMm({ mouthpiece, receiver }: Setup): number {
  const length = profileLengthMm(mouthpiece.profileMm);
  return length - (mouthpiece.cupDepthMm ?? 0.3 * length) - receiver.depthMm - 3;
}

function radiusOn(outline: Outline, at: number): number {
  const next = outline.findIndex(([x]) => x >= at);
  if (next === -1) return outline[outline.length - 1][1];
  if (next === 0) return outline[0][1];
  const [[x1, r1], [x2, r2]] = [outline[next - 1], outline[next]];
  return x2 === x1 ? r2 : r1 + ((at - x1) / (x2 - x1)) * (r2 - r1);
}

/**
 * Taper up to the shoulder, as given, or fitting the receiver where nothing is given; then a body nobody has measured. A
 * shank that would cut into the receiver here is drawn touching it.
 */
function outsideOfShank(
  { mouthpiece, receiver }: Setup,
  insertionMm: number,
  fromMm: number,
  cavityMm: (at: number) => number,
): Outline {
  const endMm =
    mouthpiece.shankEndDiameterMm === undefined ? cavityMm(insertionMm) : mouthpiece.shankEndDiameterMm / 2;
  const taper = (mouthpiece.shankTaper ?? receiver.taper) / 2;
  const radius = (at: number) => {
    const own = endMm + taper * (insertionMm - at);
    return at >= 0 ? Math.min(own, cavityMm(at)) : own;
  };
  const shoulderMm = insertionMm - receiver.depthMm - invented.shoulderClear;
  const stem: [number, number][] = [shoulderMm, Math.min(0, insertionMm), insertionMm].map((at) => [
    at,
    radius(at),
  ]);
  const body = radius(shoulderMm) + invented.shoulderHeight;
  const chamfer = 0.6;
  const whole: [number, number][] = [
    [shoulderMm - 200, body + 2],
    [shoulderMm - chamfer, body],
    [shoulderMm, body - chamfer],
    ...stem,
  ];
  return [[fromMm, radiusOn(whole, fromMm)], ...whole.filter(([at]) => at > fromMm)];
}

const shoulderRadius = (outside: Outline): number => Math.max(...outside.map(([, radius]) => radius));

/** Half of a ring in section, above (1) or below (−1) the axis; a cut end is torn, as a long part is broken off. */
function ringPoints(
  inside: Outline,
  outside: Outline,
  side: number,
  x: Scale,
  y: Scale,
  cut?: "start" | "end",
): Point[] {
  const at = ([mm, radius]: readonly [number, number]): Point => [x(mm), y(side * radius)];
  const torn = (from: Point, to: Point): Point[] => {
    const steps = Math.max(2, Math.round(Math.abs(to[1] - from[1]) / 3));
    return Array.from({ length: steps - 1 }, (_, i) => {
      const atY = from[1] + ((i + 1) / steps) * (to[1] - from[1]);
      return [from[0] + 2.5 * Math.sin(atY / 5), atY];
    });
  };
  const inner = inside.map(at);
  const outer = outside.map(at).reverse();
  return [
    ...inner,
    ...(cut === "end" ? torn(inner[inner.length - 1], outer[0]) : []),
    ...outer,
    ...(cut === "start" ? torn(outer[outer.length - 1], inner[0]) : []),
  ];
}

interface GapGeometry {
  readonly insertionMm: number;
  readonly depthMm: number;
  readonly shankBoreMm: number;
  readonly pipeMouthMm: number;
  readonly cavityMm: (at: number) => number;
}

function drawGap(parent: Element, geometry: GapGeometry, x: Scale, y: Scale): void {
  const { insertionMm, depthMm, shankBoreMm, pipeMouthMm, cavityMm } = geometry;
  const point = (mm: number, radius: number): Point => [x(mm), y(radius)];
  const stream = [
    point(insertionMm, shankBoreMm),
    point(depthMm, pipeMouthMm),
    point(depthMm, -pipeMouthMm),
    point(insertionMm, -shankBoreMm),
  ];
  add(parent, "path", { d: polygonPath(stream), fill: colour("gap"), "fill-opacity": "0.2" });
  for (const side of [1, -1]) {
    const ring = [
      point(insertionMm, side * Math.min(shankBoreMm, cavityMm(insertionMm))),
      point(insertionMm, side * cavityMm(insertionMm)),
      point(depthMm, side * cavityMm(depthMm)),
      point(depthMm, side * Math.min(pipeMouthMm, cavityMm(depthMm))),
    ];
    // Outlined in its own colour, so that a closed gap still shows where it is.
    add(parent, "path", {
      d: polygonPath(ring),
      fill: colour("gap"),
      stroke: colour("gap"),
      "stroke-width": 2,
    });
  }
}

function nameParts(
  parent: Element,
  {
    fromMm,
    toMm,
    depthMm,
    insertionMm,
  }: { fromMm: number; toMm: number; depthMm: number; insertionMm: number },
  x: Scale,
  row: number,
  size: number,
): void {
  const style = { size, fill: colour("muted"), anchor: "middle" } as const;
  const shank = "mouthpiece shank";
  const left = Math.max(fromMm, insertionMm - 40);
  if (x(insertionMm) - x(left) > textWidth(shank, size) + 20)
    write(parent, shank, x((left + insertionMm) / 2), row, style);
  const pipe = "leadpipe";
  const right = Math.min(toMm, depthMm + 40);
  if (x(right) - x(depthMm) > textWidth(pipe, size) + 20)
    write(parent, pipe, x((depthMm + right) / 2), row, style);
}

/** Where the shank ends at the reference gap. */
function drawReference(
  parent: Element,
  { at, top, bottom }: { at: number; top: number; bottom: number },
): void {
  const group = add(parent, "g", { "data-part": "reference" });
  rule(group, [at, top + 2], [at, bottom + 4], colour("reference"), 1.75, referenceDash);
}

/** Beside its dimension, where there is room: right of it, left of it, or under it. */
function placeGapText(
  parent: Element,
  text: string,
  [from, to]: readonly [number, number],
  row: number,
  width: number,
  size: number,
): void {
  const clear = outsideTail + 11 + 6;
  const needs = textWidth(text, size);
  const style = { size, fill: colour("gap"), weight: 700, halo: true } as const;
  if (to + clear + needs < width) write(parent, text, to + clear, row + 0.36 * size, style);
  else if (from - clear - needs > 0)
    write(parent, text, from - clear, row + 0.36 * size, { ...style, anchor: "end" });
  else
    write(parent, text, clamp((from + to) / 2, needs / 2, width - needs / 2), row - 5, {
      ...style,
      anchor: "middle",
    });
}

function drawScale(
  parent: Element,
  { width, unit }: Frame,
  pxPerMm: number,
  lastRow: number,
  firstRow: number,
  face: number,
  size: number,
  narrow: boolean,
): void {
  const lengthMm = unit === "mm" ? 10 : 12.7;
  const length = lengthMm * pxPerMm;
  const label = unit === "mm" ? "10 mm" : "1/2 in";
  const row = narrow ? lastRow : firstRow;
  const left = 8;
  const ratio = `about ${(pxPerMm / pxPerScreenMm).toFixed(1)} : 1`;
  const room = (narrow ? width * 0.5 : face) - length - 24;
  const text =
    [`${label}, true to scale, ${ratio}`, `${label}, ${ratio}`].find((one) => textWidth(one, size) <= room) ??
    label;
  rule(parent, [left, row], [left + length, row], colour("ink"), 1.5);
  for (const at of [left, left + length / 2, left + length])
    rule(parent, [at, row - 4], [at, row + 4], colour("ink"), 1.25);
  write(parent, text, left + length + 8, row + 0.36 * size, { size, fill: colour("muted") });
  if (narrow) return;
  write(parent, "outer walls and shoulder as drawn, not measured", width - 8, size + 4, {
    size: 12,
    anchor: "end",
    fill: colour("muted"),
  });
}

function describe({ setup, chosenGapMm, referenceGapMm }: CutawayData, unit: LengthUnit): string {
  const { depthMm } = setup.receiver;
  const change = chosenGapMm - referenceGapMm;
  const against =
    Math.abs(change) < 0.005
      ? "the same as the reference"
      : `${formatLength(Math.abs(change), unit)} ${change > 0 ? "wider" : "narrower"} than the reference of ${bothUnits(referenceGapMm, unit)}`;
  return (
    `Section true to scale. The shank goes ${formatLength(depthMm - chosenGapMm, unit)} into a receiver ` +
    `${formatLength(depthMm, unit)} deep and leaves a gap of ${bothUnits(chosenGapMm, unit)} before the leadpipe, ${against}. ` +
    "The shoulder gap seen from outside is another length and is not the gap."
  );
}
