/** A check: values from outside the project, the same computed here, how far apart they may be, and what that is to a player. */
import { type Heard, heardBy, NOTICED, type Quantity } from "./heard.ts";

/** One value held against one from outside. */
export interface Sample {
  /** What it is of, as short as it can be. */
  readonly of: string;
  readonly ours: number;
  readonly theirs: number;
  /** Distance of the two and the most that is asked for, both in the check's unit. */
  readonly off: number;
  readonly asked: number;
}

export interface Check {
  readonly name: string;
  readonly part: "air and walls" | "gap" | "whole bore" | "bell" | "flow" | "lips" | "statistics and shapes";
  /** Who says so, and by what method. */
  readonly source: string;
  /** The table in `tests/reference`. */
  readonly table: string;
  /** Of `off` and `asked`: `1` is a fraction of the value, or of what the source calls 1. */
  readonly unit: "1" | "cents" | "dB" | "°";
  readonly samples: () => readonly Sample[];
  /** What a sample's error would do to a note or to the breath; by the unit if absent. */
  readonly heard?: (sample: Sample, i: number) => Heard;
}

/** A check that has been made: plain data. */
export interface Outcome extends Omit<Check, "samples" | "heard"> {
  readonly samples: readonly Sample[];
  /** The sample that comes nearest to what is asked, or lies beyond it. */
  readonly worst: Sample;
  readonly isWithin: boolean;
  /** What every sample's error would do, in each way that a player could notice. */
  readonly heard: Readonly<Partial<Record<Quantity, readonly number[]>>>;
}

/** The largest of what its errors would do, as a share of what a player notices; null where nothing of it is heard. */
export const shareNoticed = ({ heard }: Pick<Outcome, "heard">): number | null => {
  const shares = Object.entries(heard).map(
    ([quantity, sizes]) => Math.max(...sizes) / NOTICED[quantity as Quantity],
  );
  return shares.length === 0 ? null : Math.max(...shares);
};

export function outcomeOf(check: Check): Outcome {
  const { samples: make, heard = heardBy[check.unit], ...about } = check;
  const samples = make();
  if (samples.length === 0) throw new RangeError(`${check.table} has no row for “${check.name}”`);
  const worst = samples.reduce((most, sample) => (partOf(sample) > partOf(most) ? sample : most));
  const each = samples.map(heard);
  const quantities = (Object.keys(NOTICED) as Quantity[]).filter((quantity) =>
    each.some((one) => quantity in one),
  );
  return {
    ...about,
    samples,
    worst,
    isWithin: partOf(worst) <= 1,
    heard: Object.fromEntries(
      quantities.map((quantity) => [quantity, each.map((one) => one[quantity] ?? 0)]),
    ),
  };
}

/** How much of what is allowed a sample takes; what is not a number takes all and more. */
export const partOf = ({ off, asked }: Sample): number =>
  Number.isFinite(off) ? off / asked : Number.POSITIVE_INFINITY;

/** A value held against another as a fraction of it. */
export const relative = (of: string, ours: number, theirs: number, asked: number): Sample => ({
  of,
  ours,
  theirs,
  off: Math.abs(ours / theirs - 1),
  asked,
});

/** A value held against another that may be so many times as large or as small: 1.3 asks for less than 0.3. */
export const factor = (of: string, ours: number, theirs: number, times: number): Sample => ({
  of,
  ours,
  theirs,
  off: Math.max(ours / theirs, theirs / ours) - 1,
  asked: times - 1,
});

/** A value held against another by their difference. */
export const absolute = (of: string, ours: number, theirs: number, asked: number): Sample => ({
  of,
  ours,
  theirs,
  off: Math.abs(ours - theirs),
  asked,
});

/** A complex value held against another: the distance of the two; sizes are what is shown. */
export const complex = (
  of: string,
  [re, im]: readonly [number, number],
  [re0, im0]: readonly [number, number],
  asked: number,
  over = 1,
): Sample => ({
  of,
  ours: Math.hypot(re, im),
  theirs: Math.hypot(re0, im0),
  off: Math.hypot(re - re0, im - im0) / over,
  asked,
});

/** A frequency held against another, in cents. */
export const inCents = (of: string, ours: number, theirs: number, asked: number): Sample => ({
  of,
  ours,
  theirs,
  off: Math.abs(1200 * Math.log2(ours / theirs)),
  asked,
});

/** A size held against another, in decibels. */
export const inDecibels = (of: string, ours: number, theirs: number, asked: number): Sample => ({
  of,
  ours,
  theirs,
  off: Math.abs(20 * Math.log10(ours / theirs)),
  asked,
});
