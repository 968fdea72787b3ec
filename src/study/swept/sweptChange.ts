/**
 * What sweeps before and after a change tell: by how much each resonance moved, with its uncertainty by JCGM 100:2008.
 *
 * Every take is brought to one temperature first: resonances go as the speed of sound in the column. From take to take two things
 * scatter: all resonances together (air, clock), and each by itself (seal, mounting); both variances are pooled over like takes. Beside
 * them stand how well the temperatures were read, what the takes themselves leave open (noise, echoes), and, where like takes drift, what the
 * drift does to the difference. Degrees of freedom by Welch and Satterthwaite, Student's t.
 */
import { mean, median, sum } from "d3";
import {
  combinedUncertainty,
  effectiveDegreesOfFreedom,
  type UncertaintyComponent,
} from "../../bench/measure/combinedUncertainty.ts";
import { coverageFactor } from "../../bench/measure/coverage.ts";
import type { KeptSweep, Side } from "../../response/keptSweep.ts";
import { isSameGap } from "../../setup/setup.ts";
import { cents } from "../instrument/pitch.ts";
import { followed, type HeardResonance } from "./followed.ts";

export interface SweptChange {
  readonly beforeMm: number;
  readonly afterMm: number;
  /** To which all are brought, °C. */
  readonly temperatureC: number;
  /** In the order in which they were taken. */
  readonly takes: readonly ComparedTake[];
  /** The lowest first; those that were heard before and after. */
  readonly resonances: readonly SweptResonance[];
  /** `once`: no like takes, and so no scatter: what mounting anew does is not in the uncertainties. */
  readonly basis: "repeated" | "once";
  readonly scatter: Scatter;
  readonly doubts: readonly SweptDoubt[];
}

export interface ComparedTake {
  readonly id: string;
  readonly side: Side;
  /** All resonances together above the mean of like takes, at one temperature, cents; null where it is the only one. */
  readonly offsetCents: number | null;
}

export interface SweptResonance {
  /** Before, at the temperature to which all are brought. */
  readonly hz: number;
  readonly q: number;
  /** From before to after, and half of its 95 % interval. */
  readonly shift: Measured;
  /** The same half without what all resonances have in common: air, thermometer, drift. */
  readonly ownExpanded: number;
  /** Of Q, %; null where nothing was repeated and the takes leave it open. */
  readonly qChange: Measured;
}

export interface Measured {
  readonly value: number;
  readonly expanded: number;
}

/** Standard deviations of one take, cents. */
export interface Scatter {
  /** Of all resonances together, and of each by itself; null where nothing was repeated. */
  readonly common: number | null;
  readonly own: number | null;
  /** What the temperature as it was read leaves open. */
  readonly temperature: number;
  /** Of the difference: what a drift of like takes does to it. */
  readonly drift: number;
}

/**
 * `once`: nothing was repeated; `one after the other`: all of one side were taken before the other, so that a drift is not told from a
 * change; `drift`: like takes move by more than a cent; `unlike`: a take is unlike its like in the low resonances, as with a leak at
 * the seal; `leak`: the low resonances lost or gained more Q than a gap does; `restless`: echoes or the like in takes; `unclocked`: of
 * some takes the clock is not known; `few`: fewer than three resonances were followed.
 */
export type SweptDoubt =
  | { readonly kind: "once" | "one after the other" | "restless" | "unclocked" | "few" }
  | { readonly kind: "drift"; readonly cents: number; readonly kelvin: number }
  | { readonly kind: "unlike"; readonly take: number; readonly side: Side }
  | { readonly kind: "leak"; readonly percent: number };

/** Like takes that differ by this much ask for a word, cents. */
const DRIFT_CENTS = 1;
/** The lowest resonances feel a leak first. */
const LOWEST = 3;
/** A take's low resonances against its like's: further apart than this, cents and % of Q. */
const UNLIKE_CENTS = 2;
const UNLIKE_Q = 6;
/** No gap changes the Q of low resonances by so much, %. */
const LEAK_Q = 6;
const FEW = 3;
/** A resonance that scatters this much more than all together has a scatter of its own. */
const RESTLESS = 2;
const SIDES = ["before", "after"] as const;

/** What of a job's takes is compared: each side at the gap of its last take; null while a side has none. */
export function sweptChange(kept: readonly KeptSweep[]): SweptChange | null {
  const last = (side: Side) => kept.findLast((take) => take.side === side)?.gapMm;
  const gaps = { before: last("before"), after: last("after") };
  if (gaps.before === undefined || gaps.after === undefined) return null;
  const takes = kept.filter(({ side, gapMm }) => isSameGap(gapMm, gaps[side]!));
  const temperatureC = mean(takes, (take) => take.temperatureC)!;
  const heard = takes.map((take) => brought(take, temperatureC));
  const rows = followed(heard)
    .map((row) => rowOf(row, takes))
    .filter(({ values }) => SIDES.every((side) => of(side, values).length > 0));
  return {
    beforeMm: gaps.before,
    afterMm: gaps.after,
    temperatureC,
    ...compared(takes, rows, temperatureC),
  };
}

