/**
 * What may be fitted to a measured impedance: few dimensions that are hard to get at with a gauge, each with the range in
 * which it still makes an instrument.
 */

import { dimensionAt } from "../../setup/dimension/dimension.ts";
import { cavityDiameterMm, exitBoreMm } from "../../setup/geometry.ts";
import { gapMm, type Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";
import { OutOfRange } from "../../units/outOfRange.ts";

export const UNKNOWNS = ["leadpipe-entry", "wall-loss", "temperature", "receiver-mouth", "gap"] as const;
export type UnknownName = (typeof UNKNOWNS)[number];

export interface Unknown {
  readonly key: UnknownName;
  /** What a person calls it. */
  readonly name: string;
  readonly unit: "mm" | "°C" | "";
  /** In the setup. */
  readonly start: number;
  readonly low: number;
  readonly high: number;
  /** A change that counts: what steps of the fit are measured in. */
  readonly step: number;
  /** The setup with another value. */
  readonly set: (setup: Setup, value: number) => Setup;
}

/** mm the shank's wall keeps from the receiver's while a gap or a receiver is tried. */
const CLEAR_MM = 0.01;

/** @throws OutOfRange in words where this setup has no such unknown */
export function unknownOf(setup: Setup, key: UnknownName): Unknown {
  switch (key) {
    case "leadpipe-entry": {
      const start = setup.leadpipe.profileMm[0][1];
      return {
        ...dimension(setup, "leadpipe.profile[0][1]", 0.05),
        key,
        name: "leadpipe start diameter",
        low: 0.8 * start,
        high: 1.25 * start,
      };
    }
    case "wall-loss":
      return { ...dimension(setup, "model.wallLossFactor", 0.05), key, low: 0.5, high: 5 };
    case "temperature":
      if (setup.air.kind === "constants")
        throw new OutOfRange(
          "temperature cannot be fitted where the setup gives the air's constants: give its temperature, or leave it out of the fit",
        );
      return {
        ...dimension(setup, "air.temperature", 0.5),
        key,
        name: setup.air.breath ? "room temperature, effective" : "temperature, effective",
        low: 0,
        high: 45,
      };
    case "receiver-mouth": {
      const { mouthDiameterMm, taper, depthMm } = setup.receiver;
      const room = Math.min(
        cavityDiameterMm(mouthDiameterMm, taper, setup.mouthpiece.insertionMm) -
          exitBoreMm(setup.mouthpiece.profileMm),
        cavityDiameterMm(mouthDiameterMm, taper, depthMm),
      );
      return {
        ...dimension(setup, "receiver.mouthDiameter", 0.05),
        key,
        low: mouthDiameterMm - Math.max(0, room - CLEAR_MM),
        high: 1.5 * mouthDiameterMm,
      };
    }
    case "gap": {
      const { mouthDiameterMm, taper, depthMm } = setup.receiver;
      const exit = exitBoreMm(setup.mouthpiece.profileMm);
      // deeper in, the receiver is narrower
      const deepest = taper > 0 ? (mouthDiameterMm - CLEAR_MM - exit) / taper : depthMm;
      return {
        key,
        name: "gap",
        unit: "mm",
        start: gapMm(setup),
        low: Math.max(0, depthMm - Math.min(deepest, depthMm)),
        high: depthMm,
        step: 0.1,
        set: withGap,
      };
    }
  }
}

type Common = Pick<Unknown, "name" | "unit" | "start" | "step" | "set">;

function dimension(setup: Setup, path: string, step: number): Common {
  const { name, unit, value } = dimensionAt(setup, path)!;
  return {
    name,
    unit,
    start: value,
    step,
    set: (other, to) => {
      const at = dimensionAt(other, path)!;
      return at.moved(to - at.value);
    },
  };
}
