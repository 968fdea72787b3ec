/** The key: what each line of the drawing is of, in a row. */
import { type Attributes, add, textWidth } from "../drawing.ts";
import { label, type Panel } from "../panel.ts";
import type { Paint } from "../tokens.ts";

export interface KeyItem {
  readonly text: string;
  /** The line it stands for. */
  readonly line: Attributes;
  readonly fill?: Paint | undefined;
  readonly weight?: number | undefined;
}

export interface KeyStyle {
  /** Length of the sample, px. */
  readonly sample: number;
  /** Between one item and the next, px. */
  readonly apart: number;
}

/** A sample of the line with its text beside it. */
export function keySample(
  on: Pick<Panel, "parent" | "size">,
  { text, line, fill, weight }: KeyItem,
  left: number,
  row: number,
  sample: number,
): SVGLineElement {
  const y = row - 0.33 * on.size;
  const drawn = add(on.parent, "line", { x1: left, y1: y, x2: left + sample, y2: y, ...line });
  label(on, text, left + sample + 6, row, { fill, weight });
  return drawn;
}

export const keyWidth = (
  items: readonly Pick<KeyItem, "text">[],
  { sample, apart }: KeyStyle,
  size: number,
) => items.reduce((sum, { text }) => sum + sample + 6 + textWidth(text, size) + apart, 0);

export function drawKey(
  on: Pick<Panel, "parent" | "size">,
  items: readonly KeyItem[],
  left: number,
  row: number,
  style: KeyStyle,
): void {
  let at = left;
  for (const item of items) {
    keySample(on, item, at, row, style.sample);
    at += keyWidth([item], style, on.size);
  }
}
