/** A backbore at any place of its profile. */
import type { ProfileMm } from "../../setup/setup.ts";

/** Inner diameter at a position, linear between points; at a step, the diameter before it. Ends are held. */
export function boreAtMm(profileMm: ProfileMm, positionMm: number): number {
  const after = profileMm.findIndex(([position]) => position >= positionMm);
  if (after < 0) return profileMm[profileMm.length - 1][1];
  if (after === 0) return profileMm[0][1];
  const [x0, d0] = profileMm[after - 1];
  const [x1, d1] = profileMm[after];
  return x1 > x0 ? d0 + ((d1 - d0) * (positionMm - x0)) / (x1 - x0) : d0;
}

/** Where the bore is narrowest, the last such place, mm from the profile's start of positions. */
export function throatAtMm(profileMm: ProfileMm): number {
  const narrowestMm = Math.min(...profileMm.map(([, diameterMm]) => diameterMm));
  return profileMm.findLast(([, diameterMm]) => diameterMm === narrowestMm)![0];
}
