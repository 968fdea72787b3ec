/**
 * A profile's inner diameter at any place, linear between its points. Beyond its ends the bore keeps the diameter it has
 * there. At a step there are two: `after` it, the one that the bore goes on with, unless the one `before` is asked for, which
 * is what a bore that ends there ends with.
 */
import { exitBoreMm } from "../geometry.ts";
import type { ProfileMm } from "../setup.ts";

export type StepSide = "before" | "after";

/** Closer than this, mm, is the same place: what adding lengths up leaves of a position. */
const SAME_MM = 1e-6;

/** @param positionMm as the profile counts, which need not begin at 0 */
export function boreDiameterMm(profileMm: ProfileMm, positionMm: number, side: StepSide = "after"): number {
  const isThere = ([atMm]: ProfileMm[number]) => Math.abs(atMm - positionMm) < SAME_MM;
  const there = side === "before" ? profileMm.find(isThere) : profileMm.findLast(isThere);
  if (there) return there[1];
  const next = profileMm.findIndex(([atMm]) => atMm > positionMm);
  if (next === 0) return profileMm[0][1];
  if (next < 0) return exitBoreMm(profileMm);
  const [[x0, d0], [x1, d1]] = [profileMm[next - 1], profileMm[next]];
  return d0 + ((d1 - d0) * (positionMm - x0)) / (x1 - x0);
}

/** The profile above and below a place within it; a step standing there goes above. An end has one point left, no length. */
export function splitProfileMm(
  profileMm: ProfileMm,
  positionMm: number,
): readonly [above: ProfileMm, below: ProfileMm] {
  const above = profileMm.filter(([atMm]) => atMm < positionMm + SAME_MM);
  const last = above.at(-1);
  if (!last || last[0] < positionMm - SAME_MM)
    above.push([positionMm, boreDiameterMm(profileMm, positionMm)]);
  return [above, [above[above.length - 1], ...profileMm.filter(([atMm]) => atMm >= positionMm + SAME_MM)]];
}
