/**
 * How variants are told apart in every chart that compares them, without colour: each its number and its own dashes. The
 * reference is dashed as references are everywhere, the one that is chosen drawn thick in the accent.
 */

import { type Drawing, rule, textWidth } from "../../kit/drawing.ts";
import { keySample } from "../../kit/labels/key.ts";
import { shortened } from "../../kit/labels/text.ts";
import { referenceDash } from "../../kit/marks/line.ts";
import type { Paint } from "../../kit/tokens.ts";

export interface Variant {
  /** Its place in the list, from 1. */
  readonly number: number;
  readonly name: string;
}

/** Which of the variants stand out, by number. */
export interface Standing {
  readonly reference: number;
  readonly chosen: number;
}

export type Stroke = {
  readonly stroke: Paint;
  readonly "stroke-width": number;
  readonly "stroke-dasharray": string | undefined;
};

/** None is that of the reference, and none like another. */
const DASHES = [
  undefined,
  "2 3",
  "12 3",
  "12 3 2 3",
  "1 5",
  "4 2 1 2",
  "18 6",
  "8 3 2 3 2 3",
  "3 7",
  "20 3 3 3",
  "5 2 2 2 2 2",
  "14 6 4 6",
] as const;

export function strokeOf({ number }: Variant, { reference, chosen }: Standing): Stroke {
  if (number === reference)
    return { stroke: "reference", "stroke-width": 2.5, "stroke-dasharray": referenceDash };
  return {
    stroke: number === chosen ? "gap" : "ink",
    "stroke-width": number === chosen ? 2.5 : 1.25,
    "stroke-dasharray": DASHES[(number - 1) % DASHES.length],
  };
}

/** The reference first, the chosen one last and so on top. */
export const inDrawingOrder = <T extends Variant>(
  variants: readonly T[],
  { reference, chosen }: Standing,
): T[] => {
  const rank = ({ number }: Variant) => (number === reference ? 0 : number === chosen ? 2 : 1);
  return [...variants].sort((a, b) => rank(a) - rank(b) || a.number - b.number);
};

const samplePx = 34;

/** Names with their signs, in rows as wide as the sheet; the same places whether they are measured or drawn. */
function keyPlaces(variants: readonly Variant[], width: number, size: number) {
  let [x, row] = [0, 0];
  const most = Math.floor((width - samplePx - 8) / (0.57 * size)) - 4;
  const places = variants.map((variant) => {
    const text = `${variant.number} ${shortened(variant.name, most)}`;
    const needs = samplePx + 6 + textWidth(text, size) + 14;
    if (x > 0 && x + needs > width + 14) [x, row] = [0, row + 1];
    const place = { variant, text, x, row };
    x += needs;
    return place;
  });
  return { places, rows: row + 1 };
}

/** Height that the key takes, px. */
export const keyHeight = (variants: readonly Variant[], width: number, size: number): number =>
  keyPlaces(variants, width, size).rows * (size + 7);

export function drawVariants(
  parent: Element,
  variants: readonly Variant[],
  standing: Standing,
  top: number,
  width: number,
  size: number,
): void {
  for (const { variant, text, x, row } of keyPlaces(variants, width, size).places) {
    const isMarked = variant.number === standing.chosen || variant.number === standing.reference;
    const item = { text, line: strokeOf(variant, standing), weight: isMarked ? 650 : 400 };
    keySample({ parent, size }, item, x, top + size + row * (size + 7), samplePx);
  }
}

/** A variant's sign alone, for beside its name in a table. */
export function variantSign(variant: Variant, standing: Standing, owner: Document): Drawing["svg"] {
  const svg = owner.createElementNS("http://www.w3.org/2000/svg", "svg");
  for (const [name, value] of Object.entries({ width: "36", height: "12", viewBox: "0 0 36 12" }))
    svg.setAttribute(name, value);
  svg.setAttribute("aria-hidden", "true");
  const { stroke, "stroke-width": width, "stroke-dasharray": dash } = strokeOf(variant, standing);
  rule(svg, [0, 6], [36, 6], stroke, width, dash);
  return svg;
}
