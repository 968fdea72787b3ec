/** Peak heights against level, a gap and a level at a time, for who must not be kept waiting. */
import type { Done } from "../feel/felt.ts";
import type { Instrument } from "../instrument/instrument.ts";
import { LEVELS_DB, type LevelLoss, levelLoss } from "./levelLoss.ts";

/** @throws as `levelLoss` */
export function* levelSteps(
  instrument: Instrument,
  gapsMm: readonly number[],
  levelsDb: readonly number[] = LEVELS_DB,
): Generator<Done, LevelLoss[], void> {
  const of = gapsMm.length * levelsDb.length;
  let done = 0;
  const losses: LevelLoss[] = [];
  for (const gapMm of gapsMm) {
    const parts: LevelLoss[] = [];
    for (const level of levelsDb) {
      parts.push(...levelLoss(instrument, { gapsMm: [gapMm], levelsDb: [level] }));
      done++;
      yield { done, of };
    }
    const [first] = parts;
    losses.push({
      gapMm,
      modes: first.modes.map((mode, i) => ({
        ...mode,
        levels: parts.flatMap(({ modes }) => modes[i].levels),
      })),
    });
  }
  return losses;
}
