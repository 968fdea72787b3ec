/**
 * A leadpipe and the mandrel it is drawn on, as a lathe makes them: straight segments, each with its taper, counted from one
 * datum, the start of the leadpipe. A bore of many points is put into the fewest segments that stay within a share of the
 * working tolerance (Ramer 1972, Douglas & Peucker 1973: the point farthest from the line parts it, until none is too far).
 *
 *   outside of the tube = bore + 2·wall          mandrel = bore − spring-back, longer at both ends by what is cut off
 *
 * Spring-back is how much wider than its mandrel a tube comes off it, on the diameter; it is measured on a drawn tube.
 */
import { isWall } from "../../setup/geometry.ts";
import type { ProfileMm } from "../../setup/setup.ts";

export interface TubeQuestion {
  /** Bore of the leadpipe from its start. */
  readonly profileMm: ProfileMm;
  readonly wallMm: number;
  /** On the diameter, mm. */
  readonly springBackMm: number;
  /** Longer than the tube by this at each end, mm. */
  readonly overrunMm: number;
  /** ± on every diameter, mm. */
  readonly toleranceMm: number;
}

export interface TubeSegment {
  /** From the datum, mm; below 0 for what a mandrel has before it. */
  readonly fromMm: number;
  readonly toMm: number;
  readonly fromDiameterMm: number;
  readonly toDiameterMm: number;
  /** Change of diameter per length, above 0 where it widens; undefined at a step. */
  readonly taper: number | undefined;
}

export interface TaperedTube {
  readonly segments: readonly TubeSegment[];
  readonly wallMm: number;
  readonly toleranceMm: number;
  /** How far the segments depart from the bore at most, on the diameter, mm. */
  readonly departureMm: number;
  /** Where it first turns from widening to narrowing or back: past that a mandrel of one piece comes out of neither end. */
  readonly turnsAtMm: number | undefined;
}

export type TubeFlaw =
  | { readonly kind: "nothing-left"; readonly atMm: number }
  | { readonly kind: "out-of-range"; readonly what: "wall" | "spring-back" | "overrun" | "tolerance" };

/** Of the working tolerance that straightening may use up. */
const STRAIGHTENING_SHARE = 0.25;

/** Whether a lathe can work to it, and a drawing be of use with it, mm. */
export const isTolerance = (toleranceMm: number): boolean => toleranceMm >= 0.001 && toleranceMm <= 0.5;

/** The leadpipe itself: its bore in segments. */
export const leadpipeTube = (question: TubeQuestion): TaperedTube | TubeFlaw => tube(question, 0, 0);

/** The mandrel for it. */
export const mandrelTube = (question: TubeQuestion): TaperedTube | TubeFlaw =>
  tube(question, question.springBackMm, question.overrunMm);

function tube(
  { profileMm, wallMm, springBackMm, overrunMm, toleranceMm }: TubeQuestion,
  smallerByMm: number,
  longerByMm: number,
): TaperedTube | TubeFlaw {
  if (!(wallMm > 0 && wallMm <= 5)) return { kind: "out-of-range", what: "wall" };
  if (!(Math.abs(springBackMm) <= 1)) return { kind: "out-of-range", what: "spring-back" };
  if (!(overrunMm >= 0 && overrunMm <= 200)) return { kind: "out-of-range", what: "overrun" };
  if (!isTolerance(toleranceMm)) return { kind: "out-of-range", what: "tolerance" };
  const startMm = profileMm[0][0];
  const bore = profileMm.map(([atMm, diameterMm]) => [atMm - startMm, diameterMm - smallerByMm] as const);
  const { kept, departureMm } = straightened(bore, STRAIGHTENING_SHARE * toleranceMm);
  const points = extended(kept, longerByMm);
  const gone = points.find(([, diameterMm]) => !(diameterMm > 0));
  if (gone) return { kind: "nothing-left", atMm: gone[0] };
  const segments = points.slice(1).map((to, i) => segment(points[i], to));
  return {
    segments,
    wallMm,
    toleranceMm,
    departureMm,
    turnsAtMm: turnsAtMm(segments),
  };
}

function turnsAtMm(segments: readonly TubeSegment[]): number | undefined {
  const growing = segments.filter(({ fromDiameterMm, toDiameterMm }) => fromDiameterMm !== toDiameterMm);
  const sense = ({ fromDiameterMm, toDiameterMm }: TubeSegment) => Math.sign(toDiameterMm - fromDiameterMm);
  return growing.find((one) => sense(one) !== sense(growing[0]))?.fromMm;
}

function segment(from: ProfileMm[number], to: ProfileMm[number]): TubeSegment {
  return {
    fromMm: from[0],
    toMm: to[0],
    fromDiameterMm: from[1],
    toDiameterMm: to[1],
    taper: isWall(from, to) ? undefined : (to[1] - from[1]) / (to[0] - from[0]),
  };
}

/** The end segments go on as they are; behind a step the bore goes on as a cylinder. */
function extended(points: ProfileMm, byMm: number): ProfileMm {
  if (byMm === 0) return points;
  const beyond = (end: ProfileMm[number], inner: ProfileMm[number]) => {
    const away = Math.sign(end[0] - inner[0]);
    const taper = isWall(end[0] < inner[0] ? end : inner, end[0] < inner[0] ? inner : end)
      ? 0
      : (end[1] - inner[1]) / (end[0] - inner[0]);
    return [end[0] + away * byMm, end[1] + taper * away * byMm] as const;
  };
  const last = points.length - 1;
  const [before, after] = [beyond(points[0], points[1]), beyond(points[last], points[last - 1])];
  return [before, ...points, after];
}

/** The fewest points whose straight lines stay within a distance of the others, on the diameter; steps stay steps. */
export function straightened(
  profileMm: ProfileMm,
  withinMm: number,
): { readonly kept: ProfileMm; readonly departureMm: number } {
  const isKept = profileMm.map((point, i) => {
    const isEdge = i === 0 || i === profileMm.length - 1;
    return isEdge || isWall(profileMm[i - 1], point) || isWall(point, profileMm[i + 1]);
  });
  let departureMm = 0;
  const part = (from: number, to: number): void => {
    const [[x0, d0], [x1, d1]] = [profileMm[from], profileMm[to]];
    let worst = { at: -1, offMm: 0 };
    for (let i = from + 1; i < to; i++) {
      const [x, d] = profileMm[i];
      const offMm = Math.abs(d - (d0 + ((d1 - d0) * (x - x0)) / (x1 - x0)));
      if (offMm > worst.offMm) worst = { at: i, offMm };
    }
    if (worst.at < 0) return;
    if (worst.offMm <= withinMm) {
      departureMm = Math.max(departureMm, worst.offMm);
      return;
    }
    isKept[worst.at] = true;
    part(from, worst.at);
    part(worst.at, to);
  };
  const edges = isKept.flatMap((is, i) => (is ? [i] : []));
  edges.slice(1).forEach((to, i) => {
    part(edges[i], to);
  });
  return { kept: profileMm.filter((_, i) => isKept[i]), departureMm };
}
