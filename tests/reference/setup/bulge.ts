/** Smooth bulges side by side along an open pipe: what widens it at a place, in units of their heights. */

/** @param place of the whole open part, 0 to 1; @param heights of raised cosines, equally far apart, none at the ends */
export function bulgeAt(heights: readonly number[], place: number): number {
  return heights.reduce((sum, height, i) => {
    const off = place * (heights.length + 1) - (i + 1);
    return Math.abs(off) < 1 ? sum + (height * (1 + Math.cos(Math.PI * off))) / 2 : sum;
  }, 0);
}
