/** The modelled lips as a person may read and set them: names, usual values, ranges, sources; no physics comes with it. */
export {
  DEFAULT_LIPS,
  LIP_PARAMETERS,
  type LipParameter,
  type Lips,
  MASS_REFERENCE_HZ,
} from "../../lips/lips.ts";
