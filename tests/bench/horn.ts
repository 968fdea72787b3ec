/** The bore all rivals of the benchmark compute: a reference bore cut into about 770 cones, plane junctions. */
import { readSetup } from "../../src/setup/file/readSetup.ts";
import type { ProfileMm, Setup } from "../../src/setup/setup.ts";
import { json } from "../reference/table.ts";

const GAP_MM = 2.54;
const CONE_MM = 1.84;

function resampled(profile: ProfileMm): [number, number][] {
  const out: [number, number][] = [[...profile[0]]];
  for (let i = 1; i < profile.length; i++) {
    const [x0, d0] = profile[i - 1];
    const [x1, d1] = profile[i];
    const parts = Math.max(1, Math.round((x1 - x0) / CONE_MM));
    for (let k = 1; k <= parts; k++) out.push([x0 + ((x1 - x0) * k) / parts, d0 + ((d1 - d0) * k) / parts]);
  }
  return out;
}

export function benchHorn(): { setup: Setup; gapMm: number; sections: [number, number, number][] } {
  const setup = readSetup(json("duct/start-horn.setup.json"));
  const { mouthpiece, leadpipe, body, receiver } = setup;
  const fine: Setup = {
    ...setup,
    mouthpiece: { ...mouthpiece, profileMm: resampled(mouthpiece.profileMm) },
    leadpipe: { profileMm: resampled(leadpipe.profileMm) },
    body: { ...body, profileMm: resampled(body.profileMm) },
  };
  const cones = (profile: ProfileMm): [number, number, number][] =>
    profile.slice(1).map(([x, d], i) => [profile[i][1] / 2000, d / 2000, (x - profile[i][0]) / 1000]);
  const cavityDiameter = (x: number) => receiver.mouthDiameterMm - receiver.taper * x;
  const sections = [
    ...cones(fine.mouthpiece.profileMm),
    ...cones([
      [0, cavityDiameter(receiver.depthMm - GAP_MM)],
      [GAP_MM, cavityDiameter(receiver.depthMm)],
    ]),
    ...cones(fine.leadpipe.profileMm),
    ...cones(fine.body.profileMm),
  ];
  return { setup: fine, gapMm: GAP_MM, sections };
}
