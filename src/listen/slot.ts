/**
 * The slot of a note, as far as this player bends it: from a held note slowly down, or up, to where it breaks into another
 * partial or stops. Where a bend ends is read off a straight line through its last moments, carried on to the break.
 */
import {
  cents,
  deviation,
  durationS,
  type Heard,
  joined,
  mean,
  median,
  type Pitched,
  pitchAtStart,
  type Stretch,
} from "./track.ts";

export type Side = "low" | "high";
/** broke: it jumped to another partial; stopped: silence followed. */
export type BendEnd = "broke" | "stopped";

export interface Bend {
  readonly side: Side;
  readonly end: BendEnd;
  readonly atS: number;
  readonly hz: number;
  /** About the resting pitch. */
  readonly cents: number;
}

export interface Slot {
  readonly restHz: number;
  readonly bends: readonly Bend[];
  /** The mean over the bends of a side; null where there was none. */
  readonly low: SlotEdge | null;
  readonly high: SlotEdge | null;
  readonly widthCents: number | null;
  /** Standard uncertainty of the width from the scatter over repeats; null unless both sides were repeated. */
  readonly widthUCents: number | null;
  /** Bends that came back before anything broke or stopped. */
  readonly turnedBack: number;
  /** The take ended in a bend. */
  readonly isCutOff: boolean;
}

export interface SlotEdge {
  readonly hz: number;
  readonly cents: number;
  /** Standard deviation over repeats; null of one bend. */
  readonly scatterCents: number | null;
  readonly count: number;
  /** Whether every bend of this side jumped to another partial. */
  readonly breaks: boolean;
}

/** A note this far from the one asked for is another. */
export const OTHER_NOTE_CENTS = 150;
/** Losses of pitch within a bend. */
const LOST_S = 0.08;
const LEAST_HOLD_S = 0.2;
const ATTACK_S = 0.1;
/** Lips at rest wander by less. */
const BENT_CENTS = 15;
/** Further away than this is a bend begun. */
const AWAY_CENTS = 1.5 * BENT_CENTS;
/** The bend's last moments, through which the line is laid. */
const EDGE_S = 0.2;
/** A break may be rough for as long before the next partial speaks; silence within it is a stop. */
const ROUGH_S = 0.3;
const SILENCE_S = 0.06;
/** No partials of brass are nearer to each other. */
const PARTIAL_CENTS = 70;
const BIN_CENTS = 5;

/** @param nearHz the note meant; without it the pitch held longest. Null where that is not heard. */
export function slotOf(heard: Heard, nearHz: number | null): Slot | null {
  const stretches = joined(heard.stretches, LOST_S);
  const aroundHz = longestHeldHz(stretches, nearHz);
  if (aroundHz === null) return null;
  const lastS = heard.track.frames[heard.track.frames.length - 1].atS;
  const holds: number[] = [];
  const bent: Omit<Bend, "cents">[] = [];
  let turnedBack = 0;
  let isCutOff = false;
  stretches.forEach((stretch, i) => {
    const whole = stretch.frames.filter(({ atS }) => atS >= stretch.fromS + ATTACK_S);
    if (durationS(stretch) < LEAST_HOLD_S + ATTACK_S || !isAtHome(whole, aroundHz)) return;
    const back = excursions(whole, aroundHz);
    turnedBack += back.count;
    const settled = whole.slice(back.homeFrom);
    if (settled.length < 3) return;
    const { holdCents, holdS, bendCents } = holdAndBend(settled, aroundHz);
    const isBent = Math.abs(bendCents - holdCents) >= BENT_CENTS;
    if (!isBent) holds.push(median(settled.map(({ hz }) => cents(hz, aroundHz))));
    else if (holdS >= LEAST_HOLD_S) holds.push(holdCents);
    if (!isBent) return;
    if (lastS - stretch.toS < SILENCE_S) {
      isCutOff = true;
      return;
    }
    const end = endOf(heard, stretch, stretches[i + 1]);
    const breakS = stretch.toS + heard.track.frameS / 2;
    bent.push({
      side: bendCents < holdCents ? "low" : "high",
      end,
      atS: breakS,
      hz: edgeHz(stretch, breakS),
    });
  });
  if (holds.length === 0 && bent.length === 0) return null;
  const restHz = aroundHz * 2 ** ((holds.length > 0 ? mean(holds) : 0) / 1200);
  const bends = bent.map((bend) => ({ ...bend, cents: cents(bend.hz, restHz) }));
  const low = edgeOf(bends, "low", restHz);
  const high = edgeOf(bends, "high", restHz);
  const uOf = ({ scatterCents, count }: SlotEdge) =>
    scatterCents === null ? null : scatterCents / Math.sqrt(count);
  const [lowU, highU] = [low && uOf(low), high && uOf(high)];
  return {
    restHz,
    bends,
    low,
    high,
    widthCents: low && high && high.cents - low.cents,
    widthUCents: lowU !== null && highU !== null ? Math.hypot(lowU, highU) : null,
    turnedBack,
    isCutOff,
  };
}

