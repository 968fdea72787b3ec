/** The setup as it would be once a way has been gone, to be modelled before anything is cut. */
import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import { readSetup } from "../../setup/file/readSetup.ts";
import { writeSetup } from "../../setup/file/writeSetup.ts";
import { SetupError } from "../../setup/problem.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";
import type { CutPlan } from "./cut.ts";
import type { CutDimension, CutWay, CutWayName } from "./cutWay.ts";

/** Why there is no setup after a cut. */
export type CutRefused =
  | { readonly kind: "not-in-plan" }
  | { readonly kind: "not-possible"; readonly way: CutWay }
  /** What the checks of a setup say, to follow a colon. */
  | { readonly kind: "no-instrument"; readonly problem: string };

/**
 * The gap becomes the target and the shank what the way's side effects say. What was measured of the old shank says nothing
 * of the new one: the uncertainties of insertion, end diameter and single points of the mouthpiece's bore are left out, so
 * that nothing further is cut on the strength of them.
 */
export function setupAfterCut(
  setup: Setup,
  plan: CutPlan,
  name: CutWayName,
): { readonly setup: Setup } | { readonly refused: CutRefused } {
  const way = plan.ways.find((one) => one.name === name);
  if (way === undefined || plan.targetMm === undefined) return { refused: { kind: "not-in-plan" } };
  if (!way.isPossible) return { refused: { kind: "not-possible", way } };
  const after = (what: CutDimension) => way.sideEffects.find((effect) => effect.what === what)?.afterMm;
  const endDiameterMm = after("shank-end-diameter");
  const lengthMm = after("mouthpiece-length");
  const { mouthpiece, receiver, uncertainties } = setup;
  const changed: Setup = {
    ...setup,
    mouthpiece: {
      ...mouthpiece,
      insertionMm: withoutRoundingNoise(receiver.depthMm - plan.targetMm),
      ...(endDiameterMm !== undefined && { shankEndDiameterMm: withoutRoundingNoise(endDiameterMm) }),
      ...(lengthMm !== undefined && { profileMm: cutOff(mouthpiece.profileMm, lengthMm) }),
    },
    uncertainties: Object.fromEntries(Object.entries(uncertainties).filter(([path]) => !isOfShank(path))),
  };
  try {
    // all that a file is checked for; in mm every length comes back as it was
    return { setup: { ...readSetup(writeSetup({ ...changed, units: "mm" })), units: setup.units } };
  } catch (error) {
    if (!(error instanceof SetupError)) throw error;
    return { refused: { kind: "no-instrument", problem: error.message } };
  }
}

const isOfShank = (path: string): boolean =>
  path === "mouthpiece.insertion" ||
  path === "mouthpiece.shankEndDiameter" ||
  path.startsWith("mouthpiece.profile");

/** The bore from the rim to where the shank then ends. */
function cutOff(profileMm: ProfileMm, lengthMm: number): ProfileMm {
  const endMm = withoutRoundingNoise(profileMm[0][0] + lengthMm);
  return [
    ...profileMm.filter(([positionMm]) => positionMm < endMm),
    [endMm, withoutRoundingNoise(boreDiameterMm(profileMm, endMm, "before"))],
  ];
}
