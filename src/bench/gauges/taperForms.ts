/** A taper in the forms that shops set it by. */

export interface TaperForms {
  /** 1 : this; undefined for a cylinder. */
  readonly ratio: number | undefined;
  /** Change of diameter, inches per inch: the same number per mm. */
  readonly perInch: number;
  readonly perFoot: number;
  /** Of the compound slide, from the axis, degrees. */
  readonly halfAngleDegrees: number;
}

/** @param taper change of diameter per length, below 0 where it narrows */
export const taperForms = (taper: number): TaperForms => ({
  ratio: taper === 0 ? undefined : 1 / Math.abs(taper),
  perInch: taper,
  perFoot: 12 * taper,
  halfAngleDegrees: (Math.atan(taper / 2) * 180) / Math.PI,
});
