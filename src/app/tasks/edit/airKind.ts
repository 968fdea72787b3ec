/** The two ways to say what the air is, and what one starts with where nothing was typed before. */
import { deepFreeze } from "../../../setup/deepFreeze.ts";
import type { AirConditions, AirConstants, Setup } from "../../../setup/setup.ts";

/** What a setup without air has. */
export const USUAL_CONDITIONS: AirConditions = {
  kind: "conditions",
  temperatureC: 22,
  humidity: 0.5,
  co2: 0.0004,
  pressurePa: 101_325,
};

/** The same air in constants, rounded: the page does no physics, a test compares them with the model's. */
export const USUAL_CONSTANTS: AirConstants = {
  kind: "constants",
  density: 1.1905,
  soundSpeed: 345.24,
  viscosity: 1.822e-5,
  heatRatio: 1.4009,
  prandtl: 0.7281,
};

export type Air = Setup["air"];
export type AirKind = Air["kind"];

const usual: Readonly<Record<AirKind, Air>> = { conditions: USUAL_CONDITIONS, constants: USUAL_CONSTANTS };

/** @param before the air of that kind that the person had, if any */
export const withAirKind = (setup: Setup, kind: AirKind, before: Air | undefined): Setup =>
  setup.air.kind === kind ? setup : deepFreeze({ ...setup, air: before ?? usual[kind] });
