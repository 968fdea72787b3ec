/** The setup as it would be once a way has been gone, to be modelled before anything is cut. */
import { boreDiameterMm } from "../../setup/boreDiameter.ts";
import { SetupError } from "../../setup/problem.ts";
import { readSetup } from "../../setup/readSetup.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";
import { writeSetup } from "../../setup/writeSetup.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";
import type { CutPlan } from "./cut.ts";
import type { CutWayName } from "./cutWay.ts";

/**
 * The gap becomes the target and the shank what the way's side effects say. What was measured of the old shank says nothing
 * of the new one: the uncertainties of insertion, end diameter and single points of the mouthpiece's bore are left out, so
 * that nothing further is cut on the strength of them.
 */
export function setupAfterCut(
  setup: Setup,
  plan: CutPlan,
  name: CutWayName,
): { readonly setup: Setup } | { readonly refused: string } {
  const way = plan.ways.find((one) => one.name === name);
  if (way === undefined || plan.targetMm === undefined)
    return { refused: "The plan does not hold this way: choose one that it does." };
  if (!way.isPossible) return { refused: way.words[0] };
  const after = (what: string) => way.sideEffects.find((effect) => effect.what === what)?.afterMm;
  const endDiameterMm = after("shank end diameter");
  const lengthMm = after("mouthpiece length");
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
    return { refused: `There would be no instrument to model: ${error.message}.` };
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
