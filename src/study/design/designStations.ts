/**
 * A leadpipe as a mandrel is turned to it: diameters at even stations, each with a tolerance. The tolerances are such that even if
 * every station is off by its own, all in the worst way, no resonance moves by more than the stated part of what can be felt:
 * each station may use an equal share, tᵢ = part·threshold/(N·|sᵢ|), the least over resonances and their peaks.
 */

import { boreDiameterMm } from "../../setup/bore/boreDiameter.ts";
import { profileLengthMm } from "../../setup/geometry.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { PLAYED } from "../change/verdicts.ts";
import { boreSensitivity } from "../compare/boreSensitivity.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { STATION_DEFAULTS } from "./designDefaults.ts";

export interface MandrelStation {
  readonly positionMm: number;
  readonly diameterMm: number;
  /** ± on the diameter. */
  readonly toleranceMm: number;
}

export interface StationOptions {
  readonly everyMm?: number;
  /** Of the setup's thresholds that all errors together may use up, 0 to 1. */
  readonly part?: number;
}

/** Nobody needs more, and first order does not reach farther: own choice, no source. */
const LOOSEST_MM = 0.2;

/** @throws OutOfRange on a spacing or a part that cannot be */
export function mandrelStations(
  instrument: Instrument,
  gapMm: number,
  options: StationOptions = {},
): MandrelStation[] {
  const { everyMm, part } = { ...STATION_DEFAULTS, ...options };
  if (!(part > 0 && part <= 1))
    throw new OutOfRange(`a part of ${part} cannot be used: give more than 0, to 1`);
  const { setup } = instrument;
  const { profileMm } = setup.leadpipe;
  const lengthMm = profileLengthMm(profileMm);
  if (!(everyMm >= 0.5 && everyMm <= lengthMm))
    throw new OutOfRange(
      `stations every ${everyMm} mm cannot be: give 0.5 mm to the leadpipe's length, ${lengthMm} mm`,
    );
  const { places, modes } = boreSensitivity(instrument, gapMm, { extentMm: everyMm });
  const stations = places.flatMap((place, i) => (place.part === "leadpipe" ? [{ ...place, i }] : []));
  const { cents, decibels } = setup.thresholds;
  const played = modes.filter(({ n }) => n >= PLAYED[0] && n <= PLAYED[1]);
  return stations.map(({ positionMm, i }) => {
    const shares = played.flatMap(({ centsPerMm, decibelsPerMm }) => [
      cents / Math.abs(centsPerMm[i]),
      ...(decibelsPerMm ? [decibels / Math.abs(decibelsPerMm[i])] : []),
    ]);
    return {
      positionMm,
      diameterMm: boreDiameterMm(profileMm, profileMm[0][0] + positionMm, "before"),
      toleranceMm: Math.min(LOOSEST_MM, (part / stations.length) * Math.min(...shares)),
    };
  });
}
