/** Held notes: where each stands, its pitch once it has settled, and how well that is known. */
import {
  cents,
  deviation,
  durationS,
  type Heard,
  joined,
  mean,
  median,
  type Pitched,
  type Stretch,
} from "./track.ts";

export interface SteadyNote {
  readonly fromS: number;
  readonly toS: number;
  readonly hz: number;
  /** Standard uncertainty of `hz`, from the scatter of its tenths of a second. */
  readonly uCents: number;
  /** Standard deviation of the pitch within the note. */
  readonly scatterCents: number;
}

/** A note that stands for less is no held note. */
const LEAST_S = 0.35;
/** A note's beginning, in which it settles, and its end are left out of its pitch: a share of long notes. */
const ATTACK_S = 0.15;
const ATTACK_SHARE = 0.2;
const LONGEST_ATTACK_S = 0.5;
const RELEASE_S = 0.05;
/** Short losses of pitch within a note. */
const LOST_S = 0.1;
const BLOCK_S = 0.1;
/** A held note, with vibrato, stays within this; talk does not. */
const MOST_SCATTER_CENTS = 25;
/** Nor does a held note go on drifting, by both of these between its halves: that is a bend, or talk. */
const DRIFT_CENTS = 10;
const DRIFT_CENTS_PER_S = 20;

export function steadyNotes(heard: Heard): SteadyNote[] {
  return joined(heard.stretches, LOST_S)
    .filter((stretch) => durationS(stretch) + heard.track.frameS >= LEAST_S && !isDrifting(stretch))
    .map(({ fromS, toS, frames }) => ({
      fromS,
      toS,
      ...settledPitch(frames, fromS + attackS(toS - fromS), toS - RELEASE_S),
    }))
    .filter(({ scatterCents }) => scatterCents <= MOST_SCATTER_CENTS);
}

function isDrifting(stretch: Stretch): boolean {
  const half = Math.floor(stretch.frames.length / 2);
  const [first, second] = [stretch.frames.slice(0, half), stretch.frames.slice(half)].map((frames) =>
    median(frames.map(({ hz }) => hz)),
  );
  const drift = Math.abs(cents(second, first));
  return drift > DRIFT_CENTS && drift > (DRIFT_CENTS_PER_S * durationS(stretch)) / 2;
}

const attackS = (noteS: number): number =>
  Math.min(LONGEST_ATTACK_S, Math.max(ATTACK_S, ATTACK_SHARE * noteS));

/** Pitch of the frames between two times, with its scatter. */
export function settledPitch(
  frames: readonly Pitched[],
  fromS: number,
  toS: number,
): Pick<SteadyNote, "hz" | "uCents" | "scatterCents"> {
  const within = frames.filter(({ atS }) => atS >= fromS && atS <= toS);
  const settled = within.length > 0 ? within : frames;
  const origin = settled[0].hz;
  const pitches = settled.map(({ hz }) => cents(hz, origin));
  const blocks = new Map<number, number[]>();
  settled.forEach(({ atS }, i) => {
    const block = Math.floor((atS - settled[0].atS) / BLOCK_S);
    blocks.set(block, [...(blocks.get(block) ?? []), pitches[i]]);
  });
  const means = [...blocks.values()].map(mean);
  return {
    hz: origin * 2 ** (mean(pitches) / 1200),
    uCents: means.length > 1 ? deviation(means) / Math.sqrt(means.length) : deviation(pitches),
    scatterCents: deviation(pitches),
  };
}
