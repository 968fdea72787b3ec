/** What the model's own studies make of the rows that a report prints. */
import { coverageFactor } from "../../../src/bench/measure/coverage.ts";
import type { Setup } from "../../../src/setup/setup.ts";
import { isPlayed } from "../../../src/study/change/verdicts.ts";
import { Exploration } from "../../../src/study/instrument/exploration.ts";
import { gapSweep } from "../../../src/study/instrument/gapSweep.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { noteText } from "../../../src/words/instruments.ts";
import { signed } from "../../../src/words/numbers.ts";

/** Each played resonance of a B-flat trumpet, as the report's table has it: a text a row. */
export function tableRows(setup: Setup, referenceGapMm: number, gapMm: number): string[] {
  const { changes } = new Exploration(setup, coverageFactor).explore(gapMm, referenceGapMm, 4, 4);
  const [row] = gapSweep(new Instrument(setup), { gapsMm: [gapMm], referenceGapMm, retune: 4 }).rows;
  return changes.filter(isPlayed).map(({ n, shiftCents, heightDb }) => {
    const left = row.modes.find((mode) => mode.n === n)!.shiftCents;
    return `${noteText(n, "b-flat-trumpet")}${signed(shiftCents, 1)}${signed(left, 1)}${signed(heightDb!, 2)}`;
  });
}
