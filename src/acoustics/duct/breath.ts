/**
 * What a steady stream adds to the air column of still air: impedances in series where it loses its pressure. What they are is
 * the stream's business (`study/blown/breath.ts`); the line only puts them where they belong.
 */

/** [re, im], Pa·s/m³, at a real angular frequency, rad/s. */
export type SeriesImpedance = (omega: number) => readonly [re: number, im: number];

export interface Breath {
  /** Behind the cup, where the throat begins, Pa·s/m³. */
  readonly throatResistance: number;
  /** At the shank's end, for a gap of so many m. */
  readonly atGap: (gap: number) => SeriesImpedance;
}
