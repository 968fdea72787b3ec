/** The layer between stream and still air across the demo's gap: where its notes lie in St, and what it takes and gives there. */
import { FULLEST, gapShear, LONGEST_PIPE } from "../../src/flow/gapShear.ts";
import { streamAtShankEnd } from "../../src/study/blown/breath.ts";
import { PLAYED } from "../../src/study/change/verdicts.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../paper/demo.ts";

const instrument = new Instrument(demo);

export interface NoteHz {
  readonly n: number;
  readonly frequencyHz: number;
}

/** The resonances that are played, at one gap. */
export const notesAt = (gapMm: number): readonly NoteHz[] =>
  instrument.modes(gapMm).slice(PLAYED[0] - 1, PLAYED[1]);

export interface LayerStream {
  readonly gapOverDiameter: number;
  readonly reynolds: number;
  /** m of the profile as it is estimated. */
  readonly fullness: number;
  /** m/s */
  readonly speed: number;
}

export function streamAcross(gapMm: number, litresPerMinute: number): LayerStream {
  const { radius, reynolds, fullness, speed } = streamAtShankEnd(demo, litresPerMinute);
  return { gapOverDiameter: gapMm / 2000 / radius, reynolds, fullness, speed };
}

/** St = f·gap/U */
export const strouhal = (frequencyHz: number, gapMm: number, speed: number): number =>
  (frequencyHz * gapMm) / 1000 / speed;

/** From a long pipe's profile, under the thickest layer, to a nearly flat one, under the thinnest. */
export const PROFILES = [LONGEST_PIPE, 3, 4, 6, 9, 12, FULLEST] as const;

/** Where St is drawn and looked through; the table ends there. */
export const mostStrouhal = 0.9;
export const strouhals = Array.from({ length: 181 }, (_, i) => (i / 180) * mostStrouhal);

type Shape = Omit<LayerStream, "speed">;

/** The real part of κ along `strouhals`: above 0 it takes from a tone, below it gives. */
export function kappaAlong(stream: Shape): readonly number[] {
  const kappa = gapShear(stream);
  return strouhals.map((at) => kappa(at)[0]);
}

/** Least and most of κ over all profiles. */
export function kappaBetween(stream: Shape): {
  readonly least: readonly number[];
  readonly most: readonly number[];
} {
  const all = PROFILES.map((fullness) => kappaAlong({ ...stream, fullness }));
  const along = (of: (...values: number[]) => number) =>
    strouhals.map((_, i) => of(...all.map((one) => one[i])));
  return { least: along(Math.min), most: along(Math.max) };
}

export interface Range {
  readonly from: number;
  readonly to: number;
  /** The lowest κ in it, and where. */
  readonly deepest: number;
  readonly at: number;
}

/** The stretch of St in which a curve of κ is below 0, beyond its highest place; null where it gives nothing. */
export function givingRange(kappas: readonly number[]): Range | null {
  const highest = kappas.indexOf(Math.max(...kappas));
  const deepest = Math.min(...kappas.slice(highest));
  if (!(deepest < 0)) return null;
  const at = kappas.indexOf(deepest, highest);
  let [first, last] = [at, at];
  while (kappas[first - 1] < 0) first--;
  while (last + 1 < kappas.length && kappas[last + 1] < 0) last++;
  return { from: strouhals[first], to: strouhals[last], deepest, at: strouhals[at] };
}

/** Where some profile gives, so that the layer may; null where none does. */
export const mayGive = (stream: Shape): Range | null => givingRange(kappaBetween(stream).least);

/** What corrugated pipes and single cavities of pipes do; sources in `gapShear.ts`, from memory. */
export const PUBLISHED = { whistlesFrom: 0.4, whistlesTo: 0.6 } as const;
