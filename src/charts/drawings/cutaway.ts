/**
 * Receiver, shank, gap and leadpipe in section, true to scale both ways. What the setup does not say (outer walls, the
 * mouthpiece's shoulder, the leadpipe's wall) is drawn plausibly and carries no number.
 *
 * Distances run from the receiver's face into the instrument, mm; the axis of the bore is at radius 0.
 */
import { exitBoreMm, profileLengthMm } from "../../setup/geometry.ts";
import { formatLength } from "../../units/formatLength.ts";
import { bothUnits } from "../../words/numbers.ts";
import { add, clamp, type Drawing, type Frame, hitArea, rule, sheet, textWidth } from "../kit/drawing.ts";
import { label } from "../kit/panel.ts";
import { keep } from "../kit/redraw.ts";
import { drawGround } from "./cutawayGround.ts";
import { drawReference, nameParts, placeGapText } from "./cutawayNotes.ts";
import { drawGap, outsideOfShank, shoulderRadius } from "./cutawayParts.ts";
import { placeCutaway } from "./cutawayPlace.ts";
import { type CutawayData, describe } from "./cutawayWords.ts";
import { dimension } from "./dimension.ts";
import { invented } from "./inventedWalls.ts";
import { drawRing } from "./metal.ts";
import { cavityOf, centreLine, shankBoreOf } from "./section.ts";

export interface CutawayDrawing extends Drawing {
  /** How far along the bore one px is: what a pointer's movement is worth. */
  readonly mmPerPx: number;
}

export function cutaway(data: CutawayData, frame: Frame): CutawayDrawing {
  const { setup } = data;
  const { receiver, mouthpiece, leadpipe } = setup;
  const { depthMm } = receiver;
  const gapMm = clamp(data.chosenGapMm, 0, depthMm);
  const insertionMm = depthMm - gapMm;
  const referenceMm = clamp(data.referenceGapMm, 0, depthMm);
  const place = placeCutaway(setup, frame);
  const { x, y, pxPerMm, height, fromMm, toMm, outerMm, top, bottom, small, large, rows, depth } = place;

  const svg = sheet(
    { ...frame, height },
    {
      name: "cutaway",
      title: "The gap in section",
      description: describe(data, frame.unit),
      role: "group",
    },
  );
  // Metal that stands still, and what is written of it.
  keep(svg, [setup, frame.width, frame.height, frame.unit, referenceMm], (parent) =>
    drawGround(parent, setup, referenceMm, place, frame),
  );

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
  const cavityMm = cavityOf(setup);
  drawGap({ parent: gap, x, y }, { insertionMm, depthMm, shankBoreMm, pipeMouthMm, cavityMm });

  // Centre line, names, reference, dimensions.
  const notes = add(svg, "g", { "aria-hidden": "true", "pointer-events": "none" });
  const on = { parent: notes, size: small };
  centreLine({ parent: notes, x, y }, [fromMm, toMm]);
  if (!place.isNarrow)
    nameParts(notes, { fromMm, toMm, depthMm, insertionMm }, x, y(0.42 * pipeMouthMm), small);
  drawReference(notes, { at: x(depthMm - referenceMm), top, bottom });

  const [face, end, start] = [x(0), x(insertionMm), x(depthMm)];
  const shoulder = Math.max(0, x(shoulderMm));
  const shoulderTop = y(shoulderRadius(shankOutside)) - 3;
  dimension(notes, [shoulder, face], rows.top, [shoulderTop, null], "muted", x(shoulderMm) >= 0);
  const shoulderText = "shoulder gap — not the gap";
  const shoulderWidth = textWidth(shoulderText, small);
  const middle = (shoulder + face - shoulderWidth) / 2;
  const shoulderStart = Math.max(2, Math.min(middle, face - 10 - shoulderWidth));
  const collides = shoulderStart + shoulderWidth + 8 > depth.middle - depth.half;
  const shoulderRow = rows.top - 8 - (collides ? small + 4 : 0);
  label(on, shoulderText, shoulderStart, shoulderRow, { fill: "muted" });

  const insertionText = `insertion ${formatLength(insertionMm, frame.unit)}`;
  dimension(notes, [face, end], rows.depth, [y(-outerMm) + 3, null], "ink");
  const insertionAt = Math.max((face + end) / 2, textWidth(insertionText, small) / 2);
  label(on, insertionText, insertionAt, rows.depth + small + 3, { anchor: "middle" });

  rule(notes, [end, y(-shankBoreMm) + 4], [end, rows.depth + 4], "gap", 1);
  dimension(notes, [end, start], rows.gap, [null, y(-cavityMm(depthMm)) + 3], "gap", true, 2);

  placeGapText(notes, `gap ${bothUnits(gapMm, frame.unit)}`, [end, start], rows.gap, frame.width, large);
  return {
    svg,
    x,
    y,
    mmPerPx: 1 / pxPerMm,
    plot: { left: 0, right: frame.width, top, bottom },
  };
}
