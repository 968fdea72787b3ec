/**
 * Receiver, shank, gap and leadpipe in section, true to scale both ways. What the setup does not say (outer walls, the
 * mouthpiece's shoulder, the leadpipe's wall) is drawn plausibly and carries no number.
 *
 * Distances run from the receiver's face into the instrument, mm; the axis of the bore is at radius 0.
 */
import { scaleLinear } from "d3";
import { cavityDiameterMm, exitBoreMm, profileLengthMm } from "../../setup/geometry.ts";
import { formatLength } from "../../units/formatLength.ts";
import { bothUnits } from "../../words/numbers.ts";
import {
  add,
  clamp,
  type Drawing,
  type Frame,
  px,
  referenceDash,
  resize,
  rule,
  sheet,
  textWidth,
  typeSizes,
  write,
} from "../kit/drawing.ts";
import { colour } from "../kit/tokens.ts";
import { drawReference, drawScale, nameParts, placeGapText } from "./cutawayNotes.ts";
import { drawGap, outsideOfShank, radiusOn, shoulderRadius, stemMm } from "./cutawayParts.ts";
import { type CutawayData, describe } from "./cutawayWords.ts";
import { dimension } from "./dimension.ts";
import { invented } from "./inventedWalls.ts";
import { drawRing } from "./metal.ts";
import { boreBetween, type Outline } from "./profile.ts";

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
  drawRing(
    { parent: still, x, y },
    { inside: pipeBore, outside: pipeOutside, direction: -1, spacing: 4, torn: "end" },
  );
  drawRing(
    { parent: still, x, y },
    { inside: receiverInside, outside: receiverOutside, direction: 1, spacing: 7 },
  );

  // The shank, the one part that moves.
  const shank = add(svg, "g", { class: "shank", "data-part": "shank", cursor: "ew-resize" });
  const profileEnd = mouthpiece.profileMm[mouthpiece.profileMm.length - 1][0];
  const shankFromMm = Math.max(fromMm + 4 / pxPerMm, insertionMm - profileLengthMm(mouthpiece.profileMm));
  const offset = insertionMm - profileEnd;
  const shankBore = boreBetween(mouthpiece.profileMm, shankFromMm - offset, profileEnd, offset);
  const shankOutside = outsideOfShank(setup, insertionMm, shankFromMm, cavityMm);
  drawRing(
    { parent: shank, x, y },
    { inside: shankBore, outside: shankOutside, direction: -1, spacing: 7, torn: "start" },
  );
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
