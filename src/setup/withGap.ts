import { withoutRoundingNoise } from "../units/roundingNoise.ts";
import { deepFreeze } from "./deepFreeze.ts";
import { cavityDiameterMm, exactLength, exitBoreMm, shankInCavityFlaw } from "./geometry.ts";
import { SetupError } from "./problem.ts";
import type { Setup } from "./setup.ts";

/**
 * The setup with its shank moved so that the gap is `gapMm`: insertion = depth − gap.
 *
 * @throws {SetupError} at path `gap` when the gap is not between 0 and the receiver's depth, or when the shank's bore
 * would be wider than the receiver there.
 */
export function withGap(setup: Setup, gapMm: number): Setup {
  const { mouthpiece, receiver } = setup;
  const { depthMm, mouthDiameterMm, taper } = receiver;
  const length = (lengthMm: number) => exactLength(lengthMm, setup.units);
  const refuse = (message: string) => new SetupError([{ path: "gap", value: gapMm, message }]);
  if (!(gapMm >= 0 && gapMm <= depthMm)) {
    const given = Number.isFinite(gapMm) ? length(gapMm) : "what is not a finite number";
    throw refuse(
      `${given} is no gap of this receiver; give 0 ${setup.units} to its depth, ${length(depthMm)}`,
    );
  }
  const insertionMm = withoutRoundingNoise(depthMm - gapMm);
  const badFit = shankInCavityFlaw(
    exitBoreMm(mouthpiece.profileMm),
    cavityDiameterMm(mouthDiameterMm, taper, insertionMm),
    setup.units,
  );
  if (badFit) throw refuse(`at a gap of ${length(gapMm)} ${badFit}`);
  return deepFreeze({ ...setup, mouthpiece: { ...mouthpiece, insertionMm } });
}
