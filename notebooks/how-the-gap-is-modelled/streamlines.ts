/** The flow through the gap, to scale: between neighbouring lines passes a tenth of it. */
import { scaleLinear } from "d3";
import { GapField, type StraightCavity } from "../../src/acoustics/gap/gapField.ts";
import {
  add,
  type Frame,
  type Point,
  polygonPath,
  px,
  rule,
  sheet,
  typeSizes,
  write,
} from "../../src/charts/kit/drawing.ts";
import { hatchPath } from "../../src/charts/kit/marks/hatch.ts";
import { colour } from "../../src/charts/kit/tokens.ts";
import { bothUnits } from "../../src/words/numbers.ts";

const millimetre = 1e-3;
/** Drawn of the long ducts and of the metal around them, mm. */
const beforeMm = 7;
const metalMm = 1.6;
/** Parts of the flow whose edges are drawn, and places along the axis. */
const parts = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9];
const stepMm = 0.1;

export interface Shape {
  readonly shankExitMm: number;
  readonly cavityMm: number;
  readonly leadpipeMm: number;
  readonly gapMm: number;
}

export function streamlines(shape: Shape, frame: Frame): { readonly svg: SVGSVGElement } {
  const { small } = typeSizes(frame);
  const { shankExitMm, cavityMm, leadpipeMm, gapMm } = shape;
  const shownMm = Math.max(2 * beforeMm + gapMm, 2 * beforeMm + 4);
  const tallMm = 2 * (Math.max(shankExitMm, cavityMm, leadpipeMm) + metalMm);
  const pxPerMm = Math.min(frame.width / shownMm, (frame.height - small - 12) / tallMm);
  const widthMm = frame.width / pxPerMm;
  const fromMm = -(widthMm - gapMm) / 2;
  const x = scaleLinear([fromMm, fromMm + widthMm], [0, frame.width]);
  const axis = (tallMm * pxPerMm) / 2;
  const y = (radiusMm: number) => axis - radiusMm * pxPerMm;
  const svg = sheet(frame, {
    name: "streamlines",
    title: "The flow through the gap",
    description: `Nine lines between which a tenth of the flow passes each. Straight in the long bores, they bulge into the cavity, ${bothUnits(gapMm, "mm")} long, by a part of its depth.`,
  });

  const metal: Point[] = [
    [fromMm, shankExitMm],
    [0, shankExitMm],
    [0, cavityMm],
    [gapMm, cavityMm],
    [gapMm, leadpipeMm],
    [fromMm + widthMm, leadpipeMm],
    [fromMm + widthMm, tallMm / 2],
    [fromMm, tallMm / 2],
  ];
  for (const side of [1, -1]) {
    const wall = metal.map(([at, radius]): Point => [x(at), y(side * radius)]);
    add(svg, "path", { d: polygonPath(wall), fill: colour("metal") });
    add(svg, "path", {
      d: hatchPath(wall, 7, side === 1 ? 1 : -1),
      stroke: colour("metal-hatch"),
      "stroke-width": 0.9,
    });
    add(svg, "path", {
      d: polygonPath(wall.slice(0, 6)).slice(0, -1),
      stroke: colour("ink"),
      "stroke-width": 1.5,
    });
    const ring: Point[] = [
      [x(0), y(side * shankExitMm)],
      [x(0), y(side * cavityMm)],
      [x(gapMm), y(side * cavityMm)],
      [x(gapMm), y(side * leadpipeMm)],
    ];
    add(svg, "path", { d: polygonPath(ring), fill: colour("gap"), "fill-opacity": "0.18" });
  }
  const field = new GapField(inMetres(shape));
  const count = Math.round(widthMm / stepMm);
  const places = Array.from({ length: count + 1 }, (_, i) => fromMm + (i * widthMm) / count);
  const radii = places.map((at) => field.radiiOf(parts, at * millimetre));
  parts.forEach((part, k) => {
    for (const side of [1, -1])
      add(svg, "path", {
        d: `M${places.map((at, i) => `${px(x(at))},${px(y((side * radii[i][k]) / millimetre))}`).join("L")}`,
        stroke: colour("gap"),
        "stroke-width": part === 0.9 ? 1.75 : 1,
        "stroke-linejoin": "round",
      });
  });
  rule(svg, [0, axis], [frame.width, axis], colour("ink"), 0.8, "18 4 3 4");
  const row = 2 * axis + small + 4;
  write(svg, "shank", 0, row, { size: small, fill: colour("muted") });
  write(svg, `gap ${bothUnits(gapMm, "mm")}`, x(gapMm / 2), row, {
    size: small,
    anchor: "middle",
    fill: colour("gap"),
    weight: 600,
  });
  write(svg, "leadpipe", frame.width, row, { size: small, anchor: "end", fill: colour("muted") });
  return { svg };
}

const inMetres = ({ shankExitMm, cavityMm, leadpipeMm, gapMm }: Shape): StraightCavity => ({
  shankExit: shankExitMm * millimetre,
  cavity: cavityMm * millimetre,
  leadpipe: leadpipeMm * millimetre,
  gap: gapMm * millimetre,
});
