/**
 * The page's own letters. They are heavier than any other part of it, so that on a first visit they come after the first
 * curve, and letters of the same width and height stand in for them (`standIn.css`).
 */
let fetched: Promise<unknown> | null = null;

/** Resolves when the letters are there; rejects where they cannot be fetched. */
export function fetchTypeface(): Promise<unknown> {
  fetched ??= import("./font.css").then(() => document.fonts.load("1em 'Source Sans 3 Variable'"));
  return fetched;
}
