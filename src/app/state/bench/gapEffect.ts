/** What the model says of one gap in place of another, in a sentence or two, before anyone cuts. */

import type { Thresholds } from "../../../setup/setup.ts";
import { isNoticeable } from "../../../study/change/judgement.ts";
import { isPlayed } from "../../../study/change/verdicts.ts";
import { betweenGaps } from "../../../study/instrument/betweenGaps.ts";
import type { GapSweep } from "../../../study/instrument/gapSweep.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { TOO_SMALL } from "../../../words/verdicts/findings.ts";
import { pitchSentence } from "../../../words/verdicts/headline.ts";

export interface GapEffectQuestion {
  readonly sweep: GapSweep;
  readonly fromMm: number;
  readonly toMm: number;
  readonly thresholds: Thresholds;
  readonly unit: LengthUnit;
}

/** Null where the sweep does not reach one of the gaps. */
export function gapEffect({ sweep, fromMm, toMm, thresholds, unit }: GapEffectQuestion): string | null {
  const [from, to] = [betweenGaps(sweep, fromMm), betweenGaps(sweep, toMm)];
  if (!from || !to) return null;
  const effects = to.filter(isPlayed).flatMap((one) => {
    const other = from.find(({ n }) => n === one.n);
    if (!other) return [];
    const decibels = one.heightDb === null || other.heightDb === null ? null : one.heightDb - other.heightDb;
    return [{ n: one.n, cents: one.shiftCents - other.shiftCents, decibels }];
  });
  if (effects.length === 0) return null;
  const cents = effects.map((effect) => effect.cents);
  const tallest = Math.max(0, ...effects.map(({ decibels }) => Math.abs(decibels ?? 0)));
  const felt = effects.filter(
    (effect) =>
      isNoticeable(effect.cents, thresholds.cents) || isNoticeable(effect.decibels ?? 0, thresholds.decibels),
  );
  return (
    `${pitchSentence(toMm - fromMm, cents, unit)} before the slide is set again, and changes peak heights by at most ` +
    `${tallest.toFixed(2)} dB: ${felt.length === 0 ? TOO_SMALL : `a player may notice on ${felt.length} of ${effects.length} notes`} ` +
    `(just noticeable: ${thresholds.cents} cents, ${thresholds.decibels} dB).`
  );
}
