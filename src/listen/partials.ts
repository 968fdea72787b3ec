/** The notes that exist for a player: which of them a stretch of pitch is, and what was held or only touched. */
import { cents, durationS, type Heard, joined, median, type Stretch } from "./track.ts";

/** A stretch that stands on one of the partials. */
export interface PartialNote {
  readonly stretch: Stretch;
  /** From the lowest, 0. */
  readonly partial: number;
}

/** Beyond the outermost partials a note belongs to them within this; between two, to the nearer. */
const OUTERMOST_CENTS = 150;
/** One note, where its pitch was lost for less. */
const LOST_S = 0.12;

/**
 * Every stretch that is a note, in order. A pitch that is none of the partials is left out.
 * @param leastS what sounds for less is no note
 */
export function partialNotes(heard: Heard, partialsHz: readonly number[], leastS: number): PartialNote[] {
  const whole = joined(heard.stretches, LOST_S).filter((stretch) => soundedS(stretch, heard) >= leastS);
  return whole.flatMap((stretch) => {
    const partial = partialOf(stretch.hz, partialsHz);
    return partial === null ? [] : [{ stretch, partial }];
  });
}

/** How long it sounded: frames that lie half in it are told from those wholly in it by neither pitch. */
export const soundedS = (stretch: Stretch, { track }: Heard): number => durationS(stretch) + track.frameS / 2;

/** Index of the partial a pitch belongs to. */
export function partialOf(hz: number, partialsHz: readonly number[]): number | null {
  let nearest = 0;
  partialsHz.forEach((partialHz, i) => {
    if (Math.abs(cents(hz, partialHz)) < Math.abs(cents(hz, partialsHz[nearest]))) nearest = i;
  });
  return Math.abs(cents(hz, partialsHz[nearest])) <= OUTERMOST_CENTS ? nearest : null;
}

/** Within this of where it will stand, a note has settled. */
const SETTLED_CENTS = 15;

/** When a note came to stay where it stands. */
export function settledAtS({ frames }: Stretch): number {
  const standing = median(frames.slice(Math.floor(frames.length / 3)).map(({ hz }) => hz));
  let last = -1;
  // its last third may fall off without being unsettled
  frames.slice(0, Math.ceil((2 * frames.length) / 3)).forEach(({ hz }, i) => {
    if (Math.abs(cents(hz, standing)) > SETTLED_CENTS) last = i;
  });
  return frames[Math.min(last + 1, frames.length - 1)].atS;
}

/** The pitches sounded longest come first, s each. */
export function soundedLongest(notes: readonly PartialNote[]): [partial: number, seconds: number][] {
  const seconds = new Map<number, number>();
  for (const { partial, stretch } of notes)
    seconds.set(partial, (seconds.get(partial) ?? 0) + durationS(stretch));
  return [...seconds].sort((a, b) => b[1] - a[1]);
}

/** Notes this near each other are one, played differently in tune. */
const ONE_NOTE_CENTS = 90;
/** A note that was held, however shortly. */
const HEARD_S = 0.1;

/** The notes heard, lowest first, where nobody has said which exist. */
export function partialsHeard(heard: Heard): number[] {
  const found: Stretch[][] = [];
  const held = joined(heard.stretches, LOST_S).filter((stretch) => soundedS(stretch, heard) >= HEARD_S);
  for (const stretch of held.sort((a, b) => a.hz - b.hz)) {
    const last = found[found.length - 1];
    if (last && cents(stretch.hz, last[0].hz) < ONE_NOTE_CENTS) last.push(stretch);
    else found.push([stretch]);
  }
  return found.map((notes) => median(notes.flatMap(({ frames }) => frames.map(({ hz }) => hz))));
}
