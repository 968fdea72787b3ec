import { hatchLines } from "../../../drawing/hatch.ts";
import { type Point, px } from "../drawing.ts";

/**
 * Section lines at 45° inside a polygon, as one path: a pattern would need an id, and ids collide when several drawings
 * stand on one page. `direction` 1 falls to the right, −1 rises.
 */
export const hatchPath = (polygon: readonly Point[], spacing: number, direction: 1 | -1 = 1): string =>
  hatchLines(polygon, spacing, direction)
    .map(([[x1, y1], [x2, y2]]) => `M${px(x1)},${px(y1)}L${px(x2)},${px(y2)}`)
    .join("");
