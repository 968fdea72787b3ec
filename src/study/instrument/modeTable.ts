/**
 * What a set of resonances says musically: each one's equivalent fundamental f_n/n, how far it lies from a common harmonic
 * series, and the spacing to its upper neighbour.
 */
import type { Mode } from "./instrument.ts";
import { cents } from "./pitch.ts";

export interface ModeInContext extends Mode {
  /** f_n/n, Hz */
  readonly equivalentFundamentalHz: number;
  /** f_n/n against the series' common fundamental. */
  readonly equivalentCents: number;
  /** To the next resonance; null for the last. */
  readonly spacingHz: number | null;
  readonly spacingCents: number | null;
}

/**
 * The common fundamental: that of the resonances notes are played on, the mean in cents of f_n/n from the second on (the
 * first of a brass instrument lies far below its place and no note is blown on it).
 */
export function commonFundamental(modes: readonly Mode[]): number {
  const played = modes.slice(modes.length > 1 ? 1 : 0, 10);
  const mean = played.reduce((sum, { n, frequencyHz }) => sum + Math.log(frequencyHz / n), 0) / played.length;
  return Math.exp(mean);
}

/** Modes with their place in the series and the distance to their neighbours. */
export function inContext(modes: readonly Mode[]): ModeInContext[] {
  const fundamental = commonFundamental(modes);
  return modes.map((mode, i) => {
    const next = modes[i + 1];
    return {
      ...mode,
      equivalentFundamentalHz: mode.frequencyHz / mode.n,
      equivalentCents: cents(mode.frequencyHz / mode.n, fundamental),
      spacingHz: next ? next.frequencyHz - mode.frequencyHz : null,
      spacingCents: next ? cents(next.frequencyHz, mode.frequencyHz) : null,
    };
  });
}
