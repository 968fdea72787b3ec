/** A steady stream through the demo: at any flow and gap, with the leadpipe's entry as wide as the reader makes it. */
import { exitBoreMm } from "../../src/setup/geometry.ts";
import type { Setup } from "../../src/setup/setup.ts";
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
