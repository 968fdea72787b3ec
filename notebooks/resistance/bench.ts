/** What a repairer's reamer would do, beside the gap. */
import type { Setup } from "../../src/setup/setup.ts";
import { resistance } from "../../src/study/blown/resistance.ts";
import { demo } from "../paper/demo.ts";

/** The demo with its throat wider by so much, as far as it is at its narrowest. */
export function withWiderThroat(byMm: number): Setup {
  const { profileMm, ...mouthpiece } = demo.mouthpiece;
  const narrowest = Math.min(...profileMm.map(([, diameter]) => diameter));
  return {
    ...demo,
    mouthpiece: {
      ...mouthpiece,
      profileMm: profileMm.map(([x, diameter]) => [x, diameter === narrowest ? diameter + byMm : diameter]),
    },
  };
}

/** What a wider throat takes off the drop from rim to room, Pa. */
export const throatWiderBy = (byMm: number, gapMm: number, litresPerMinute: number): number =>
  resistance(demo, { gapMm, litresPerMinute }).dropPa.estimate -
  resistance(withWiderThroat(byMm), { gapMm, litresPerMinute }).dropPa.estimate;
