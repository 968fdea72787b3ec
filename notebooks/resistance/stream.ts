/** A steady stream through the demo: at any flow and gap, with the leadpipe's entry as wide as the reader makes it. */
import { exitBoreMm } from "../../src/setup/geometry.ts";
import type { ProfileMm, Setup } from "../../src/setup/setup.ts";
import {
  type PartDrop,
  type PartName,
  type Resistance,
  resistance,
} from "../../src/study/blown/resistance.ts";
import { demo, mostGapMm } from "../paper/demo.ts";

export const shankExitMm = exitBoreMm(demo.mouthpiece.profileMm);
export const entryMm = demo.leadpipe.profileMm[0][1];

/** The demo with another width where the leadpipe begins, the rest of it as it is. */
export const withEntry = (diameterMm: number): Setup => ({
  ...demo,
  leadpipe: { profileMm: [[0, diameterMm], ...demo.leadpipe.profileMm.slice(1)] },
});

/** How far the leadpipe's edge stands out into the stream, or back from it, in words. */
export function edgeInWords(diameterMm: number): string {
  const stepMm = (diameterMm - shankExitMm) / 2;
  if (Math.abs(stepMm) < 0.005) return "flush with the shank's bore";
  return `edge ${Math.abs(stepMm).toFixed(2)} mm ${stepMm < 0 ? "in the stream" : "outside the stream"}`;
}

export const part = ({ parts }: Resistance, name: PartName): PartDrop =>
  parts.find((one) => one.part === name)!;

/** From a breath to all a player has, L/min (own choice, no source). */
export const flowRange = [5, 60] as const;
const flows = Array.from({ length: 34 }, (_, i) => flowRange[0] * (flowRange[1] / flowRange[0]) ** (i / 33));
/** Closer together where the gap begins, and with it the loss. */
const gapsMm = Array.from({ length: 41 }, (_, i) => mostGapMm * (i / 40) ** 2);

/** The same gap at every flow. */
export const overFlows = (setup: Setup, gapMm: number): readonly Resistance[] =>
  flows.map((litresPerMinute) => resistance(setup, { gapMm, litresPerMinute }));

/** The same flow at every gap. */
export const overGaps = (setup: Setup, litresPerMinute: number): readonly Resistance[] =>
  gapsMm.map((gapMm) => resistance(setup, { gapMm, litresPerMinute }));

/**
 * The demo with the corner where cup meets throat cut back by a straight chamfer.
 * @param lengthMm along the axis; 0 leaves a square edge at the cup's last point
 */
export function withChamfer(lengthMm: number): Setup {
  const { profileMm, ...mouthpiece } = demo.mouthpiece;
  return { ...demo, mouthpiece: { ...mouthpiece, profileMm: chamfered(profileMm, lengthMm) } };
}

function chamfered(profileMm: ProfileMm, lengthMm: number): ProfileMm {
  const throat = profileMm.reduce((least, point, i) => (point[1] < profileMm[least][1] ? i : least), 0);
  const [cornerMm] = profileMm[throat];
  const behind = profileMm.slice(throat);
  if (lengthMm === 0) return [...profileMm.slice(0, throat), [cornerMm, profileMm[throat - 1][1]], ...behind];
  const fromMm = cornerMm - lengthMm;
  const next = profileMm.findIndex(([x]) => x >= fromMm);
  const [[x0, d0], [x1, d1]] = [profileMm[next - 1], profileMm[next]];
  const diameterMm = d0 + ((d1 - d0) * (fromMm - x0)) / (x1 - x0);
  return [...profileMm.slice(0, next), [fromMm, diameterMm], ...behind];
}

/** Longest chamfer that is tried, mm. */
export const mostChamferMm = 2;
const chamfersMm = Array.from({ length: 21 }, (_, i) => (i * mostChamferMm) / 20);

/** Rim to room at one gap and every chamfer, as [mm, Pa]. */
export const overChamfers = (
  gapMm: number,
  litresPerMinute: number,
): readonly (readonly [chamferMm: number, dropPa: number])[] =>
  chamfersMm.map((mm) => [mm, resistance(withChamfer(mm), { gapMm, litresPerMinute }).dropPa.estimate]);
