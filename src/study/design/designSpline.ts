/**
 * A leadpipe as a clamped cubic B-spline (de Boor 1978, A Practical Guide to Splines, chapters IX to XI): diameter d(x) = Σ cₖBₖ(x)
 * with evenly spaced breaks. It is linear in its control diameters cₖ, lies between them, and widens throughout where they do.
 */
import { OutOfRange } from "../../units/outOfRange.ts";

export interface Spline {
  readonly lengthMm: number;
  /** Where along the leadpipe each control diameter is felt most (Greville's abscissae), mm. */
  readonly controlsMm: readonly number[];
  /** The `derivative`th derivative of every Bₖ at a place. */
  readonly basis: (xMm: number, derivative?: number) => readonly number[];
  /** Ends of its cubic pieces, mm; in between the second derivative is a straight line. */
  readonly breaksMm: readonly number[];
}

const DEGREE = 3;

/** @param controls how many control diameters, at least four @throws OutOfRange on another number of them */
export function splineOf(lengthMm: number, controls: number): Spline {
  if (!Number.isInteger(controls) || controls < DEGREE + 1 || controls > 40)
    throw new OutOfRange(
      `${controls} knots make no cubic leadpipe: give a whole number from ${DEGREE + 1} to 40`,
    );
  const pieces = controls - DEGREE;
  const breaksMm = Array.from({ length: pieces + 1 }, (_, i) => (lengthMm * i) / pieces);
  const knots = [...Array(DEGREE).fill(0), ...breaksMm, ...Array(DEGREE).fill(lengthMm)] as number[];
  const over = (value: number, span: number): number => (span > 0 ? value / span : 0);

  /** Bₖ of degree p on [tₖ, tₖ₊ₚ₊₁]; the last piece holds its end. */
  const value = (k: number, p: number, x: number): number => {
    if (p === 0)
      return (knots[k] <= x && x < knots[k + 1]) || (x === lengthMm && knots[k] < x && knots[k + 1] === x)
        ? 1
        : 0;
    return (
      over((x - knots[k]) * value(k, p - 1, x), knots[k + p] - knots[k]) +
      over((knots[k + p + 1] - x) * value(k + 1, p - 1, x), knots[k + p + 1] - knots[k + 1])
    );
  };
  const derived = (k: number, p: number, x: number, derivative: number): number =>
    derivative === 0
      ? value(k, p, x)
      : p *
        (over(derived(k, p - 1, x, derivative - 1), knots[k + p] - knots[k]) -
          over(derived(k + 1, p - 1, x, derivative - 1), knots[k + p + 1] - knots[k + 1]));
  return {
    lengthMm,
    breaksMm,
    controlsMm: Array.from({ length: controls }, (_, k) => (knots[k + 1] + knots[k + 2] + knots[k + 3]) / 3),
    basis: (xMm, derivative = 0) =>
      Array.from({ length: controls }, (_, k) =>
        derived(k, DEGREE, Math.min(lengthMm, Math.max(0, xMm)), derivative),
      ),
  };
}

/** Σ aₖbₖ */
export const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * b[i], 0);
