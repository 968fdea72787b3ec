/** What stands still in the section while the shank moves: receiver and leadpipe, and what is written of them. */
import type { Setup } from "../../setup/setup.ts";
import { bothUnits } from "../../words/numbers.ts";
import { add, type Frame, px, textWidth } from "../kit/drawing.ts";
import { referenceDash } from "../kit/marks/line.ts";
import { label } from "../kit/panel.ts";
import { drawScale } from "./cutawayNotes.ts";
import { radiusOn } from "./cutawayParts.ts";
import type { CutawayPlace } from "./cutawayPlace.ts";
import { dimension } from "./dimension.ts";
import { invented } from "./inventedWalls.ts";
import { drawRing } from "./metal.ts";
import type { Outline } from "./profile.ts";
import { cavityOf, leadpipeOf, type Section } from "./section.ts";

export function drawGround(
  parent: Element,
  setup: Setup,
  referenceMm: number,
  place: CutawayPlace,
  frame: Frame,
): void {
  const { x, y, pxPerMm, toMm, outerMm, rows, depth, small, isNarrow } = place;
  const { depthMm } = setup.receiver;
  const wallMm = outerMm - invented.beadHeight;
  drawStandingMetal({ parent, x, y }, setup, wallMm, outerMm, toMm - 4 / pxPerMm);

  const [face, start] = [x(0), x(depthMm)];
  dimension(parent, [face, start], rows.top, [y(outerMm) - 3, y(wallMm) - 3], "ink");
  label({ parent, size: small }, depth.text, depth.middle, rows.top - 8, { anchor: "middle" });
  nameReference(parent, referenceMm, x(depthMm - referenceMm), start, place, frame);
  drawScale(parent, frame, pxPerMm, rows.last + 2 * small + 8, rows.depth, face, small, isNarrow);
}

function drawStandingMetal(on: Section, setup: Setup, wallMm: number, outerMm: number, toMm: number): void {
  const { depthMm } = setup.receiver;
  const cavityMm = cavityOf(setup);
  const { endMm: pipeEndMm, bore, outside: pipe } = leadpipeOf(setup, toMm);
  const sleeveEndMm = Math.min(depthMm + invented.sleeve, pipeEndMm);
  const inside: Outline = [
    [0, cavityMm(0)],
    [depthMm, cavityMm(depthMm)],
    ...pipe.filter(([at]) => at < sleeveEndMm),
    [sleeveEndMm, radiusOn(pipe, sleeveEndMm)],
  ];
  const outside: Outline = [
    [0, wallMm + 0.2],
    [0.4, outerMm],
    [invented.beadLength - 0.4, outerMm],
    [invented.beadLength, wallMm],
    [sleeveEndMm - 2.5, wallMm],
    [sleeveEndMm, Math.min(wallMm, radiusOn(pipe, sleeveEndMm) + 0.5)],
  ];
  drawRing(on, { inside: bore, outside: pipe, direction: -1, spacing: 4, torn: "end" });
  drawRing(on, { inside, outside, direction: 1, spacing: 7 });
}

/** Which gap the dashed line stands for, beside the part's end where there is room, else under it. */
function nameReference(
  parent: Element,
  referenceMm: number,
  at: number,
  start: number,
  { bottom, rows, small }: CutawayPlace,
  { unit, width }: Frame,
): void {
  const text = `compared with ${bothUnits(referenceMm, unit)}`;
  const beyond = Math.max(at, start);
  const isBeside = width - beyond - 24 > textWidth(text, small);
  const row = isBeside ? rows.depth + small + 3 : rows.last + small + 4;
  const leader = isBeside ? `H${px(beyond + 14)}` : "h-10";
  add(parent, "path", {
    d: `M${px(at)},${px(bottom + 4)}V${px(row - 0.36 * small)}${leader}`,
    stroke: "reference",
    "stroke-width": 1.25,
    "stroke-dasharray": referenceDash,
  });
  label({ parent, size: small }, text, isBeside ? beyond + 20 : at - 15, row, {
    anchor: isBeside ? "start" : "end",
    fill: "reference",
  });
}
