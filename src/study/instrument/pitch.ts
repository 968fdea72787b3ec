/** Ratios of frequency and of size, as musicians and acousticians count them. */

/** 1200 log₂(f/reference) */
export const cents = (f: number, reference: number): number => 1200 * Math.log2(f / reference);

/** 20 lg(|x|/|reference|) */
export const decibels = (x: number, reference: number): number => 20 * Math.log10(x / reference);
