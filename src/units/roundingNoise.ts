/**
 * Drops the last digits of a double, so that 0.3 in and 7.62 mm are the same number. Fourteen digits are half a
 * picometre in 20 m.
 */
export const withoutRoundingNoise = (value: number): number => Number(value.toPrecision(14));
