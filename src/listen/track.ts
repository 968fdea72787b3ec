/**
 * What was heard, frame by frame, and the stretches of one pitch in it. A stretch ends where the pitch jumps, where there is
 * none, and where the sound dies away: what a room goes on ringing after a note is none of the player's.
 */
import type { Frame } from "./frameAnalyser.ts";
import { type PitchRange, SAME_CENTS } from "./harmonicPhase.ts";

/** A sound that has been listened to. */
export interface Track {
  readonly range: PitchRange;
  readonly frameS: number;
  readonly hopS: number;
  readonly frames: readonly Frame[];
}

export interface Pitched extends Frame {
  readonly hz: number;
}

/** Neighbouring frames of one pitch, or of a pitch that is bent. */
export interface Stretch {
  readonly frames: readonly Pitched[];
  readonly fromS: number;
  readonly toS: number;
  /** The median. */
  readonly hz: number;
}

/** Which frames sound, and the stretches among them. */
export interface Heard {
  readonly track: Track;
  /** Of each frame: loud enough to be the player, and not dying away. */
  readonly sounding: readonly boolean[];
  readonly stretches: readonly Stretch[];
  /** What most of the playing is as loud as, and the quietest moments, dB of the analysis band. */
  readonly loudDb: number;
  readonly floorDb: number;
  /** The mains, where they hum through the whole take and nothing louder sounds. */
  readonly humHz: number | null;
}

/** A player is not this much softer than at the loudest; somebody who talks beside is. */
const SOFTEST_DB = -14;
/** Above the quietest moments. */
const ABOVE_FLOOR_DB = 8;
/** A note that falls this much in that time has ended. A room then rings on from −3 dB and less. */
const DYING_DB = 5;
const DYING_S = 0.15;
/** Frames without pitch that do not part a stretch. */
const BRIDGED_S = 0.012;
/** What is shorter is no pitch: frames overlap. */
const LEAST_FRAMES = 3;

/** Cents of one frequency above another. */
export const cents = (hz: number, fromHz: number): number => 1200 * Math.log2(hz / fromHz);

export function median(values: readonly number[]): number {
  const sorted = Float64Array.from(values).sort();
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Standard deviation of a sample; 0 of fewer than two. */
export function deviation(values: readonly number[]): number {
  if (values.length < 2) return 0;
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
}

export const durationS = ({ fromS, toS }: { fromS: number; toS: number }): number => toS - fromS;

/** Finds what sounds, and the stretches of pitch in it. */
export function hear(track: Track): Heard {
  const levels = Float64Array.from(track.frames, ({ levelDb }) => levelDb).sort();
  const loudDb = levels[Math.floor(0.9 * (levels.length - 1))];
  const floorDb = levels[Math.floor(0.02 * (levels.length - 1))];
  const isFloorHeard = loudDb - floorDb > 2 * ABOVE_FLOOR_DB;
  const leastDb = Math.max(loudDb + SOFTEST_DB, isFloorHeard ? floorDb + ABOVE_FLOOR_DB : -Infinity);
  const back = Math.ceil(DYING_S / track.hopS);
  const sounding = track.frames.map(({ levelDb }, i, frames) => {
    if (levelDb < leastDb) return false;
    for (let j = Math.max(0, i - back); j < i; j++) if (frames[j].levelDb - levelDb > DYING_DB) return false;
    return true;
  });
  const stretches = stretchesOf(track, sounding);
  const humHz = isFloorHeard ? null : humOf(stretches, track);
  return { track, sounding, stretches: humHz === null ? stretches : [], loudDb, floorDb, humHz };
}

const MAINS_HZ = [50, 60, 100, 120, 150, 180];
/** Mains keep their frequency within a few thousandths. */
const MAINS_CENTS = 10;
/** Nobody plays from the first moment of a take to its last. */
const THROUGHOUT = 0.9;

/** A steady tone of the mains that nobody has begun or ended. */
function humOf(stretches: readonly Stretch[], { frames }: Track): number | null {
  const seconds = frames[frames.length - 1].atS - frames[0].atS;
  const mains = stretches.filter(({ hz }) => MAINS_HZ.some((one) => Math.abs(cents(hz, one)) < MAINS_CENTS));
  const humS = mains.reduce((sum, stretch) => sum + durationS(stretch), 0);
  return mains.length > 0 && humS > THROUGHOUT * seconds ? median(mains.map(({ hz }) => hz)) : null;
}

function stretchesOf(track: Track, sounding: readonly boolean[]): Stretch[] {
  const stretches: Stretch[] = [];
  let run: Pitched[] = [];
  const end = () => {
    if (run.length >= LEAST_FRAMES) stretches.push(stretchOf(run));
    run = [];
  };
  inOneOctave(track.frames).forEach((hz, i) => {
    const frame = track.frames[i];
    const { atS } = frame;
    if (!sounding[i] || hz === null) return;
    const last = run[run.length - 1];
    if (last && (atS - last.atS > track.hopS + BRIDGED_S || Math.abs(cents(hz, last.hz)) > SAME_CENTS)) end();
    run.push({ ...frame, hz });
  });
  end();
  return stretches;
}

export const stretchOf = (frames: readonly Pitched[]): Stretch => ({
  frames,
  fromS: frames[0].atS,
  toS: frames[frames.length - 1].atS,
  hz: median(frames.map(({ hz }) => hz)),
});

/** The pitches, a lone frame that is an octave off both its neighbours put right. */
const inOneOctave = (frames: readonly Frame[]): (number | null)[] =>
  frames.map(({ hz }, i) => {
    const before = frames[i - 1]?.hz ?? null;
    const after = frames[i + 1]?.hz ?? null;
    if (hz === null || before === null || after === null) return hz;
    if (Math.abs(cents(before, after)) > SAME_CENTS) return hz;
    const octaves = Math.round(cents(before, hz) / 1200);
    return Math.abs(octaves) === 1 && Math.abs(cents(before, hz * 2 ** octaves)) < SAME_CENTS
      ? hz * 2 ** octaves
      : hz;
  });

/** Stretches that follow each other within `gapS` at the same pitch are one; between them nothing was played. */
export function joined(stretches: readonly Stretch[], gapS: number): Stretch[] {
  const whole: Stretch[] = [];
  for (const stretch of stretches) {
    const last = whole[whole.length - 1];
    if (last && stretch.fromS - last.toS <= gapS && isContinued(last, stretch))
      whole[whole.length - 1] = stretchOf([...last.frames, ...stretch.frames]);
    else whole.push(stretch);
  }
  return whole;
}

/** The pitch goes on where it stopped. */
const isContinued = (before: Stretch, after: Stretch): boolean =>
  Math.abs(cents(pitchAtStart(after), pitchAtEnd(before))) < SAME_CENTS;

const EDGE_FRAMES = 5;
export const pitchAtEnd = ({ frames }: Stretch): number =>
  median(frames.slice(-EDGE_FRAMES).map(({ hz }) => hz));
export const pitchAtStart = ({ frames }: Stretch): number =>
  median(frames.slice(0, EDGE_FRAMES).map(({ hz }) => hz));
