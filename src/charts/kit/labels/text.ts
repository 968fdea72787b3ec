/** Text that is fitted to the room it has. */
import { clamp, type TextStyle, textWidth, write } from "../drawing.ts";

/** A drawing's own title, at the top left. */
export const heading = (parent: Element, text: string, size: number) =>
  write(parent, text, 0, size, { size, weight: 600 });

export const shortened = (text: string, most: number): string =>
  text.length > most ? `${text.slice(0, Math.max(1, most - 1))}…` : text;

/** The first that is narrower than the room. */
export const firstFitting = (texts: readonly string[], room: number, size: number): string | undefined =>
  texts.find((text) => textWidth(text, size) < room);

/** Centred on a place, or as near to it as its ends allow. */
export function writeWithin(
  parent: Element,
  text: string,
  at: number,
  row: number,
  [left, right]: readonly [number, number],
  style: TextStyle,
) {
  const half = textWidth(text, style.size) / 2;
  return write(parent, text, clamp(at, left + half, right - half), row, { ...style, anchor: "middle" });
}

/** A name at the start of a line. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
