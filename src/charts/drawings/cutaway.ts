/**
 * Receiver, shank, gap and leadpipe in section, true to scale both ways. What the setup does not say (outer walls, the
 * mouthpiece's shoulder, the leadpipe's wall) is drawn plausibly and carries no number.
 *
 * Distances run from the receiver's face into the instrument, mm; the axis of the bore is at radius 0.
 */
import { scaleLinear } from "d3";
import { exitBoreMm, profileLengthMm } from "../../setup/geometry.ts";
import { formatLength } from "../../units/formatLength.ts";
import { bothUnits } from "../../words/numbers.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  hitArea,
  px,
  rule,
  sheet,
  textWidth,
  typeSizes,
} from "../kit/drawing.ts";
import { referenceDash } from "../kit/marks/line.ts";
import { label } from "../kit/panel.ts";
import { keep } from "../kit/redraw.ts";
import { drawReference, drawScale, nameParts, placeGapText } from "./cutawayNotes.ts";
import { drawGap, outsideOfShank, radiusOn, shoulderRadius, stemMm } from "./cutawayParts.ts";
import { type CutawayData, describe } from "./cutawayWords.ts";
import { dimension } from "./dimension.ts";
import { invented } from "./inventedWalls.ts";
import { drawRing } from "./metal.ts";
import type { Outline } from "./profile.ts";
import { beadRadiusMm, cavityOf, centreLine, leadpipeOf, shankBoreOf } from "./section.ts";

export interface CutawayDrawing extends Drawing {
  /** How far along the bore one px is: what a pointer's movement is worth. */
  readonly mmPerPx: number;
}

