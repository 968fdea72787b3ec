/** A leadpipe drawn from a few dimensions, as a maker calls for one: in, down to the narrowest place, out to the end. */

import { formatLength } from "../../units/formatLength.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { withoutRoundingNoise } from "../../units/roundingNoise.ts";
import type { ProfileMm } from "../setup.ts";

export interface LeadpipeShape {
  readonly entryDiameterMm: number;
  /** From the entry; 0 where it widens from the start. */
  readonly narrowestAtMm: number;
  /** Diameter lost per length up to there. */
  readonly entryTaper: number;
  readonly endDiameterMm: number;
  readonly lengthMm: number;
  /** Diameter gained per length behind the narrowest place; a cylinder follows. Absent: it widens evenly to the end. */
  readonly taper?: number;
}

/** @throws OutOfRange in words where the dimensions make no leadpipe */
export function leadpipeOfShape(shape: LeadpipeShape): ProfileMm {
  const { entryDiameterMm, narrowestAtMm, entryTaper, endDiameterMm, lengthMm, taper } = shape;
  const lengths = { "entry diameter": entryDiameterMm, "end diameter": endDiameterMm, length: lengthMm };
  for (const [name, value] of Object.entries(lengths))
    if (!(value > 0 && value < 20_000))
      throw new OutOfRange(`a leadpipe's ${name} of ${value} mm cannot be; give one above 0 mm`);
  if (!(narrowestAtMm >= 0 && narrowestAtMm < lengthMm))
    throw new OutOfRange(
      `the narrowest place at ${narrowestAtMm} mm is not in the leadpipe; give 0 mm to less than its length, ${mm(lengthMm)}`,
    );
  for (const [name, value] of Object.entries({ "entry taper": entryTaper, taper: taper ?? 0 }))
    if (!(value >= 0 && value < 1))
      throw new OutOfRange(
        `a leadpipe's ${name} of ${value} cannot be; give 0 to less than 1 (diameter per length)`,
      );
  const narrowestMm = withoutRoundingNoise(entryDiameterMm - entryTaper * narrowestAtMm);
  if (!(narrowestMm > 0))
    throw new OutOfRange(
      `a taper of ${entryTaper} over ${mm(narrowestAtMm)} closes the leadpipe; give a taper below ${(entryDiameterMm / narrowestAtMm).toPrecision(3)}`,
    );
  if (endDiameterMm < narrowestMm)
    throw new OutOfRange(
      `the end, ${mm(endDiameterMm)}, is narrower than the narrowest place, ${mm(narrowestMm)}; give an end at least as wide`,
    );
  const widensOverMm = taper === undefined ? lengthMm - narrowestAtMm : widening();
  const wideAtMm = withoutRoundingNoise(narrowestAtMm + widensOverMm);
  return [
    [0, entryDiameterMm],
    ...(narrowestAtMm > 0 ? [[narrowestAtMm, narrowestMm] as const] : []),
    ...(wideAtMm > narrowestAtMm && wideAtMm < lengthMm ? [[wideAtMm, endDiameterMm] as const] : []),
    [lengthMm, endDiameterMm],
  ];

  function widening(): number {
    const gain = endDiameterMm - narrowestMm;
    if (gain === 0) return 0;
    const over = gain / taper!;
    if (over <= (lengthMm - narrowestAtMm) * (1 + 1e-12)) return Math.min(over, lengthMm - narrowestAtMm);
    throw new OutOfRange(
      `a taper of ${taper} does not reach ${mm(endDiameterMm)} in ${mm(lengthMm - narrowestAtMm)}; ` +
        `give at least ${(gain / (lengthMm - narrowestAtMm)).toPrecision(3)}`,
    );
  }
}

const mm = (lengthMm: number): string => formatLength(lengthMm, "mm", 3);
