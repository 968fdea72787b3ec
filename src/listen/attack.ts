/** Tongued notes: each spoke at once, or on a neighbour first, and how long it took to settle. */
import { partialNotes, partialOf, settledAtS, soundedLongest, soundedS } from "./partials.ts";
import { type Missed, missedOf } from "./slur.ts";
import type { Heard } from "./track.ts";

export interface Attack {
  readonly atS: number;
  /** Where it spoke first. */
  readonly landedHz: number;
  readonly result: "hit" | "missed";
  /** From its start until the note meant stands; null where it never did. */
  readonly settleS: number | null;
}

export interface Attacks {
  readonly targetHz: number;
  readonly attacks: readonly Attack[];
  readonly missed: Missed;
}

/** Dips of level within a note that part no two attacks. */
const DIP_S = 0.06;
/** What is shorter was no tongued note. */
const LEAST_S = 0.12;
/** A neighbour that speaks for as long before the note meant is a miss. */
const NEIGHBOUR_S = 0.025;
/** The note meant has spoken once it stands for as long. */
const SPOKEN_S = 0.08;
/** An onset is where the level has come within this of what follows: a frame half filled. */
const ONSET_DB = 4;
const ONSET_S = 0.1;

/** @param nearHz the note meant; without it the one sounded longest. Null where it was never heard. */
export function attacksOf(
  heard: Heard,
  partialsHz: readonly number[],
  nearHz: number | null,
): Attacks | null {
  const notes = partialNotes(heard, partialsHz, NEIGHBOUR_S);
  const target = nearHz === null ? (soundedLongest(notes)[0]?.[0] ?? null) : partialOf(nearHz, partialsHz);
  if (target === null || !notes.some(({ partial }) => partial === target)) return null;
  const attacks = tongued(heard).flatMap(({ fromS, toS }): Attack[] => {
    const own = notes.filter(({ stretch }) => stretch.toS > fromS && stretch.fromS < toS);
    if (own.length === 0) return [];
    const meant = own.filter(({ partial }) => partial === target);
    const spoken = meant.find(({ stretch }) => soundedS(stretch, heard) >= SPOKEN_S);
    const neighbour = own.find(
      ({ partial, stretch }) => partial !== target && (!spoken || stretch.fromS < spoken.stretch.fromS),
    );
    return [
      {
        atS: fromS,
        landedHz: (neighbour ?? spoken ?? own[0]).stretch.hz,
        result: neighbour ? "missed" : "hit",
        settleS: spoken ? Math.max(0, settledAtS(spoken.stretch) - fromS) : null,
      },
    ];
  });
  return { targetHz: partialsHz[target], attacks, missed: missedOf(attacks.map(({ result }) => result)) };
}

/** Runs of sound with silence, or a clear dip, before them. */
function tongued({ track, sounding }: Heard): { fromS: number; toS: number }[] {
  const runs: { from: number; to: number }[] = [];
  sounding.forEach((sounds, i) => {
    if (!sounds) return;
    const last = runs[runs.length - 1];
    if (last && (i - last.to) * track.hopS <= DIP_S) last.to = i;
    else runs.push({ from: i, to: i });
  });
  const { frames, hopS } = track;
  return runs
    .filter(({ from, to }) => (to - from) * hopS >= LEAST_S)
    .map(({ from, to }) => {
      const begin = frames.slice(from, from + Math.ceil(ONSET_S / hopS));
      const loudest = Math.max(...begin.map(({ levelDb }) => levelDb));
      const onset = begin.find(({ levelDb }) => levelDb >= loudest - ONSET_DB) ?? begin[0];
      return { fromS: onset.atS, toS: frames[to].atS };
    });
}