/** Around the receiver's depth, on the narrowest sheet, mm. */
const least = { before: 13, after: 7 };
/** Share of a wide sheet that the mouthpiece may take. */
const mouthpieceShare = 0.3;
export function cutaway(data: CutawayData, frame: Frame): CutawayDrawing {
  const { setup } = data;
  const { receiver, mouthpiece, leadpipe } = setup;
  const { depthMm } = receiver;
  const gapMm = clamp(data.chosenGapMm, 0, depthMm);
  const insertionMm = depthMm - gapMm;
  const referenceMm = clamp(data.referenceGapMm, 0, depthMm);
  const { small, large } = typeSizes(frame);

  const outerMm = beadRadiusMm(setup);
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

  const svg = sheet(
    { ...frame, height },
    {
      name: "cutaway",
      title: "The gap in section",
      description: describe(data, frame.unit),
      role: "group",
    },
  );
  const toMm = fromMm + shownMm;
  const cavityMm = cavityOf(setup);

  // Metal that stands still.
  const wallMm = outerMm - invented.beadHeight;
  keep(svg, [setup, frame.width, frame.height], (parent) => {
    const on = { parent, x, y };
    const { endMm: pipeEndMm, bore, outside: pipe } = leadpipeOf(setup, toMm - 4 / pxPerMm);
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
  });

  // The shank, the one part that moves.
  const shank = add(svg, "g", { class: "shank", "data-part": "shank", cursor: "ew-resize" });
  const shankFromMm = Math.max(fromMm + 4 / pxPerMm, insertionMm - profileLengthMm(mouthpiece.profileMm));
  const shankBore = shankBoreOf(setup, insertionMm, shankFromMm, insertionMm);
  const shankOutside = outsideOfShank(setup, insertionMm, shankFromMm);
  const shankHatch = { direction: -1, spacing: 7, torn: "start" } as const;
  drawRing({ parent: shank, x, y }, { inside: shankBore, outside: shankOutside, ...shankHatch });
  const shoulderMm = insertionMm - depthMm - invented.shoulderClear;
  const grip = Math.max(24, x(insertionMm) + 12);
  hitArea(shank, { left: 0, right: grip, top: top - 8, bottom: bottom + 8 });

  // The gap, over the shank's end face, so that it shows even when closed.
  const gap = add(svg, "g", {
    class: "gap",
    "data-part": "gap",
    "aria-hidden": "true",
    "pointer-events": "none",
  });
  const shankBoreMm = exitBoreMm(mouthpiece.profileMm) / 2;
  const pipeMouthMm = leadpipe.profileMm[0][1] / 2;
  drawGap({ parent: gap, x, y }, { insertionMm, depthMm, shankBoreMm, pipeMouthMm, cavityMm });

  // Centre line, names, reference, dimensions.
  const notes = add(svg, "g", { "aria-hidden": "true", "pointer-events": "none" });
  const on = { parent: notes, size: small };
  centreLine({ parent: notes, x, y }, [fromMm, toMm]);
  if (!narrow) nameParts(notes, { fromMm, toMm, depthMm, insertionMm }, x, y(0.42 * pipeMouthMm), small);
  drawReference(notes, { at: x(depthMm - referenceMm), top, bottom });

  const face = x(0);
  const end = x(insertionMm);
  const start = x(depthMm);
  const rowTop = top - 13;
  const rowGap = bottom + 22;
  const rowDepth = rowGap + large + 14;
  const rowLast = rowDepth + small + 10;

  dimension(notes, [face, start], rowTop, [y(outerMm) - 3, y(wallMm) - 3], "ink");
  const depthText = `receiver depth ${formatLength(depthMm, frame.unit)}`;
  const depthHalf = textWidth(depthText, small) / 2;
  const depthMiddle = clamp((face + start) / 2, depthHalf, frame.width - depthHalf);
  label(on, depthText, depthMiddle, rowTop - 8, { anchor: "middle" });
  const shoulder = Math.max(0, x(shoulderMm));
  const shoulderTop = y(shoulderRadius(shankOutside)) - 3;
  dimension(notes, [shoulder, face], rowTop, [shoulderTop, null], "muted", x(shoulderMm) >= 0);
  const shoulderText = "shoulder gap — not the gap";
  const shoulderWidth = textWidth(shoulderText, small);
  const middle = (shoulder + face - shoulderWidth) / 2;
  const shoulderStart = Math.max(2, Math.min(middle, face - 10 - shoulderWidth));
  const collides = shoulderStart + shoulderWidth + 8 > depthMiddle - depthHalf;
  const shoulderRow = rowTop - 8 - (collides ? small + 4 : 0);
  label(on, shoulderText, shoulderStart, shoulderRow, { fill: "muted" });

  const insertionText = `insertion ${formatLength(insertionMm, frame.unit)}`;
  dimension(notes, [face, end], rowDepth, [y(-outerMm) + 3, null], "ink");
  const insertionAt = Math.max((face + end) / 2, textWidth(insertionText, small) / 2);
  label(on, insertionText, insertionAt, rowDepth + small + 3, { anchor: "middle" });

  rule(notes, [end, y(-shankBoreMm) + 4], [end, rowDepth + 4], "gap", 1);
  dimension(notes, [end, start], rowGap, [null, y(-cavityMm(depthMm)) + 3], "gap", true, 2);

  const referenceText = `compared with ${bothUnits(referenceMm, frame.unit)}`;
  const referenceAt = x(depthMm - referenceMm);
  const beyond = Math.max(referenceAt, start);
  const rightRoom = frame.width - beyond - 24 > textWidth(referenceText, small);
  const referenceRow = rightRoom ? rowDepth + small + 3 : rowLast + small + 4;
  const leader = rightRoom ? `H${px(beyond + 14)}` : "h-10";
  add(notes, "path", {
    d: `M${px(referenceAt)},${px(bottom + 4)}V${px(referenceRow - 0.36 * small)}${leader}`,
    stroke: "reference",
    "stroke-width": 1.25,
    "stroke-dasharray": referenceDash,
  });
  label(on, referenceText, rightRoom ? beyond + 20 : referenceAt - 15, referenceRow, {
    anchor: rightRoom ? "start" : "end",
    fill: "reference",
  });

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
