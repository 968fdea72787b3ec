/**
 * What an error of so much would do to a note, or to the breath: in cents, dB or per cent, to be held against what a player is
 * assumed to notice. Estimates of first order on the demo, on the careful side; an error nobody hears in any way has none.
 */

import { Instrument } from "../../src/study/instrument/instrument.ts";
import { junctionEffect } from "../how-the-gap-is-modelled/junctions.ts";
import { excessAt } from "../how-the-gap-is-modelled/limits.ts";
import { demo } from "../paper/demo.ts";

export type Quantity = "cents" | "dB" | "%";
export type Heard = Readonly<Partial<Record<Quantity, number>>>;

/** Just noticeable. */
export const NOTICED: Readonly<Record<Quantity, number>> = {
  cents: demo.thresholds.cents,
  dB: demo.thresholds.decibels,
  "%": demo.thresholds.pressurePercent,
};

/** Of a frequency, and of a size, that are off by a fraction. */
export const centsOf = (fraction: number): number => 1200 * Math.log2(1 + fraction);
export const decibelsOf = (fraction: number): number => 20 * Math.log10(1 + fraction);

let notes: ReturnType<Instrument["modes"]> | undefined;
/** Those that are played, of the demo at a tenth of an inch. */
const played = () => {
  notes ??= new Instrument(demo).modes(2.54).slice(1, 10);
  return notes;
};

let ofFields: { cents: number; decibels: number } | undefined;
/** What the whole of the evanescent fields does to the note it does most to. */
function fields() {
  ofFields ??= junctionEffect(2.54)
    .ofFields.slice(1, 10)
    .reduce(
      (most, { shiftCents, heightDb }) => ({
        cents: Math.max(most.cents, Math.abs(shiftCents)),
        decibels: Math.max(most.decibels, Math.abs(heightDb ?? 0)),
      }),
      { cents: 0, decibels: 0 },
    );
  return ofFields;
}

/** The gap's inertance over density off by so much, 1/m. */
export const ofInertance = (perMetre: number): Heard => {
  const share = perMetre / excessAt(2.54);
  return { cents: share * fields().cents, dB: share * fields().decibels };
};

/** The reflection at the bell off by so much, at a frequency: as on the played note nearest to it. */
export function ofReflection(off: number, hz: number): Heard {
  const all = played();
  const { frequencyHz, Q } = all.reduce((best, mode) =>
    Math.abs(mode.frequencyHz - hz) < Math.abs(best.frequencyHz - hz) ? mode : best,
  );
  const spacingHz = (all[all.length - 1].frequencyHz - all[0].frequencyHz) / (all.length - 1);
  // a wave goes there and back once in 1/spacing seconds
  const there = frequencyHz / spacingHz;
  const left = Math.exp((-Math.PI * there) / Q);
  return {
    cents: centsOf(off / (2 * Math.PI * there)),
    dB: decibelsOf((2 * off * left) / (1 - left * left)),
  };
}

/** The same by the wave number times the mouth's radius. */
export const ofReflectionAt = (off: number, ka: number): Heard => {
  const profile = demo.body.profileMm;
  const radius = profile[profile.length - 1][1] / 2000;
  return ofReflection(off, (ka * 345) / (2 * Math.PI * radius));
};

/** A resistance in series, over the bore's characteristic impedance, where a played note's flow is largest. */
export const ofSeriesResistance = (share: number): Heard => ({
  // Q falls by 2 Q share/(n π) of itself or less: the first note's, of the sharpest
  dB: decibelsOf(share * Math.max(...played().map(({ Q }) => Q))),
});

/** The phase of an impedance off by so many degrees: at a peak, whose place is where the phase is nought. */
const ofPhase = (degrees: number): Heard => ({
  cents: centsOf((degrees * Math.PI) / 180 / (2 * Math.min(...played().map(({ Q }) => Q)))),
});

/** By a check's unit, where the check itself says nothing else. */
export const heardBy = {
  cents: ({ off }: Off): Heard => ({ cents: off }),
  dB: ({ off }: Off): Heard => ({ dB: off }),
  "°": ({ off }: Off): Heard => ofPhase(off),
  "1": (_: Off): Heard => ({}),
} as const;

interface Off {
  readonly off: number;
}
