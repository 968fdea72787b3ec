/** Lips of either kind: their parameters as plain data, which messages carry and files keep, and the model that works on them. */
import type { LipModel } from "./lipModel.ts";
import { checkParameters } from "./lipParameter.ts";
import { LIP_PARAMETERS, type OneMassLips } from "./lips.ts";
import { OneMass, type OneMassValve } from "./oneMass.ts";
import { TwoWay, type TwoWayValve } from "./twoWay.ts";
import { TWO_WAY_PARAMETERS, type TwoWayLips, type TwoWayName } from "./twoWayLips.ts";

/** Those of one mass have no `model`: they are older. */
export type Lips = OneMassLips | TwoWayLips;

/** Lips in an air of density ρ, kg/m³. */
export type Valve = OneMassValve | TwoWayValve;

export const isTwoWay = (lips: Lips): lips is TwoWayLips => "model" in lips && lips.model === "two-way";

export const lipModelOf = (valve: Valve): LipModel =>
  isTwoWay(valve) ? new TwoWay(valve) : new OneMass(valve);

/** @throws OutOfRange naming the parameter, its value and what would be right */
export const checkLips = (lips: Lips): void =>
  isTwoWay(lips)
    ? checkParameters<TwoWayName>(lips, TWO_WAY_PARAMETERS)
    : checkParameters(lips, LIP_PARAMETERS);
