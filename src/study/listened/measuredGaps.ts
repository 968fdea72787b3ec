/**
 * What one player does at each gap, from the takes that were kept: slot widths and pitch in cents, slurs and attacks as shares
 * missed; and whether two gaps were told apart.
 *
 * The scatter is one over all gaps (the pooled within-gap variance), Student's t with its degrees of freedom. It is that of takes
 * where any gap has two or more, since what a player does differs more from take to take than from bend to bend; else that of
 * the bends of single takes. Shares: Wilson's interval, differences by Newcombe's (1998, Statistics in Medicine 17, 873, method 10).
 */
import type { KeptTake, Measured } from "../../listen/keptTake.ts";
import type { TakeTest } from "../../listen/takeQuestion.ts";
import { isSameGap } from "../../setup/setup.ts";
import { tQuantile } from "../../statistics/distributions.ts";
import { wilsonInterval } from "../../statistics/wilsonInterval.ts";

/** One note, played for one test: what can be compared between gaps. */
export interface ListenedNote {
  readonly test: TakeTest;
  readonly partial: number;
  readonly toPartial: number | null;
  /** By gap, the smallest first. */
  readonly gaps: readonly MeasuredGap[];
  /** What the intervals rest on; `none`: nothing was repeated. */
  readonly basis: "takes" | "bends" | "counts" | "none";
  readonly change: MeasuredChange | null;
  /** Standard deviation of one repeat, cents, and its degrees of freedom; null where there is none. */
  readonly scatter: Scatter | null;
}

export interface Scatter {
  readonly value: number;
  readonly df: number;
}

export interface MeasuredGap {
  readonly gapMm: number;
  readonly takes: number;
  /** Bends of the side with fewer, or notes counted. */
  readonly repeats: number;
  /** Cents: of a slot its width, of a held note its pitch above the note meant; of slurs and attacks the share missed. */
  readonly value: number;
  /** 95 %; null where nothing was repeated. */
  readonly interval: readonly [low: number, high: number] | null;
}

/** From the smallest gap that was listened to, to the largest. */
export interface MeasuredChange {
  readonly from: MeasuredGap;
  readonly to: MeasuredGap;
  readonly value: number;
  /** 95 %. */
  readonly interval: readonly [low: number, high: number];
  readonly isFound: boolean;
  /** A difference that would be found four times in five. */
  readonly detectable: number;
}

/** A take at the gap it is known by now to belong to. */
export interface TakeAtGap {
  readonly gapMm: number;
  readonly take: KeptTake;
}

const CONFIDENCE = 0.975;
const POWER = 0.8;
const NORMAL = { confidence: 1.959964, power: 0.841621 };

/** @param notesHz frequencies of the partials as they are written for this instrument, by partial */
export function listenedNotes(
  takes: readonly TakeAtGap[],
  noteHz: (partial: number) => number,
): readonly ListenedNote[] {
  const groups = new Map<string, TakeAtGap[]>();
  for (const one of takes) {
    const { partial, toPartial, measured } = one.take;
    if (measured.test === "slot" && widthOf(measured) === null) continue;
    const key = `${measured.test} ${partial} ${toPartial}`;
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].map((group) => {
    const [{ take }] = group;
    const { test } = take.measured;
    const found =
      test === "slur" || test === "attack" ? ofShares(atGaps(group)) : ofCents(atGaps(group), noteHz);
    return { test, partial: take.partial, toPartial: take.toPartial, ...found };
  });
}

/** Whether a note has been listened to at two gaps or more, so that it says something about the gap. */
export const isCompared = ({ gaps }: ListenedNote): boolean => gaps.length > 1;

/**
 * So many repeats at each of so many gaps find a difference four times in five; null where no number up to `most` does.
 */
export function repeatsNeeded(scatter: number, difference: number, gaps = 2, most = 99): number | null {
  for (let count = 2; count <= most; count++)
    if (differenceFoundBy(scatter, count, gaps) <= difference) return count;
  return null;
}

/** The difference that so many repeats at each of so many gaps find four times in five. */
export const differenceFoundBy = (scatter: number, repeats: number, gaps = 2): number =>
  detectable(scatter, gaps * (repeats - 1), 2 / repeats);

/** A difference found four times in five. @param inverse the sum of one over each number of repeats */
const detectable = (scatter: number, df: number, inverse: number): number =>
  (tQuantile(CONFIDENCE, df) + tQuantile(POWER, df)) * scatter * Math.sqrt(inverse);

interface AtGap {
  readonly gapMm: number;
  readonly takes: readonly KeptTake[];
}

function atGaps(group: readonly TakeAtGap[]): AtGap[] {
  const gaps: { gapMm: number; takes: KeptTake[] }[] = [];
  for (const { gapMm, take } of [...group].sort((a, b) => a.gapMm - b.gapMm)) {
    const last = gaps[gaps.length - 1];
    if (last && isSameGap(last.gapMm, gapMm)) last.takes.push(take);
    else gaps.push({ gapMm, takes: [take] });
  }
  return gaps;
}

type Found = Pick<ListenedNote, "gaps" | "basis" | "change" | "scatter">;

