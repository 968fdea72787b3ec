/** Where marks are put: the element that takes them, the scales from data to px, the box data are drawn in, the size of type. */
import { add, type Box, type Frame, type Scale, type TextStyle, typeSizes, write } from "./drawing.ts";

export interface Panel {
  readonly parent: Element;
  readonly x: Scale;
  readonly y: Scale;
  readonly plot: Box;
  /** Of type, px. */
  readonly size: number;
}

/** px */
export const tickLength = 5;

/** What a bottom axis needs below the plot, px. */
export const bottomAxisRoom = (size: number): number => tickLength + 2 * size + 8;

/** The box that margins leave of the sheet; below it there is room for an axis if nothing else is said. */
export function plotBox(
  frame: Frame,
  { left, right, top, bottom }: { left: number; right: number; top: number; bottom?: number },
): Box {
  const below = bottom ?? bottomAxisRoom(typeSizes(frame).small);
  return { left, right: frame.width - right, top, bottom: frame.height - below };
}

export const widthOf = ({ left, right }: Box): number => right - left;
export const heightOf = ({ top, bottom }: Box): number => bottom - top;

/** A group of what is told in the description already. */
export const silent = (parent: Element): SVGGElement => add(parent, "g", { "aria-hidden": "true" });

/** Text in the panel's size. */
export const label = (
  { parent, size }: Pick<Panel, "parent" | "size">,
  text: string,
  x: number,
  y: number,
  style: Omit<TextStyle, "size"> = {},
) => write(parent, text, x, y, { size, ...style });
