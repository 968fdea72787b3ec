/**
 * A mouthpiece drawn from the few numbers a technician knows it by. The cup's wall is a quarter of Lamé's curve between rim and
 * throat: with t from the rim (0) to the throat (1) of the depth and s from throat to rim of the width,
 *
 *   tᵖ + sᵖ = 1
 *
 * p = 1 is a straight V, p = 2 a bowl (a quarter ellipse), more is squarer; a volume chooses p. Throat a cylinder, backbore a cone.
 */

import { formatLength } from "../../units/formatLength.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Mouthpiece, ProfileMm } from "../setup.ts";

/** The exponent of a cup that is called by its shape. */
export const CUP_SHAPE = { bowl: 2, between: 1.4, V: 1 } as const;
export type CupShape = keyof typeof CUP_SHAPE;

export interface MouthpieceShape {
  /** Inside the rim. */
  readonly rimDiameterMm: number;
  /** Rim to throat. */
  readonly cupDepthMm: number;
  /** What the cup holds, level with the rim, or the shape of its wall. */
  readonly cup: { readonly volumeMl: number } | { readonly shape: CupShape };
  readonly throatDiameterMm: number;
  readonly throatLengthMm: number;
  /** The bore at the shank's end. */
  readonly exitDiameterMm: number;
  /** Overall, rim to the shank's end. */
  readonly lengthMm: number;
}

const POINTS = 24;
/** Between a cup hollowed like a horn's bell and one that is nearly a cylinder. */
const EXPONENT = { least: 0.5, most: 12 } as const;
const MM3_PER_ML = 1000;

/** @throws OutOfRange in words where the numbers make no mouthpiece */
export function mouthpieceOfShape(shape: MouthpieceShape): ProfileMm {
  const { rimDiameterMm, cupDepthMm, throatDiameterMm, throatLengthMm, exitDiameterMm, lengthMm } = shape;
  const above0 = {
    "rim diameter": rimDiameterMm,
    "cup depth": cupDepthMm,
    "throat diameter": throatDiameterMm,
    "backbore exit": exitDiameterMm,
    length: lengthMm,
  };
  for (const [name, value] of Object.entries(above0))
    if (!(value > 0 && value < 1000))
      throw new OutOfRange(`a mouthpiece's ${name} of ${value} mm cannot be; give one above 0 mm`);
  if (!(throatLengthMm >= 0))
    throw new OutOfRange(`a throat ${throatLengthMm} mm long cannot be; give 0 mm or more`);
  if (!(throatDiameterMm < rimDiameterMm))
    throw new OutOfRange(
      `the throat, ${mm(throatDiameterMm)}, is not narrower than the rim, ${mm(rimDiameterMm)}; give a narrower throat`,
    );
  if (exitDiameterMm < throatDiameterMm)
    throw new OutOfRange(
      `the backbore's exit, ${mm(exitDiameterMm)}, is narrower than the throat, ${mm(throatDiameterMm)}; give one at least as wide`,
    );
  const throatEndMm = cupDepthMm + throatLengthMm;
  if (!(lengthMm > throatEndMm))
    throw new OutOfRange(
      `cup and throat together, ${mm(throatEndMm)}, leave no backbore in a mouthpiece of ${mm(lengthMm)}; give its length overall`,
    );
  const cup = cupOf(shape);
  return [
    ...cup,
    ...(throatLengthMm > 0 ? [[throatEndMm, throatDiameterMm] as const] : []),
    [lengthMm, exitDiameterMm],
  ];
}

/** The same numbers read off a mouthpiece that is there: the cup ends where it says, or at the first narrowest place. */
export function shapeOfMouthpiece({ profileMm, cupDepthMm }: Mouthpiece): MouthpieceShape {
  const startMm = profileMm[0][0];
  const throatDiameterMm = Math.min(...profileMm.map(([, diameterMm]) => diameterMm));
  const isThroat = ([, diameterMm]: readonly [number, number]) => diameterMm === throatDiameterMm;
  const depthMm = cupDepthMm ?? profileMm.find(isThroat)![0] - startMm;
  const [endMm, exitDiameterMm] = profileMm[profileMm.length - 1];
  return {
    rimDiameterMm: profileMm[0][1],
    cupDepthMm: depthMm,
    cup: { volumeMl: volumeMl(profileMm, startMm + depthMm) },
    throatDiameterMm,
    throatLengthMm: Math.max(0, profileMm.findLast(isThroat)![0] - startMm - depthMm),
    exitDiameterMm,
    lengthMm: endMm - startMm,
  };
}

/** What a profile holds from its start down to a depth, ml. */
export function volumeMl(profileMm: ProfileMm, depthMm: number): number {
  let sum = 0;
  for (let i = 1; i < profileMm.length; i++) {
    const [x0, d0] = profileMm[i - 1];
    const [x1, d1] = profileMm[i];
    if (x1 <= x0 || x0 >= depthMm) continue;
    const x = Math.min(x1, depthMm);
    const d = d0 + ((d1 - d0) * (x - x0)) / (x1 - x0);
    sum += (Math.PI / 12) * (d0 * d0 + d0 * d + d * d) * (x - x0);
  }
  return sum / MM3_PER_ML;
}

function cupOf(shape: MouthpieceShape): ProfileMm {
  const { rimDiameterMm, cupDepthMm, throatDiameterMm, cup } = shape;
  const wall = (exponent: number): ProfileMm =>
    Array.from({ length: POINTS }, (_, i) => {
      const angle = (Math.PI / 2) * (i / (POINTS - 1));
      if (i === POINTS - 1) return [cupDepthMm, throatDiameterMm] as const;
      const down = Math.sin(angle) ** (2 / exponent);
      const across = Math.cos(angle) ** (2 / exponent);
      return [cupDepthMm * down, throatDiameterMm + (rimDiameterMm - throatDiameterMm) * across] as const;
    });
  if ("shape" in cup) return wall(CUP_SHAPE[cup.shape]);
  const holds = (exponent: number): number => volumeMl(wall(exponent), cupDepthMm);
  const least = holds(EXPONENT.least);
  const most = holds(EXPONENT.most);
  if (!(cup.volumeMl >= least && cup.volumeMl <= most))
    throw new OutOfRange(
      `a cup ${mm(rimDiameterMm)} across and ${mm(cupDepthMm)} deep cannot hold ${cup.volumeMl} ml; ` +
        `give ${least.toFixed(2)} to ${most.toFixed(2)} ml, or check its depth`,
    );
  // its volume grows with the exponent
  let low: number = EXPONENT.least;
  let high: number = EXPONENT.most;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (holds(middle) < cup.volumeMl) low = middle;
    else high = middle;
  }
  return wall((low + high) / 2);
}

const mm = (lengthMm: number): string => formatLength(lengthMm, "mm", 3);
