/** The modelled lips as a person may read and set them: names, usual values, ranges, sources; no physics comes with it. */
export type { LipParameter } from "../../lips/lipParameter.ts";
export {
  DEFAULT_LIPS,
  LIP_PARAMETERS,
  MASS_REFERENCE_HZ,
  type OneMassLips,
} from "../../lips/lips.ts";
export {
  DEFAULT_TWO_WAY_LIPS,
  TWO_WAY_PARAMETERS,
  type TwoWayLips,
  type TwoWayName,
} from "../../lips/twoWayLips.ts";
export type { Lips } from "../../lips/valve.ts";