function ofCents(gaps: readonly AtGap[], noteHz: (partial: number) => number): Found {
  const values = gaps.map(({ takes }) => takes.map((take) => centsOf(take, noteHz)));
  const isTakes = values.some(({ length }) => length > 1);
  const bends = gaps.map(({ takes }) => pooledBends(takes));
  const scatter = isTakes ? pooled(values) : pooled(bends.flatMap(({ low, high }) => [low, high]));
  // what the variance of a gap's mean is times that of one repeat
  const inverse = gaps.map((_, i) =>
    isTakes ? 1 / values[i].length : 1 / bends[i].low.length + 1 / bends[i].high.length,
  );
  const factor = scatter && tQuantile(CONFIDENCE, scatter.df) * scatter.value;
  const measured = gaps.map(({ gapMm, takes }, i): MeasuredGap => {
    const value = mean(values[i]);
    const half = factor === null ? null : factor * Math.sqrt(inverse[i]);
    return {
      gapMm,
      takes: takes.length,
      repeats: Math.min(bends[i].low.length, bends[i].high.length) || takes.length,
      value,
      interval: half === null ? null : [value - half, value + half],
    };
  });
  const basis = !scatter ? "none" : isTakes ? "takes" : "bends";
  return { gaps: measured, basis, scatter, change: changeOf() };

  function changeOf(): MeasuredChange | null {
    if (!scatter || factor === null || measured.length < 2) return null;
    const [from, to] = [measured[0], measured[measured.length - 1]];
    const both = inverse[0] + inverse[inverse.length - 1];
    const half = factor * Math.sqrt(both);
    const value = to.value - from.value;
    return {
      from,
      to,
      value,
      interval: [value - half, value + half],
      isFound: Math.abs(value) > half,
      detectable: detectable(scatter.value, scatter.df, both),
    };
  }
}

function ofShares(gaps: readonly AtGap[]): Found {
  const counts = gaps.map(({ takes }) => {
    const shares = takes.map(({ measured }) => measured as Extract<Measured, { missed: number }>);
    return { missed: sum(shares.map(({ missed }) => missed)), of: sum(shares.map(({ of }) => of)) };
  });
  const measured = gaps.map(
    ({ gapMm, takes }, i): MeasuredGap & { readonly interval: readonly [number, number] } => {
      const { missed, of } = counts[i];
      return {
        gapMm,
        takes: takes.length,
        repeats: of,
        value: missed / of,
        interval: wilsonInterval(missed, of),
      };
    },
  );
  const last = measured.length - 1;
  const [from, to] = [measured[0], measured[last]];
  const value = to.value - from.value;
  const low = value - Math.hypot(to.value - to.interval[0], from.interval[1] - from.value);
  const high = value + Math.hypot(to.interval[1] - to.value, from.value - from.interval[0]);
  const [one, other] = [counts[0], counts[last]];
  // a share of nothing missed is no certainty
  const share = (one.missed + other.missed + 1) / (one.of + other.of + 2);
  const change: MeasuredChange = {
    from,
    to,
    value,
    interval: [low, high],
    isFound: low > 0 || high < 0,
    detectable:
      (NORMAL.confidence + NORMAL.power) * Math.sqrt(share * (1 - share) * (1 / one.of + 1 / other.of)),
  };
  return { gaps: measured, basis: "counts", scatter: null, change: last > 0 ? change : null };
}

/**
 * The scatter of one repeat as `repeatsNeeded` takes it: of a take, or of one bend down and one up, which both are in a width.
 * Null where nothing was repeated, and of shares, whose scatter their number alone decides.
 */
export function planScatter({ basis, scatter }: ListenedNote): number | null {
  if (!scatter) return null;
  return basis === "bends" ? scatter.value * Math.SQRT2 : scatter.value;
}

/** The number that a take is compared by; null of a slot with one end. */
export function takeValue(take: KeptTake, noteHz: (partial: number) => number): number | null {
  const { measured } = take;
  if ("missed" in measured) return measured.missed / measured.of;
  if (measured.test === "slot" && widthOf(measured) === null) return null;
  return centsOf(take, noteHz);
}

/** The pitch of a held note above the note meant, or the width of a slot. */
function centsOf({ measured, partial }: KeptTake, noteHz: (partial: number) => number): number {
  if (measured.test === "steady") return 1200 * Math.log2(measured.hz / noteHz(partial));
  return measured.test === "slot" ? widthOf(measured)! : Number.NaN;
}

/** Null where one end was never found. */
export function widthOf({ lowCents, highCents }: Extract<Measured, { test: "slot" }>): number | null {
  return lowCents.length > 0 && highCents.length > 0 ? mean(highCents) - mean(lowCents) : null;
}

/** The ends of single bends; held notes have none. */
function pooledBends(takes: readonly KeptTake[]): { low: readonly number[]; high: readonly number[] } {
  const slots = takes.flatMap(({ measured }) => (measured.test === "slot" ? measured : []));
  return {
    low: slots.flatMap(({ lowCents }) => lowCents),
    high: slots.flatMap(({ highCents }) => highCents),
  };
}

/** One standard deviation from several groups, each about its own mean; null where no group has two. */
function pooled(groups: readonly (readonly number[])[]): Scatter | null {
  const df = sum(groups.map(({ length }) => Math.max(0, length - 1)));
  if (df === 0) return null;
  const squares = sum(
    groups.map((group) => {
      const middle = mean(group);
      return sum(group.map((value) => (value - middle) ** 2));
    }),
  );
  return { value: Math.sqrt(squares / df), df };
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const mean = (values: readonly number[]): number => sum(values) / values.length;
