/**
 * The change between two gaps with its uncertainty, by drawing whole instruments (JCGM 101:2008): every uncertain dimension
 * is drawn anew, what is assumed among instruments like this one, and the resonances are searched anew, nothing is linear. Normal draws; Student's t, as 6.4.9 has it, where
 * an uncertainty has few degrees of freedom. A check of the first order, and better where that fails.
 */

import { quantileSorted, randomGamma, randomLcg, randomNormal } from "d3";
import { profileFlaws, receiverFlaw } from "../../setup/geometry.ts";
import { SetupError } from "../../setup/problem.ts";
import type { Setup } from "../../setup/setup.ts";
import { withGap } from "../../setup/withGap.ts";
import { OutOfRange } from "../../units/outOfRange.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";
import { cents, decibels } from "../instrument/pitch.ts";
import {
  DEPTH,
  INSERTION,
  isSetAnew,
  type UncertainDimension,
  uncertainDimensions,
} from "./contributions.ts";

export interface MonteCarloOptions {
  readonly gapMm: number;
  readonly referenceGapMm: number;
  /** How many random trials are drawn. */
  readonly trials: number;
  /** The same seed draws the same instruments. */
  readonly seed?: number;
}

/** What the draws of one quantity look like; null below two draws that have it. */
export interface Drawn {
  readonly mean: number;
  /** u: the draws' standard deviation. */
  readonly standard: number;
  /** Holds 95 % of the draws, as many left out below as above. */
  readonly interval: readonly [low: number, high: number];
  readonly count: number;
}

export interface DrawnMode {
  readonly n: number;
  readonly shiftCents: Drawn | null;
  readonly heightDb: Drawn | null;
  readonly spacingCents: Drawn | null;
}

export interface MonteCarlo {
  readonly drawn: number;
  /** Draws that make no instrument, as a gap below 0. */
  readonly leftOut: number;
  readonly modes: readonly DrawnMode[];
}

export const MOST_TRIALS = 100_000;

/** The draws, some ms each, for whoever has other things to do in between: how many are done after each. */
export function* monteCarloSteps(
  setup: Setup,
  { gapMm, referenceGapMm, trials, seed = 1 }: MonteCarloOptions,
): Generator<number, MonteCarlo, void> {
  if (!Number.isInteger(trials) || trials < 2 || trials > MOST_TRIALS)
    throw new OutOfRange(`${trials} is no number of trials: give a whole number from 2 to ${MOST_TRIALS}`);
  const like = new Instrument(setup);
  // refuses gaps that the receiver cannot have
  for (const one of [gapMm, referenceGapMm]) withGap(setup, one);
  const draw = draws(uncertainDimensions(setup), seed);
  const values = Array.from({ length: like.modeCount }, () => ({
    shiftCents: [] as number[],
    heightDb: [] as number[],
    spacingCents: [] as number[],
  }));
  let leftOut = 0;
  for (let trial = 0; trial < trials; trial++) {
    const pair = drawnPair(like, draw(), gapMm, referenceGapMm);
    if (pair) take(pair, values);
    else leftOut++;
    yield trial + 1;
  }
  const modes = values.map((mode, i) => ({
    n: i + 1,
    shiftCents: summary(mode.shiftCents),
    heightDb: summary(mode.heightDb),
    spacingCents: summary(mode.spacingCents),
  }));
  return { drawn: trials - leftOut, leftOut, modes };
}

interface Draw {
  /** In the dimension's unit, the insertion apart. */
  readonly errors: readonly (readonly [dimension: UncertainDimension, error: number])[];
  readonly insertionErrorsMm: readonly [reference: number, chosen: number];
}

function draws(dimensions: readonly UncertainDimension[], seed: number): () => Draw {
  const source = randomLcg(seed);
  const normal = randomNormal.source(source)();
  const error = ({ standard, degreesOfFreedom }: UncertainDimension): (() => number) => {
    if (degreesOfFreedom === Infinity) return () => standard * normal();
    // t = z/√(χ²/ν), and χ² of ν degrees of freedom is a gamma variable of ν/2 in units of 2
    const gamma = randomGamma.source(source)(degreesOfFreedom / 2, 2);
    return () => (standard * normal()) / Math.sqrt(gamma() / degreesOfFreedom);
  };
  const shared = dimensions.filter(({ path }) => path !== INSERTION).map((one) => [one, error(one)] as const);
  const insertion = dimensions.find(({ path }) => path === INSERTION);
  const insertionError = insertion ? error(insertion) : () => 0;
  return () => {
    const errors = shared.map(([one, next]) => [one, next()] as const);
    const atReferenceMm = insertionError();
    const atChosenMm = insertion && !isSetAnew(insertion) ? atReferenceMm : insertionError();
    return { errors, insertionErrorsMm: [atReferenceMm, atChosenMm] };
  };
}

interface Pair {
  readonly reference: readonly Mode[];
  readonly chosen: readonly Mode[];
}

/** The resonances of a drawn instrument at both gaps; null where it is none. */
function drawnPair(like: Instrument, draw: Draw, gapMm: number, referenceGapMm: number): Pair | null {
  let setup = like.setup;
  for (const [{ moved }, error] of draw.errors) setup = moved(setup, error);
  const deeperMm = draw.errors.find(([{ path }]) => path === DEPTH)?.[1] ?? 0;
  const [referenceErrorMm, chosenErrorMm] = draw.insertionErrorsMm;
  try {
    if (!isInstrument(setup)) return null;
    const instrument = new Instrument(setup, { like });
    const reference = instrument.modes(referenceGapMm + deeperMm - referenceErrorMm);
    const chosen = instrument.modes(gapMm + deeperMm - chosenErrorMm);
    return { reference, chosen };
  } catch (error) {
    if (error instanceof SetupError) return null;
    throw error;
  }
}

/** What a file with these numbers would be refused for; the gap itself is left to the instrument to refuse. */
function isInstrument({ mouthpiece, receiver, leadpipe, body, model }: Setup): boolean {
  const profiles = [mouthpiece.profileMm, leadpipe.profileMm, body.profileMm];
  return (
    profiles.every((profileMm) => profileFlaws(profileMm).length === 0) &&
    receiver.taper >= 0 &&
    receiverFlaw(receiver.mouthDiameterMm, receiver.taper, receiver.depthMm) === undefined &&
    model.wallLossFactor > 0
  );
}

type Values = readonly Readonly<Record<"shiftCents" | "heightDb" | "spacingCents", number[]>>[];

function take({ reference, chosen }: Pair, values: Values): void {
  const shifts = chosen.map((to, i) => reference[i] && cents(to.frequencyHz, reference[i].frequencyHz));
  shifts.forEach((shift, i) => {
    if (shift === undefined || !values[i]) return;
    values[i].shiftCents.push(shift);
    const [to, from] = [chosen[i].peakImpedance, reference[i].peakImpedance];
    if (to !== null && from !== null) values[i].heightDb.push(decibels(to, from));
    if (shifts[i + 1] !== undefined) values[i].spacingCents.push(shifts[i + 1] - shift);
  });
}

function summary(values: readonly number[]): Drawn | null {
  const count = values.length;
  if (count < 2) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / count;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (count - 1);
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number) => quantileSorted(sorted, share)!;
  return { mean, standard: Math.sqrt(variance), interval: [at(0.025), at(0.975)], count };
}
