/** The upright lines of a gap chart: the chosen gap, the reference, and the read-out under a pointer. */
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { signed } from "../../../words/numbers.ts";
import {
  add,
  type Box,
  clamp,
  polygonPath,
  referenceDash,
  rule,
  type Scale,
  textWidth,
  write,
} from "../../kit/drawing.ts";
import { colour } from "../../kit/tokens.ts";
import { type Quantity, type Series, type Slid, slideText, valueAt } from "./gapSeries.ts";

export function drawGaps(
  svg: SVGSVGElement,
  { sweep, chosenGapMm }: { readonly sweep: Slid; readonly chosenGapMm: number },
  x: Scale,
  plot: Box,
  row: number,
  size: number,
  unit: LengthUnit,
): void {
  const at = x(chosenGapMm);
  const referenceAt = x(sweep.referenceGapMm);
  const chosenText = formatLength(chosenGapMm, unit) + slideText(sweep, chosenGapMm, unit);
  const referenceText = `reference ${formatLength(sweep.referenceGapMm, unit)}`;
  const [width, referenceWidth] = [textWidth(chosenText, size), textWidth(referenceText, size)];
  const edge = plot.right + 3.6 * size;
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
  const reference = add(svg, "g", { "data-part": "reference-line", "aria-hidden": "true" });
  rule(
    reference,
    [referenceAt, plot.top - 4],
    [referenceAt, plot.bottom],
    colour("reference"),
    1.5,
    referenceDash,
  );
  write(reference, referenceText, referenceMiddle, row, {
    size,
    anchor: "middle",
    fill: colour("reference"),
  });

  const chosen = add(svg, "g", { class: "gap-line", "data-part": "gap-line", cursor: "ew-resize" });
  rule(chosen, [at, plot.top - 4], [at, plot.bottom], colour("gap"), 2);
  add(chosen, "path", {
    d: polygonPath([
      [at, plot.bottom],
      [at - 5, plot.bottom + 8],
      [at + 5, plot.bottom + 8],
    ]),
    fill: colour("gap"),
  });
  write(chosen, chosenText, middle, row, { size, anchor: "middle", fill: colour("gap"), weight: 600 });
  add(chosen, "rect", {
    class: "hit",
    x: at - 14,
    y: plot.top - 8,
    width: 28,
    height: plot.bottom - plot.top + 24,
    fill: "transparent",
    "pointer-events": "all",
  });
}

export function drawCursor(
  svg: SVGSVGElement,
  { digits, unit: valueUnit, noun = "resonance" }: Pick<Quantity, "digits" | "unit" | "noun">,
  series: readonly Series[],
  gapMm: number,
  highlight: number | undefined,
  x: Scale,
  y: Scale,
  plot: Box,
  size: number,
  unit: LengthUnit,
): void {
  const at = x(gapMm);
  const group = add(svg, "g", { class: "cursor", "data-part": "cursor", "pointer-events": "none" });
  rule(group, [at, plot.top], [at, plot.bottom], colour("ink"));
  const shown = series.find(({ n }) => n === highlight);
  const value = shown ? valueAt(shown.samples, gapMm) : null;
  let text = formatLength(gapMm, unit);
  if (value !== null) {
    text += `: ${noun} ${highlight} ${signed(value, digits)} ${valueUnit}`;
    add(group, "circle", { cx: at, cy: y(value), r: 4, fill: colour("ink") });
  }
  const toRight = at + 8 + textWidth(text, size) < plot.right;
  const leftmost = plot.left + 4 + textWidth(text, size);
  write(group, text, toRight ? at + 8 : Math.max(at - 8, leftmost), plot.bottom - 8, {
    size,
    anchor: toRight ? "start" : "end",
    halo: true,
  });
}
