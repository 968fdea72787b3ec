/** The room that a page of a printed sheet has, and how close lines and drawings stand on it. */

/** From where there is room to where there is least. */
export const DENSITIES = 6;

/** The room there is, and how it is used. */
export interface Layout {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly density: number;
  /** Left over at this density, for the drawing that gains most. */
  readonly sparePx: number;
}
