/**
 * How firmly a note sits in its slot at one mouth pressure, from linear stability:
 *
 *   width   in cents of the lip frequencies at which the note is what grows fastest
 *   pull    d ln f_play/d ln f_lip in their middle: 0 locks hard, 1 follows the lips
 *   margin  threshold of the runner-up over the note's own, at the same lip frequency
 *
 * Growth from rest decides which note begins; what a loud note does once it sounds is the oscillator's to tell.
 */
import { OutOfRange } from "../units/outOfRange.ts";
import { crossing } from "./crossing.ts";
import { type Modes, resonanceCount } from "./modes.ts";
import { lowestOf, noteAt } from "./note.ts";
import type { Stability } from "./stability.ts";
import type { Thresholds } from "./threshold.ts";

/** Lip frequencies looked at, cents apart; an edge between two is then found to a thousandth of a cent. */
const STEP_CENTS = 20;
const EDGE_CENTS = 1e-3;
/** Half the central difference for the pull. */
const PULL_CENTS = 2;

export interface Slot {
  readonly n: number;
  readonly mouthPressure: number;
  /** Lip frequencies between which the note grows fastest, Hz. */
  readonly lipHz: readonly [low: number, high: number];
  /** Their geometric mean, Hz. */
  readonly centreHz: number;
  readonly slotWidthCents: number;
  /** f_play at the centre as it starts to grow, Hz. */
  readonly playingHz: number;
  /** Growth rate there, 1/s. */
  readonly growth: number;
  readonly pull: number;
  /** null where no other note has a threshold at this lip frequency. */
  readonly margin: number | null;
  /** The note that would come next. */
  readonly runnerUp: number | null;
}

/** f · 2^(cents/1200) */
const raised = (f: number, cents: number): number => f * 2 ** (cents / 1200);

/** The slot of note n under a mouth pressure, Pa; null where it never grows fastest. */
export function slotOf(
  stability: Stability,
  thresholds: Thresholds,
  n: number,
  mouthPressure: number,
): Slot | null {
  const { modes } = stability;
  const [least, most] = reach(modes, n);
  const lead = (lipHz: number): number =>
    lipHz > least && lipHz < most ? leadOf(n, modes, stability.eigenvalues(lipHz, mouthPressure)) : -Infinity;
  // where it starts most easily is nearly always inside
  const easiest = thresholds.lowest(n)?.lipHz;
  const inside = easiest && lead(easiest) > 0 ? easiest : strongest(lead, least, most);
  if (inside === null) return null;
  const low = edge(lead, inside, -STEP_CENTS);
  const high = edge(lead, inside, STEP_CENTS);
  const centreHz = Math.sqrt(low * high);
  const growth = stability.fastest(centreHz, mouthPressure);
  const above = stability.fastest(raised(centreHz, PULL_CENTS), mouthPressure);
  const below = stability.fastest(raised(centreHz, -PULL_CENTS), mouthPressure);
  return {
    n,
    mouthPressure,
    lipHz: [low, high],
    centreHz,
    slotWidthCents: 1200 * Math.log2(high / low),
    playingHz: growth.frequencyHz,
    growth: growth.rate,
    pull: (1200 * Math.log2(above.frequencyHz / below.frequencyHz)) / (2 * PULL_CENTS),
    ...runnerUp(thresholds, n, centreHz),
  };
}

/**
 * By how much note n grows faster than anything else does, or than nothing, 1/s; below 0 where it does not, −∞ where it is no
 * oscillation at all.
 */
function leadOf(n: number, modes: Modes, eigenvalues: Float64Array): number {
  let own = -Infinity;
  let others = 0;
  for (let k = 0; k < eigenvalues.length; k += 2) {
    const rate = eigenvalues[k];
    const omega = eigenvalues[k + 1];
    // most decay, and are nobody's rival
    if (!(omega > 0) || rate <= Math.min(own, others)) continue;
    if (noteAt(modes, omega / (2 * Math.PI)) === n) {
      // it leads its own second oscillation by nothing
      own = Math.max(own, rate);
    } else others = Math.max(others, rate);
  }
  return own - others;
}

/** Lip frequencies a note is looked for at, Hz: outward lips play above their own, by less than an octave. */
function reach(modes: Modes, n: number): [low: number, high: number] {
  const count = resonanceCount(modes);
  if (!(Number.isInteger(n) && n >= 1 && n < count))
    throw new OutOfRange(`note ${n} has no slot on ${count} resonances: give 1 to ${count - 1}`);
  return [lowestOf(modes, n) / 2, lowestOf(modes, n + 1)];
}

/** Lip frequency at which the note leads most, among those tried; null where it leads at none. */
function strongest(lead: (lipHz: number) => number, low: number, high: number): number | null {
  let best: number | null = null;
  let most = 0;
  for (let lipHz = raised(high, -STEP_CENTS); lipHz > low; lipHz = raised(lipHz, -STEP_CENTS)) {
    const by = lead(lipHz);
    if (by > most) [best, most] = [lipHz, by];
  }
  return best;
}

/** The last lip frequency, Hz, at which the note leads, from one inside its slot in steps of `cents`. */
function edge(lead: (lipHz: number) => number, inside: number, cents: number): number {
  let last = inside;
  let by = lead(last);
  for (;;) {
    const next = raised(last, cents);
    const nextBy = lead(next);
    if (!(nextBy > 0)) {
      const found = crossing(lead, [last, by], [next, nextBy], (EDGE_CENTS / 2) * (Math.LN2 / 1200));
      // a hair inside, where it still leads
      return raised(found, -Math.sign(cents) * EDGE_CENTS);
    }
    [last, by] = [next, nextBy];
  }
}

function runnerUp(thresholds: Thresholds, n: number, lipHz: number): Pick<Slot, "margin" | "runnerUp"> {
  const own = thresholds.at(n, lipHz);
  let least = Infinity;
  let runner: number | null = null;
  for (let other = 1; other <= thresholds.notes; other++) {
    const threshold = other === n ? null : thresholds.at(other, lipHz);
    if (threshold && threshold.mouthPressure < least) {
      least = threshold.mouthPressure;
      runner = other;
    }
  }
  return { margin: own && runner !== null ? least / own.mouthPressure : null, runnerUp: runner };
}
