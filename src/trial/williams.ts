/**
 * A playing order balanced for position and for what was played just before (Williams 1949, Aust. J. Sci. Res. A 2, 149).
 * Even n: a Latin square of n rows in which every item follows every other exactly once. Odd n: that square and its mirror
 * image, 2n rows, in which it does so twice. Fewer rows than these are balanced as far as so few can be.
 */
import { shuffler } from "d3";

/** The whole design as its square, and for odd n the square's mirror image: rows of the places 0 … n−1. */
export function williamsSquares(n: number): number[][][] {
  // 0, 1, n−1, 2, n−2, …: neighbours differ by every step there is
  const zigzag = Array.from({ length: n }, (_, i) => (i % 2 === 1 ? (i + 1) / 2 : (n - i / 2) % n));
  const square = Array.from({ length: n }, (_, row) => zigzag.map((place) => (place + row) % n));
  return n % 2 === 0 ? [square] : [square, square.map((row) => row.toReversed())];
}

/** Repeats that balance the order wholly, or any multiple of them. */
export const balancedRepeats = (n: number): number => (n % 2 === 0 ? n : 2 * n);

/**
 * Items in playing order, a row a repeat. Which item stands where in the design is drawn, and so is the order of rows:
 * from the squares by turns, so that few repeats have both directions; and as long as there is a choice, no repeat begins
 * with what the one before ended with.
 */
export function playingOrder(n: number, repeats: number, random: () => number): number[][] {
  const shuffled = shuffler(random);
  const rows: number[][] = [];
  while (rows.length < repeats) {
    const items = shuffled(Array.from({ length: n }, (_, i) => i));
    const squares = shuffled(williamsSquares(n)).map((square) =>
      shuffled(square.map((row) => row.map((place) => items[place]))),
    );
    for (let i = 0; i < balancedRepeats(n); i++) {
      const left = squares[i % squares.length];
      const last = rows.at(-1)?.at(-1);
      const next = Math.max(
        0,
        left.findIndex((row) => row[0] !== last),
      );
      rows.push(...left.splice(next, 1));
    }
  }
  return rows.slice(0, repeats);
}
