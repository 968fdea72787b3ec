/** The resonance that stands out in every chart: the one pointed at, or the one chosen. */
import type { Cursor } from "../../chart/cursor.ts";
import type { Page } from "../../state/page.ts";

export const highlighted = ({ store }: Page, cursor: Cursor): number =>
  cursor.parts.resonance ?? store.parts.view.resonance;