interface OfTake {
  /** Which take, in order. */
  readonly take: number;
  readonly side: Side;
  /** Above the mean of before, cents. */
  readonly cents: number;
  /** Standard uncertainty within the take. */
  readonly uCents: number;
  /** ln Q, and its standard uncertainty. */
  readonly lnQ: number;
  readonly uLnQ: number;
}

interface Row {
  readonly hz: number;
  readonly values: readonly OfTake[];
}

const of = <T extends { readonly side: Side }>(side: Side, values: readonly T[]): readonly T[] =>
  values.filter((one) => one.side === side);

/** From the speed of sound at one temperature up to that at another, of air whose moisture stays what it is: c goes as √T; cents. */
export const airCents = (fromC: number, toC: number): number => cents(toC + 273.15, fromC + 273.15) / 2;

/** At another temperature. */
function brought({ resonances, temperatureC }: KeptSweep, toC: number): HeardResonance[] {
  const factor = 2 ** (airCents(temperatureC, toC) / 1200);
  return resonances.map((one) => ({ ...one, hz: one.hz * factor }));
}

function rowOf(row: readonly (HeardResonance | null)[], takes: readonly KeptSweep[]): Row {
  const before = row.flatMap((one, k) => (one && takes[k].side === "before" ? one.hz : []));
  const hz = mean(before.length > 0 ? before : row.flatMap((one) => one?.hz ?? []))!;
  const values = row.flatMap((one, take): OfTake[] =>
    one
      ? [
          {
            take,
            side: takes[take].side,
            cents: cents(one.hz, hz),
            uCents: (cents(one.hz + one.UHz, one.hz) || 0) / 1.96,
            lnQ: Math.log(one.q),
            uLnQ: one.UQ / one.q / 1.96,
          },
        ]
      : [],
  );
  return { hz, values };
}

function compared(
  takes: readonly KeptSweep[],
  rows: readonly Row[],
  temperatureC: number,
): Omit<SweptChange, "beforeMm" | "afterMm" | "temperatureC"> {
  const counts = { before: of("before", takes).length, after: of("after", takes).length };
  const isOnce = takes.length < 3;
  // about the mean of like takes
  const left = rows.flatMap(({ values }, row) =>
    values.map((one) => {
      const like = of(one.side, values);
      return {
        ...one,
        row,
        likes: like.length,
        left: one.cents - mean(like, (other) => other.cents)!,
        leftQ: one.lnQ - mean(like, (other) => other.lnQ)!,
      };
    }),
  );
  const offsets = takes.map(({ side }, take) =>
    counts[side] > 1
      ? (mean(
          left.filter((one) => one.take === take && one.likes > 1),
          (one) => one.left,
        ) ?? 0)
      : null,
  );
  const dfCommon = Math.max(0, counts.before - 1) + Math.max(0, counts.after - 1);
  const common = isOnce ? null : Math.sqrt(sum(offsets, (one) => (one ?? 0) ** 2) / dfCommon);
  const dfAll = sum(rows, ({ values }) => sum(SIDES, (side) => Math.max(0, of(side, values).length - 1)));
  const dfOwn = Math.max(1, dfAll - dfCommon);
  const own = isOnce
    ? null
    : Math.sqrt(sum(left, (one) => (one.left - (offsets[one.take] ?? 0)) ** 2) / dfOwn);
  /** One that scatters by far more than the others does so by itself, as the low ones do where the seal leaks. */
  const ownOf = (row: number): { readonly value: number; readonly df: number } | null => {
    const values = left.filter((one) => one.row === row);
    const df = sum(SIDES, (side) => Math.max(0, of(side, values).length - 1));
    const value = Math.sqrt(
      sum(values, (one) => (one.left - (offsets[one.take] ?? 0)) ** 2) / Math.max(1, df),
    );
    return own !== null && df > 0 && value > RESTLESS * own ? { value, df } : null;
  };
  const ownQ = isOnce ? null : Math.sqrt(sum(left, (one) => one.leftQ ** 2) / Math.max(1, dfAll));
  const perKelvin = airCents(temperatureC - 0.5, temperatureC + 0.5);
  const slope = driftOf(offsets, takes);
  const order = (side: Side) => mean(takes.flatMap((take, i) => (take.side === side ? i : [])))!;
  const drift = Math.abs(slope * (order("after") - order("before")));
  // of the mean of a side
  const read = (side: Side) =>
    Math.sqrt(sum(of(side, takes), (take) => (take.temperatureUncertaintyK / 1.96) ** 2)) / counts[side];
  const temperature = perKelvin * Math.hypot(read("before"), read("after"));

  const resonances = rows.map(({ hz, values }, row): SweptResonance => {
    const sides = SIDES.map((side) => of(side, values));
    const inverse = sum(sides, ({ length }) => 1 / length);
    const within = (u: (one: OfTake) => number) =>
      Math.sqrt(sum(sides, (side) => sum(side, (one) => u(one) ** 2) / side.length ** 2));
    const [shift, q] = [(one: OfTake) => one.cents, (one: OfTake) => one.lnQ].map(
      (value) => mean(sides[1], value)! - mean(sides[0], value)!,
    );
    const together: UncertaintyComponent[] = [
      { standardUncertainty: (common ?? 0) * Math.sqrt(inverse), degreesOfFreedom: Math.max(1, dfCommon) },
      { standardUncertainty: temperature, degreesOfFreedom: Infinity },
      { standardUncertainty: drift, degreesOfFreedom: Infinity },
    ];
    const alone: UncertaintyComponent[] = [
      {
        standardUncertainty: (ownOf(row)?.value ?? own ?? 0) * Math.sqrt(inverse),
        degreesOfFreedom: ownOf(row)?.df ?? dfOwn,
      },
      { standardUncertainty: within(({ uCents }) => uCents), degreesOfFreedom: Infinity },
    ];
    const ofQ: UncertaintyComponent[] = [
      { standardUncertainty: (ownQ ?? 0) * Math.sqrt(inverse), degreesOfFreedom: Math.max(1, dfAll) },
      { standardUncertainty: within(({ uLnQ }) => uLnQ), degreesOfFreedom: Infinity },
    ];
    return {
      hz,
      q: Math.exp(mean(sides[0], (one) => one.lnQ)!),
      shift: { value: shift, expanded: expanded([...together, ...alone]) },
      ownExpanded: expanded(alone),
      qChange: { value: 100 * Math.expm1(q), expanded: 100 * expanded(ofQ) },
    };
  });
  return {
    takes: takes.map(({ id, side }, i) => ({ id, side, offsetCents: offsets[i] })),
    resonances,
    basis: isOnce ? "once" : "repeated",
    scatter: {
      common,
      own,
      temperature: perKelvin * Math.max(...takes.map((take) => take.temperatureUncertaintyK / 1.96)),
      drift,
    },
    doubts: doubtsOf(takes, offsets, left, resonances, perKelvin),
  };
}

