/** Where the section stands on its sheet: the scales, the same both ways, and the rows of notes over and under it. */
import { scaleLinear } from "d3";
import type { Setup } from "../../setup/setup.ts";
import { formatLength } from "../../units/formatLength.ts";
import { clamp, type Frame, textWidth, typeSizes } from "../kit/drawing.ts";
import { stemMm } from "./cutawayParts.ts";
import { beadRadiusMm } from "./section.ts";

/** Around the receiver's depth, on the narrowest sheet, mm. */
const least = { before: 13, after: 7 };
/** Share of a wide sheet that the mouthpiece may take. */
const mouthpieceShare = 0.3;

export type CutawayPlace = ReturnType<typeof placeCutaway>;

export function placeCutaway(setup: Setup, frame: Frame) {
  const { depthMm } = setup.receiver;
  const { small, large } = typeSizes(frame);
  const outerMm = beadRadiusMm(setup);
  const isNarrow = frame.width < 560;
  const above = isNarrow ? 2 * small + 26 : small + 24;
  const below = isNarrow ? large + 3 * small + 62 : large + small + 46;
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
  const toMm = fromMm + shownMm;
  const x = scaleLinear([fromMm, toMm], [0, frame.width]);
  const axis = above + outerMm * pxPerMm;
  const top = axis - outerMm * pxPerMm;
  const bottom = axis + outerMm * pxPerMm;
  const y = scaleLinear([-outerMm, outerMm], [bottom, top]);
  const rowGap = bottom + 22;
  const rowDepth = rowGap + large + 14;
  const depthText = `receiver depth ${formatLength(depthMm, frame.unit)}`;
  const depthHalf = textWidth(depthText, small) / 2;
  return {
    x,
    y,
    pxPerMm,
    height,
    fromMm,
    toMm,
    outerMm,
    top,
    bottom,
    small,
    large,
    isNarrow,
    rows: { top: top - 13, gap: rowGap, depth: rowDepth, last: rowDepth + small + 10 },
    /** What is written over the receiver, in the middle of its depth where the sheet has room for it there. */
    depth: {
      text: depthText,
      half: depthHalf,
      middle: clamp((x(0) + x(depthMm)) / 2, depthHalf, frame.width - depthHalf),
    },
  };
}
