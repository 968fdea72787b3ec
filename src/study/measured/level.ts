/**
 * How high a measurement stands over the model at all frequencies alike. A gap, a temperature or a bore moves peaks about; what
 * lifts peaks and troughs by one and the same factor is a unit, and where the factor is a round one it tells which was meant.
 * That is only ever offered.
 */
import { median, quantileSorted } from "d3";
import type { Reading } from "./measuredReading.ts";

export interface Level {
  /** Median of measured over modelled, dB; what is left over where the unit is unknown and fitted. */
  readonly offsetDb: number;
  /** The reading that was probably meant; null where nothing suggests another. */
  readonly guess: LevelGuess | null;
}

export interface LevelGuess {
  /** How to read the numbers instead. */
  readonly read: Pick<Reading, "scale"> & Partial<Pick<Reading, "unit">>;
  /** The round factor by which they stand too high; null where the unit was unknown. */
  readonly factor: number | null;
}

/** What may stand in a head: Pa·s/m³ and its multiples, and the CGS acoustic ohm. */
export const NAMED_UNITS: readonly number[] = [1, 1e3, 1e5, 1e6, 1e9];

interface Candidate {
  readonly guess: LevelGuess;
  /** By which factor the numbers stand too high if it is so. */
  readonly factor: number;
  /** How near the offset has to be, dB: the smaller the factor, the sooner something else makes it. Own choice. */
  readonly withinDb: number;
}

const UNIT_DB = 1;
/** Factors that no unit has: powers of ten, 2π where a frequency stood for an angular one, peaks taken for root mean squares. */
const FACTORS: readonly (readonly [factor: number, withinDb: number])[] = [
  ...Array.from({ length: 12 }, (_, i) => [10 ** (i + 1), UNIT_DB] as const),
  [2 * Math.PI, 0.8],
  [2, 0.5],
  [Math.SQRT2, 0.3],
];

/** Less than this between the lower half of the range and the upper is the same throughout; beyond this spread nothing is. Own choice. */
const SAME_DB = 1.5;
const SPREAD_DB = 8;

const DB = 20 / Math.LN10;

/**
 * @param levels ln of measured over modelled, frequency by frequency
 * @param reading as the measurement was read: `fitted` the Pa·s/m³ in one unit of it, `characteristic` ρc/S at the rim
 */
export function levelOf(
  levels: Float64Array,
  {
    scale,
    unit = 1,
    fitted,
    characteristic,
  }: Pick<Reading, "scale"> & {
    readonly unit?: number;
    readonly fitted: number;
    readonly characteristic: number;
  },
): Level {
  const offset = median(levels) ?? 0;
  const offsetDb = DB * offset;
  if (!isConstant(levels)) return { offsetDb, guess: null };
  const now = { absolute: unit, characteristic, relative: fitted }[scale];
  const candidates: Candidate[] = [
    ...NAMED_UNITS.map((other) => ({ read: { scale: "absolute", unit: other } as const, size: other })),
    { read: { scale: "characteristic" } as const, size: characteristic },
  ].map(({ read, size }) => ({
    guess: { read, factor: scale === "relative" ? null : now / size },
    factor: now / size,
    withinDb: UNIT_DB,
  }));
  // a round factor of what is known already: nothing but another multiple of the same
  const factors: Candidate[] = FACTORS.flatMap(([size, withinDb]) =>
    [size, 1 / size].map((factor) => ({
      guess: {
        read:
          scale === "absolute"
            ? ({ scale: "absolute", unit: unit / factor } as const)
            : ({ scale: "relative" } as const),
        factor,
      },
      factor,
      withinDb,
    })),
  );
  const off = ({ factor }: Candidate) => Math.abs(offsetDb - DB * Math.log(factor));
  const nearest = (all: readonly Candidate[]) =>
    all.filter((one) => off(one) <= one.withinDb).sort((a, b) => off(a) - off(b))[0]?.guess;
  // as it is read, within what a unit may be off by
  if (scale !== "relative" && Math.abs(offsetDb) <= UNIT_DB) return { offsetDb, guess: null };
  const guess = nearest(candidates) ?? (scale === "relative" ? undefined : nearest(factors));
  return { offsetDb, guess: guess ?? null };
}

function isConstant(levels: Float64Array): boolean {
  const half = levels.length >> 1;
  const [lower, upper] = [median(levels.subarray(0, half)), median(levels.subarray(half))];
  if (lower === undefined || upper === undefined) return false;
  const sorted = Array.from(Float64Array.from(levels).sort());
  const spread = quantileSorted(sorted, 0.75)! - quantileSorted(sorted, 0.25)!;
  return DB * Math.abs(upper - lower) < SAME_DB && DB * spread < SPREAD_DB;
}