/** The pitch that most frames stand near, among those that could be the note meant. */
function longestHeldHz(stretches: readonly Stretch[], nearHz: number | null): number | null {
  const origin = nearHz ?? 440;
  const bins = new Map<number, number>();
  for (const { frames } of stretches)
    for (const { hz } of frames) {
      const bin = Math.round(cents(hz, origin) / BIN_CENTS);
      if (nearHz !== null && Math.abs(bin * BIN_CENTS) > OTHER_NOTE_CENTS) continue;
      // a pitch between two bins is of both
      for (const near of [bin - 1, bin, bin + 1]) bins.set(near, (bins.get(near) ?? 0) + 1);
    }
  if (bins.size === 0) return null;
  const [bin] = [...bins].reduce((most, next) => (next[1] > most[1] ? next : most));
  return origin * 2 ** ((bin * BIN_CENTS) / 1200);
}

/** Whether a stretch is long enough at the resting pitch to have been held there. */
const isAtHome = (frames: readonly Pitched[], homeHz: number): boolean => {
  const home = frames.filter(({ hz }) => Math.abs(cents(hz, homeHz)) < 2 * BENT_CENTS);
  return home.length > 0 && home.length * (frames[1].atS - frames[0].atS) >= LEAST_HOLD_S / 2;
};

/**
 * A hold and then a straight bend, by least squares over where the one goes over into the other: the hold's pitch does not
 * depend on where a threshold lies.
 */
function holdAndBend(frames: readonly Pitched[], homeHz: number) {
  const at = frames.map(({ atS }) => atS);
  const pitch = frames.map(({ hz }) => cents(hz, homeHz));
  const count = frames.length;
  const hinge = (from: number) => {
    // basis: 1 and max(0, t − t_from)
    let s1 = 0;
    let s2 = 0;
    let y0 = 0;
    let y1 = 0;
    let yy = 0;
    for (let i = 0; i < count; i++) {
      const ramp = Math.max(0, at[i] - at[from]);
      s1 += ramp;
      s2 += ramp * ramp;
      y0 += pitch[i];
      y1 += pitch[i] * ramp;
      yy += pitch[i] ** 2;
    }
    const determinant = count * s2 - s1 * s1;
    const slope = determinant > 1e-9 ? (count * y1 - s1 * y0) / determinant : 0;
    const hold = (y0 - slope * s1) / count;
    return { from, hold, slope, residual: yy - hold * y0 - slope * y1 };
  };
  const step = Math.max(1, Math.floor(count / 100));
  let best = hinge(count - 1);
  for (let from = 0; from < count - 2; from += step) {
    const next = hinge(from);
    if (next.residual < best.residual) best = next;
  }
  const last = frames.slice(-5).map(({ hz }) => cents(hz, homeHz));
  return { holdCents: best.hold, holdS: at[best.from] - at[0], bendCents: mean(last) };
}

/**
 * How often the pitch went away from its rest and came back within one stretch, and from which frame on it was home again
 * after the last time.
 */
function excursions(frames: readonly Pitched[], restHz: number): { count: number; homeFrom: number } {
  let count = 0;
  let homeFrom = 0;
  /** Furthest from home since it was there, signed; null before it has been. */
  let furthest: number | null = null;
  frames.forEach(({ hz }, i) => {
    const away = cents(hz, restHz);
    if (Math.abs(away) < BENT_CENTS / 2) {
      if (furthest !== null && Math.abs(furthest) > AWAY_CENTS) {
        count++;
        homeFrom = i;
      }
      furthest = 0;
    } else if (furthest !== null && Math.abs(away) > Math.abs(furthest)) furthest = away;
  });
  return { count, homeFrom };
}

/** What came after a bend: another partial, or silence. */
function endOf(heard: Heard, bend: Stretch, next: Stretch | undefined): BendEnd {
  if (next === undefined || next.fromS - bend.toS > ROUGH_S) return "stopped";
  const { frames, hopS } = heard.track;
  let silentS = 0;
  for (let i = 0; i < frames.length; i++) {
    if (frames[i].atS <= bend.toS || frames[i].atS >= next.fromS) continue;
    if (!heard.sounding[i]) silentS += hopS;
  }
  const jump = Math.abs(cents(pitchAtStart(next), bend.frames[bend.frames.length - 1].hz));
  return silentS < SILENCE_S && jump > PARTIAL_CENTS ? "broke" : "stopped";
}

/** The pitch at the break, by a straight line through the moments before it. */
function edgeHz({ frames, toS }: Stretch, breakS: number): number {
  const last = frames.filter(({ atS }) => atS >= toS - EDGE_S);
  const origin = last[0].hz;
  const t = last.map(({ atS }) => atS);
  const y = last.map(({ hz }) => cents(hz, origin));
  const [tMean, yMean] = [mean(t), mean(y)];
  const tt = t.reduce((sum, value) => sum + (value - tMean) ** 2, 0);
  const ty = t.reduce((sum, value, i) => sum + (value - tMean) * (y[i] - yMean), 0);
  return origin * 2 ** ((yMean + (ty / tt) * (breakS - tMean)) / 1200);
}

function edgeOf(bends: readonly Bend[], side: Side, restHz: number): SlotEdge | null {
  const own = bends.filter((bend) => bend.side === side);
  if (own.length === 0) return null;
  const at = own.map((bend) => bend.cents);
  const middle = mean(at);
  return {
    hz: restHz * 2 ** (middle / 1200),
    cents: middle,
    scatterCents: own.length > 1 ? deviation(at) : null,
    count: own.length,
    breaks: own.every(({ end }) => end === "broke"),
  };
}
