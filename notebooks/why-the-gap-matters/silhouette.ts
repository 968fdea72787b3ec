/** The bore in section from lips to bell, its width enlarged: what the stage just built looks like. */
import { scaleLinear } from "d3";
import {
  add,
  type Frame,
  type Point,
  polygonPath,
  resize,
  rule,
  sheet,
  typeSizes,
  write,
} from "../../src/charts/kit/drawing.ts";
import { colour } from "../../src/charts/kit/tokens.ts";
import type { ProfileMm, Setup } from "../../src/setup/setup.ts";

/** Times wider than it is, against its length. */
const enlarged = 3;

export function silhouette(setup: Setup, title: string, frame: Frame): { readonly svg: SVGSVGElement } {
  const { small } = typeSizes(frame);
  const bore = joined(setup.mouthpiece.profileMm, setup.leadpipe.profileMm, setup.body.profileMm);
  const lengthMm = bore[bore.length - 1][0];
  const widestMm = Math.max(...bore.map(([, diameter]) => diameter));
  const room = frame.width - 8;
  const x = scaleLinear([0, Math.max(lengthMm, 1500)], [4, room]);
  const pxPerMm = Math.min(enlarged * (x(1) - x(0)), (frame.height - small - 20) / widestMm);
  const axis = (widestMm * pxPerMm) / 2 + 6;
  const height = 2 * axis + small + 8;
  const svg = sheet(frame, {
    name: "silhouette",
    title,
    description: `${title}: a bore ${lengthMm.toFixed(0)} mm long, ${bore[0][1].toFixed(1)} mm wide at the lips, ${bore[bore.length - 1][1].toFixed(1)} mm at the end.`,
  });
  const side = (sign: number): Point[] =>
    bore.map(([at, diameter]) => [x(at), axis + (sign * pxPerMm * diameter) / 2]);
  const [upper, lower] = [side(-1), side(1)];
  add(svg, "path", {
    d: polygonPath([...upper, ...lower.reverse()]),
    fill: colour("gap"),
    "fill-opacity": "0.1",
  });
  for (const wall of [upper, lower])
    add(svg, "path", {
      d: polygonPath(wall).slice(0, -1),
      stroke: colour("ink"),
      "stroke-width": 1.5,
      "stroke-linejoin": "round",
    });
  rule(svg, [0, axis], [x(lengthMm) + 4, axis], colour("ink"), 0.8, "18 4 3 4");
  resize(svg, frame.width, height);
  const row = height - 4;
  write(svg, "lips", 0, row, { size: small, fill: colour("muted") });
  write(svg, `${lengthMm.toFixed(0)} mm, open end`, x(lengthMm), row, {
    size: small,
    anchor: "end",
    fill: colour("muted"),
  });
  return { svg };
}

/** Profiles end to end, as [distance from the rim, diameter]. */
function joined(...profiles: readonly ProfileMm[]): [number, number][] {
  let from = 0;
  return profiles.flatMap((profile) => {
    const start = from - profile[0][0];
    from = start + profile[profile.length - 1][0];
    return profile.map(([at, diameter]): [number, number] => [start + at, diameter]);
  });
}
