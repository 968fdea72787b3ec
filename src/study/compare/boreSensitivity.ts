/**
 * What an error of manufacture does, wherever along the bore it is: a bump of the bore, triangular, its peak an error of the
 * diameter and its foot `extentMm` away on either side (a hat; the hats of one part add up to the whole part being wider).
 * First order, from one look along the bore for each resonance and each peak (`acoustics/modeGradient.ts`); that a hat's corners
 * need not stand where Simpson's cells meet costs up to 0.1 %; in the flare of a multimodal bell up to 1 %.
 */

import type { BorePart } from "../../acoustics/duct/boreLayout.ts";
import { type ModeGradients, modeGradients } from "../../acoustics/resonance/modeGradient.ts";
import { byGap, sensitivity } from "../../acoustics/resonance/sensitivity.ts";
import { profileLengthMm } from "../../setup/geometry.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import type { Instrument } from "../instrument/instrument.ts";

/** One place where the bore may be off. */
export interface ErrorPlace {
  readonly part: BorePart;
  /** From the start of the part, mm. */
  readonly positionMm: number;
  /** From the rim, mm, the gap not counted: it is what moves. */
  readonly fromRimMm: number;
}

/** One resonance; entry i of a curve belongs to place i. */
export interface ModeSensitivity {
  readonly n: number;
  /** Cents a mm of diameter. */
  readonly centsPerMm: Float64Array;
  /** Of the peak, dB a mm of diameter; null where there is none. */
  readonly decibelsPerMm: Float64Array | null;
  /** By the gap. */
  readonly gapCentsPerMm: number;
  readonly gapDecibelsPerMm: number | null;
}

export interface BoreSensitivity {
  readonly gapMm: number;
  readonly extentMm: number;
  readonly places: readonly ErrorPlace[];
  readonly modes: readonly ModeSensitivity[];
}

export const CENTS = 1200 / Math.LN2;
export const DECIBELS = 20 / Math.LN10;
const PARTS = ["mouthpiece", "leadpipe", "body"] as const;

/**
 * @param extentMm distance from a bump's peak to its foot, and between places
 * @throws SetupError on a gap the receiver cannot have, RangeError on an extent that is no length
 */
export function boreSensitivity(
  instrument: Instrument,
  gapMm: number,
  { extentMm = 10, drawMm = 0 }: { readonly extentMm?: number; readonly drawMm?: number } = {},
): BoreSensitivity {
  if (!(extentMm >= 0.5 && extentMm <= 1000))
    throw new OutOfRange(`an error's extent of ${extentMm} mm cannot be used: give 0.5 mm to 1000 mm`);
  const { column } = instrument;
  const side = { column, gap: instrument.gap(gapMm), draw: drawMm / 1000 };
  const resonances = instrument.resonances(gapMm, drawMm);
  const gradients = modeGradients(column, side.gap, resonances, side.draw);
  const hats = PARTS.flatMap((part) => hatsOf(instrument, gradients, part, extentMm));
  const gap = byGap(column, side.gap, side.draw);
  return {
    gapMm,
    extentMm,
    places: hats.map(({ place }) => place),
    modes: resonances.map((resonance, i) => {
      const { frequency, height } = gradients.modes[i];
      const byGapPerMetre = sensitivity(side, resonance, gap);
      // a mm of diameter is half a mm of radius
      const curve = (gradient: Float64Array, unit: number) =>
        Float64Array.from(hats, ({ weigh }) => (unit * weigh(gradient)) / 2000);
      return {
        n: i + 1,
        centsPerMm: curve(frequency, CENTS),
        decibelsPerMm: height && curve(height, DECIBELS),
        gapCentsPerMm: (CENTS * byGapPerMetre.frequency) / 1000,
        gapDecibelsPerMm: byGapPerMetre.height === null ? null : (DECIBELS * byGapPerMetre.height) / 1000,
      };
    }),
  };
}

interface Hat {
  readonly place: ErrorPlace;
  readonly weigh: (gradient: Float64Array) => number;
}

function hatsOf({ setup }: Instrument, { places }: ModeGradients, part: BorePart, extentMm: number): Hat[] {
  const lengthOf = (name: BorePart): number => profileLengthMm(setup[name].profileMm);
  const before = PARTS.slice(0, PARTS.indexOf(part)).reduce((sum, name) => sum + lengthOf(name), 0);
  const lengthMm = lengthOf(part);
  const count = Math.max(1, Math.round(lengthMm / extentMm));
  const spacingMm = lengthMm / count;
  // entry i's neighbours among the hats, and how much of it is the upper one's
  const own = places.flatMap((place, i) => (place.part === part ? [[i, (1000 * place.x) / spacingMm]] : []));
  return Array.from({ length: count + 1 }, (_, k) => {
    const positionMm = k * spacingMm;
    const shares = own.flatMap(([i, at]) => {
      const share = 1 - Math.abs(at - k);
      return share > 0 ? [[i, share]] : [];
    });
    return {
      place: { part, positionMm, fromRimMm: before + positionMm },
      weigh: (gradient) => shares.reduce((sum, [i, share]) => sum + share * gradient[i], 0),
    };
  });
}

/** The place where an error of this size does most, and what it does, in the unit of the curve. */
export function worstPlace(
  { places }: BoreSensitivity,
  perMm: Float64Array,
  errorMm: number,
): { readonly place: ErrorPlace; readonly change: number } {
  let worst = 0;
  perMm.forEach((value, i) => {
    if (Math.abs(value) > Math.abs(perMm[worst])) worst = i;
  });
  return { place: places[worst], change: perMm[worst] * errorMm };
}
