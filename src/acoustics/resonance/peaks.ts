/**
 * Maxima of |Z| on the real frequency axis: bracketed on a fine grid, then Newton on d ln|Z|/df with both derivatives from
 * three neighbouring values, kept in the bracket.
 */
import type { AirColumn } from "../airColumn.ts";
import { STATE } from "../duct/twoPort.ts";
import type { Gap } from "../gap/gap.ts";

export interface Peak {
  /** Hz */
  readonly frequency: number;
  /** |Z|, Pa·s/m³ */
  readonly magnitude: number;
  /** Half of the peak's full width at 1/√2 of its height, estimated from its curvature, Hz. */
  readonly halfWidth: number;
}

/** Points a resonance spacing of the grid that peaks are looked for on. */
export const PER_SPACING = 32;
/** Distance of the neighbouring values, Hz: wide enough that ln|Z| differs by more than rounding. */
const STEP = 0.02;
/** Newton's last step, relative: the error left is its square over the peak's width. */
const CONVERGED = 1e-5;

/**
 * All peaks within the column's range, rising.
 * @param draw m of tuning slide drawn
 * @param flow for U at the rim on the grid too, as `AirColumn.curve` writes it
 */
export function peaksOf(column: AirColumn, gap: Gap, draw = 0, flow: Float64Array | null = null): Peak[] {
  const grid = column.searchGrid(PER_SPACING, draw);
  const { re, im } = column.curve(grid, gap, flow);
  const f = grid.frequencies;
  const height = Float64Array.from(re, (r, i) => 0.5 * Math.log(r * r + im[i] * im[i]));
  const peaks: Peak[] = [];
  for (let i = 1; i < f.length - 1; i++) {
    const [before, here, after] = [height[i - 1], height[i], height[i + 1]];
    if (!(here > before && here >= after)) continue;
    const vertex = f[i] + (0.5 * (f[i + 1] - f[i]) * (after - before)) / (2 * here - before - after);
    peaks.push(refine(column, gap, draw, f[i - 1], vertex, f[i + 1]));
  }
  return peaks;
}

function refine(column: AirColumn, gap: Gap, draw: number, low: number, start: number, high: number): Peak {
  const state = new Float64Array(STATE);
  const height = (f: number): number => {
    column.rimState(gap, draw, f, 0, state);
    return 0.5 * Math.log((state[0] ** 2 + state[1] ** 2) / (state[2] ** 2 + state[3] ** 2));
  };
  let f = start;
  for (let i = 0; i < 50; i++) {
    const below = height(f - STEP);
    const here = height(f);
    const above = height(f + STEP);
    const slope = (above - below) / (2 * STEP);
    const curvature = (above - 2 * here + below) / STEP ** 2;
    if (slope > 0) low = f;
    else high = f;
    const newton = f - slope / curvature;
    const next = curvature < 0 && newton >= low && newton <= high ? newton : (low + high) / 2;
    const moved = Math.abs(next - f);
    if (moved < CONVERGED * f)
      return {
        frequency: next,
        magnitude: Math.exp(here),
        halfWidth: Math.sqrt(-1 / Math.min(curvature, -1e-12)),
      };
    f = next;
  }
  return { frequency: f, magnitude: Math.exp(height(f)), halfWidth: high - low };
}
