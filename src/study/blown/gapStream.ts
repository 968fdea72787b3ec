/**
 * The steady stream across a gap as it was computed by finite elements (`flow/gapStreamTable.ts`), for a drawing: the case nearest to an
 * instrument's own, and the layer between what passes and what turns round in it. Lengths in radii of the bore.
 */
import { reynoldsNumber } from "../../flow/friction.ts";
import {
  CASES,
  CAVITY_RADIUS,
  FULLNESS,
  RADII,
  SPEED_SCALE,
  STREAM_SCALE,
  type StreamCase,
} from "../../flow/gapStreamTable.ts";
import type { Setup } from "../../setup/setup.ts";
import { flowPath, gapShape } from "./flowPath.ts";
import { flowOf } from "./resistance.ts";

/** What a stream across a gap depends on most. */
export interface GapStreamNumbers {
  readonly gapOverDiameter: number;
  /** Of the stream as it leaves the shank. */
  readonly reynolds: number;
}

/** Places on one line across the gap. */
export interface LayerPlace {
  readonly along: number;
  /** Between what goes on into the leadpipe, inside, and what turns round. */
  readonly dividing: number;
  /** Where the speed has come down to half of that in the middle, and to a tenth. */
  readonly half: number;
  readonly tenth: number;
}

export interface ComputedGapStream extends GapStreamNumbers {
  /** m of the profile u ∝ 1 − r^m that comes in. */
  readonly fullness: number;
  readonly cavityRadius: number;
  /** From the shank's end. */
  readonly along: readonly number[];
  /** From the axis. */
  readonly radii: readonly number[];
  /** Over the bore's mean speed; by place along, then by radius; 0 in metal. */
  readonly speed: readonly (readonly number[])[];
  /** Over its value at the wall; above 1 where the air turns round. */
  readonly stream: readonly (readonly number[])[];
  readonly layer: readonly LayerPlace[];
  /** Of what passes, how much turns round in the gap. */
  readonly turning: number;
}

/** The computed case that is nearest, both numbers counted by their ratio. */
export function nearestGapStream(own: GapStreamNumbers): ComputedGapStream {
  const away = ({ gapOverDiameter, reynolds }: GapStreamNumbers): number =>
    Math.log(gapOverDiameter / own.gapOverDiameter) ** 2 + Math.log(reynolds / own.reynolds) ** 2;
  const nearest = CASES.reduce((best, one) => (away(one) < away(best) ? one : best));
  const known = read.get(nearest) ?? asComputed(nearest);
  read.set(nearest, known);
  return known;
}

/** Cases that were asked for, read from their texts once. */
const read = new Map<StreamCase, ComputedGapStream>();

/**
 * An instrument's own numbers at a gap and a breath; null where no stream crosses a gap.
 * @throws SetupError on a gap the receiver cannot have
 */
export function gapStreamNumbers(
  setup: Setup,
  gapMm: number,
  litresPerMinute: number,
): GapStreamNumbers | null {
  if (gapMm === 0 || litresPerMinute === 0) return null;
  const { viscosity, density } = flowPath(setup).air;
  const { shankExit } = gapShape(setup, gapMm);
  return {
    gapOverDiameter: gapMm / (2000 * shankExit),
    reynolds: reynoldsNumber(flowOf(litresPerMinute), shankExit, viscosity / density),
  };
}

function asComputed({ gapOverDiameter, reynolds, along, ...texts }: StreamCase): ComputedGapStream {
  const [speed, stream] = [numbers(texts.speed, SPEED_SCALE), numbers(texts.stream, STREAM_SCALE)];
  const gap = 2 * gapOverDiameter;
  const layer = along.flatMap((at, i): LayerPlace[] => {
    if (at < 0 || at > gap) return [];
    const [core] = speed[i];
    return [
      {
        along: at,
        dividing: crossing(stream[i], 1, 1),
        half: crossing(speed[i], core / 2, -1),
        tenth: crossing(speed[i], core / 10, -1),
      },
    ];
  });
  return {
    gapOverDiameter,
    reynolds,
    fullness: FULLNESS,
    cavityRadius: CAVITY_RADIUS,
    along,
    radii: RADII,
    speed,
    stream,
    layer,
    turning: Math.max(...stream.flat()) - 1,
  };
}

const numbers = (lines: readonly string[], scale: number): number[][] =>
  lines.map((line) => line.split(" ").map((text) => Number(text) / scale));

/** The innermost radius where the values pass a level, rising (1) or falling (−1). */
function crossing(values: readonly number[], level: number, way: 1 | -1): number {
  const next = values.findIndex((value, j) => j > 0 && way * (value - level) >= 0);
  if (next < 0) return RADII[RADII.length - 1];
  const share = (level - values[next - 1]) / (values[next] - values[next - 1]);
  return RADII[next - 1] + share * (RADII[next] - RADII[next - 1]);
}

/** Where a streamline within the stream runs, from the axis, at every place along: `share` of what passes is inside it. */
export const streamlineRadii = ({ stream }: ComputedGapStream, share: number): number[] =>
  stream.map((values) => crossing(values, share, 1));