function expanded(components: readonly UncertaintyComponent[]): number {
  const standard = combinedUncertainty(components);
  return standard === 0 ? 0 : coverageFactor(effectiveDegreesOfFreedom(components)) * standard;
}

/** By how much like takes move from one take to the next, cents; least squares about the mean of each side. */
function driftOf(offsets: readonly (number | null)[], takes: readonly KeptSweep[]): number {
  const middle = (side: Side) => mean(takes.flatMap((take, i) => (take.side === side ? i : [])))!;
  const points = takes.map(({ side }, i) => ({ x: i - middle(side), y: offsets[i] ?? 0 }));
  const square = sum(points, ({ x }) => x * x);
  return square === 0 ? 0 : sum(points, ({ x, y }) => x * y) / square;
}

function doubtsOf(
  takes: readonly KeptSweep[],
  offsets: readonly (number | null)[],
  left: readonly (OfTake & {
    readonly row: number;
    readonly left: number;
    readonly leftQ: number;
    readonly likes: number;
  })[],
  resonances: readonly SweptResonance[],
  perKelvin: number,
): SweptDoubt[] {
  const doubts: SweptDoubt[] = [];
  if (takes.length < 3) doubts.push({ kind: "once" });
  const turns = takes.filter(({ side }, i) => i > 0 && side !== takes[i - 1].side).length;
  if (takes.length > 2 && turns < 2) doubts.push({ kind: "one after the other" });
  const known = offsets.flatMap((one) => one ?? []);
  const range = known.length > 0 ? Math.max(...known) - Math.min(...known) : 0;
  if (range > DRIFT_CENTS) doubts.push({ kind: "drift", cents: range, kelvin: range / perKelvin });
  for (const [take, { side }] of takes.entries()) {
    const low = left.filter((one) => one.take === take && one.likes > 1 && one.row < LOWEST);
    if (low.length === 0) continue;
    // beyond what all resonances of the take have in common, which the air does
    const high = left.filter((one) => one.take === take && one.likes > 1 && one.row >= LOWEST);
    const beyond = Math.abs(mean(low, (one) => one.left)! - (median(high, (one) => one.left) ?? 0));
    const lost = -100 * mean(low, (one) => one.leftQ)!;
    // of two like takes each stands half of the difference from the mean: the one with less Q leaks
    const share = 1 - 1 / (low[0]?.likes ?? 2);
    if (lost > share * UNLIKE_Q || (beyond > share * UNLIKE_CENTS && lost > 0))
      doubts.push({ kind: "unlike", take, side });
  }
  const lows = resonances.slice(0, LOWEST).map(({ qChange }) => qChange);
  const percent = mean(lows, ({ value }) => value) ?? 0;
  const doubt = Math.sqrt(sum(lows, (one) => one.expanded ** 2)) / Math.max(1, lows.length);
  if (Math.abs(percent) > Math.max(LEAK_Q, doubt)) doubts.push({ kind: "leak", percent });
  if (takes.some(({ warnings }) => warnings.includes("restless"))) doubts.push({ kind: "restless" });
  if (takes.some(({ clockPpm }) => clockPpm === null)) doubts.push({ kind: "unclocked" });
  if (resonances.length < FEW) doubts.push({ kind: "few" });
  return doubts;
}
