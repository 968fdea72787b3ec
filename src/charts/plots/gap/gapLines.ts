/** The upright lines of a gap chart: the chosen gap, the reference, and the read-out under a pointer. */
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { add, clamp, type Frame, hitArea, polygonPath, textWidth, write } from "../../kit/drawing.ts";
import { END_LABEL_ROOM } from "../../kit/labels/endLabels.ts";
import { dot } from "../../kit/marks/dot.ts";
import { readOutLine, referenceDash, uprightLine } from "../../kit/marks/line.ts";
import { label, type Panel } from "../../kit/panel.ts";
import { type Quantity, type Series, type Slid, slideText, valueAt } from "./gapSeries.ts";

export function drawGaps(
  on: Panel,
  { sweep, chosenGapMm }: { readonly sweep: Slid; readonly chosenGapMm: number },
  row: number,
  unit: LengthUnit,
): void {
  const { parent, x, plot, size } = on;
  const at = x(chosenGapMm);
  const referenceAt = x(sweep.referenceGapMm);
  const chosenText = formatLength(chosenGapMm, unit) + slideText(sweep, chosenGapMm, unit);
  const referenceText = `compared with ${formatLength(sweep.referenceGapMm, unit)}`;
  const [width, referenceWidth] = [textWidth(chosenText, size), textWidth(referenceText, size)];
  const edge = plot.right + END_LABEL_ROOM * size;
  let middle = clamp(at, width / 2, edge - width / 2);
  let referenceMiddle = clamp(referenceAt, referenceWidth / 2, edge - referenceWidth / 2);
  const apart = (width + referenceWidth) / 2 + 8;
  const side = referenceAt <= at ? -1 : 1;
  if (side * (referenceMiddle - middle) < apart) {
    referenceMiddle = middle + side * apart;
    const beyond =
      Math.min(0, referenceMiddle - referenceWidth / 2) +
      Math.max(0, referenceMiddle + referenceWidth / 2 - edge);
    referenceMiddle -= beyond;
    middle -= beyond;
  }
  const before = {
    ...on,
    parent: add(parent, "g", { "data-part": "reference-line", "aria-hidden": "true" }),
  };
  uprightLine(before, sweep.referenceGapMm, "reference", 1.5, referenceDash, 4);
  label(before, referenceText, referenceMiddle, row, { anchor: "middle", fill: "reference" });

  const group = add(parent, "g", { class: "gap-line", "data-part": "gap-line", cursor: "ew-resize" });
  const chosen = { ...on, parent: group };
  uprightLine(chosen, chosenGapMm, "gap", 2, undefined, 4);
  const handle = polygonPath([
    [at, plot.bottom],
    [at - 5, plot.bottom + 8],
    [at + 5, plot.bottom + 8],
  ]);
  add(group, "path", { d: handle, fill: "gap" });
  label(chosen, chosenText, middle, row, { anchor: "middle", fill: "gap", weight: 600 });
  hitArea(group, { left: at - 14, right: at + 14, top: plot.top - 8, bottom: plot.bottom + 16 });
}

export function drawCursor(
  on: Panel,
  { digits, unit: valueUnit }: Pick<Quantity, "digits" | "unit">,
  series: readonly Series[],
  gapMm: number,
  highlight: number | undefined,
  { unit, instrument }: Frame,
): void {
  const { x, y, plot, size } = on;
  const at = x(gapMm);
  const parent = readOutLine(on, gapMm);
  const shown = series.find(({ n }) => n === highlight);
  const value = shown ? valueAt(shown.samples, gapMm) : null;
  let text = formatLength(gapMm, unit);
  if (value !== null && shown) {
    text += `: ${noteText(shown.n, instrument)} ${signed(value, digits)} ${valueUnit}`;
    dot(parent, [at, y(value)], 4, "ink");
  }
  const toRight = at + 8 + textWidth(text, size) < plot.right;
  const leftmost = plot.left + 4 + textWidth(text, size);
  const place = toRight ? at + 8 : Math.max(at - 8, leftmost);
  write(parent, text, place, plot.bottom - 8, { size, anchor: toRight ? "start" : "end", halo: true });
}
