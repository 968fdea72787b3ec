/** What the model says of one gap in place of another, in a sentence or two, before anyone cuts. */
import { bothUnits, signed } from "../../charts/numbers.ts";
import type { Thresholds } from "../../setup/setup.ts";
import type { GapSweep } from "../../study/gapSweep.ts";
import type { ChangedMode } from "../../study/modeChanges.ts";
import { PLAYED } from "../../study/verdicts.ts";
import type { LengthUnit } from "../../units/length.ts";

interface Effect {
  readonly n: number;
  readonly cents: number;
  /** Null where one of the gaps has no peak. */
  readonly decibels: number | null;
}

export interface GapEffectQuestion {
  readonly sweep: GapSweep;
  readonly fromMm: number;
  readonly toMm: number;
  readonly thresholds: Thresholds;
  readonly unit: LengthUnit;
}

/** Null where the sweep does not reach one of the gaps. */
export function gapEffect({ sweep, fromMm, toMm, thresholds, unit }: GapEffectQuestion): string | null {
  const [from, to] = [sweptAt(sweep, fromMm), sweptAt(sweep, toMm)];
  if (!from || !to) return null;
  const effects = to.flatMap((one) => {
    const other = from.find(({ n }) => n === one.n);
    if (!other) return [];
    const decibels = one.decibels === null || other.decibels === null ? null : one.decibels - other.decibels;
    return [{ n: one.n, cents: one.cents - other.cents, decibels }];
  });
  if (effects.length === 0) return null;
  const cents = effects.map((effect) => effect.cents);
  const tallest = Math.max(0, ...effects.map(({ decibels }) => Math.abs(decibels ?? 0)));
  const felt = effects.filter(
    (effect) =>
      Math.abs(effect.cents) >= thresholds.cents || Math.abs(effect.decibels ?? 0) >= thresholds.decibels,
  );
  return (
    `${bothUnits(Math.abs(toMm - fromMm), unit)} ${toMm > fromMm ? "more" : "less"} gap shifts resonances ${PLAYED[0]} to ${PLAYED[1]} by ` +
    `${signed(Math.min(...cents), 1)} to ${signed(Math.max(...cents), 1)} cents before retuning and changes peak heights by at most ` +
    `${tallest.toFixed(2)} dB: ${felt.length === 0 ? "too small to feel" : `large enough to feel on ${felt.length} of ${effects.length}`} ` +
    `(felt from ${thresholds.cents} cents or ${thresholds.decibels} dB).`
  );
}

/** The played resonances at a gap, by a straight line between the gaps of the sweep; undefined beyond its ends. */
function sweptAt({ rows }: GapSweep, gapMm: number): readonly Effect[] | undefined {
  const next = rows.findIndex((row) => row.gapMm >= gapMm);
  if (next < 0 || (next === 0 && rows[0].gapMm > gapMm)) return undefined;
  const [below, above] = [rows[Math.max(0, next - 1)], rows[next]];
  const share = above === below ? 0 : (gapMm - below.gapMm) / (above.gapMm - below.gapMm);
  const between = (low: number, high: number) => low + share * (high - low);
  return above.modes.filter(isPlayed).flatMap((mode) => {
    const other = below.modes.find(({ n }) => n === mode.n);
    if (!other) return [];
    const decibels =
      mode.heightDb === null || other.heightDb === null ? null : between(other.heightDb, mode.heightDb);
    return [{ n: mode.n, cents: between(other.shiftCents, mode.shiftCents), decibels }];
  });
}

const isPlayed = ({ n }: ChangedMode): boolean => n >= PLAYED[0] && n <= PLAYED[1];
