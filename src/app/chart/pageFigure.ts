/**
 * A figure that the page keeps up with: beside what is drawn and said, where its data are on the page, and what a hand and
 * keys do on it. A figure without any of this gets its data from the task that shows it.
 */
import type { Drawing, Point } from "../../charts/kit/drawing.ts";
import type { Figure } from "../../charts/kit/figure.ts";
import type { Page } from "../state/page.ts";
import type { Answer } from "../work/work.ts";
import type { Cursor } from "./cursor.ts";

/** A chart on the page, as what a hand does on it sees it. */
export interface ShownChart {
  readonly page: Page;
  readonly cursor: Cursor;
  readonly sheet: HTMLElement;
  /** Null until something is drawn. */
  readonly drawing: Drawing | null;
  /** Screen px for one of the drawing. */
  readonly zoom: number;
  /** Where in the drawing a pointer is. */
  placeOf(event: MouseEvent): Point;
  /** The same where it is among the data; null where it is not, or nothing is drawn. */
  placeInPlot(event: MouseEvent): Point | null;
  /** For who hears the page: what the read-out line says after a key. */
  say(text: string): void;
}

export interface PageFigure<Data, Followed = unknown> extends Figure<Data> {
  /** What keys do while the drawing has the focus, for who hears the page. */
  readonly keysHint?: string;
  /**
   * Its data, read by the chart itself: at every step of a hand it alone is drawn anew, and not the task it stands in. Null
   * while there is nothing to draw.
   */
  read?(page: Page, cursor: Cursor): Data | null;
  /** What the data are taken from, where that can be late. */
  answer?(page: Page): Answer<unknown>;
  /** What moves in the drawing without its being drawn anew. */
  followed?(page: Page, cursor: Cursor): Followed;
  /** Puts that in its place. */
  follow?(chart: ShownChart & { readonly drawing: Drawing }, followed: Followed): void;
  point?(event: PointerEvent, chart: ShownChart): void;
  press?(event: PointerEvent, chart: ShownChart): void;
  key?(event: KeyboardEvent, chart: ShownChart): void;
}
