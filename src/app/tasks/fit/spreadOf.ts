/** The spread that is looked at, ready to draw: over the instruments, over the mouthpieces, or over all pairs. */
import { isTaper } from "../../../bench/fit/fitDimensions.ts";
import type { FitCell, FitMatrix } from "../../../bench/fit/fitMatrix.ts";
import type { FitSpread, SpreadCause } from "../../../bench/fit/fitSpread.ts";
import type { CausesData } from "../../../charts/plots/bench/causesChart.ts";
import type { SpreadData, SpreadGap, SpreadRow } from "../../../charts/plots/bench/spreadChart.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { causeName, spreadWords } from "../../../words/bench/fitSpread.ts";
import { cellFigures } from "./cellWords.ts";
import type { Pair } from "./matrixGrid.ts";

/** What is held while the rest varies. */
export type Held = "mouthpiece" | "instrument" | "nothing";

export interface ShownSpread {
  readonly spread: FitSpread;
  readonly title: string;
  readonly words: string;
  readonly gaps: SpreadData;
  readonly causes: CausesData;
  /** One sentence a dimension. */
  readonly sensitivities: readonly string[];
}

export function spreadOf(matrix: FitMatrix, chosen: Pair, held: Held, unit: LengthUnit): ShownSpread {
  const { cells } = matrix;
  const chosenCell = cells[chosen.mouthpiece][chosen.instrument];
  const spread =
    held === "mouthpiece"
      ? matrix.byMouthpiece[chosen.mouthpiece]
      : held === "instrument"
        ? matrix.byInstrument[chosen.instrument]
        : matrix.overall;
  const title =
    held === "mouthpiece"
      ? `${spread.of} over the instruments`
      : held === "instrument"
        ? `${spread.of} over the mouthpieces`
        : "All pairs";
  const row = (name: string, some: readonly FitCell[], other: "mouthpiece" | "instrument"): SpreadRow => ({
    name,
    gaps: some.flatMap((cell) => gapOf(cell, cell[other], cell === chosenCell)),
    without: some.map((cell) => cellFigures(cell, unit).remark)[0] ?? "",
  });
  const rows =
    held === "mouthpiece"
      ? cells[chosen.mouthpiece].map((cell) => row(cell.instrument, [cell], "mouthpiece"))
      : held === "instrument"
        ? cells.map((some) => row(some[0].mouthpiece, [some[chosen.instrument]], "instrument"))
        : cells.map((some) => row(some[0].mouthpiece, some, "instrument"));
  const words = spreadWords(spread, unit);
  return {
    spread,
    title,
    words,
    gaps: {
      of: title,
      rows,
      meanMm: spread.meanMm,
      standardDeviationMm: spread.standardDeviationMm,
      preferredMm: matrix.preferredMm,
      words,
    },
    causes: {
      of: title,
      causes: spread.causes.map(({ cause, varianceShare }) => ({
        name: causeName(cause),
        varianceShare,
        isTogether: cause === "together",
      })),
      words,
    },
    sensitivities: spread.causes.flatMap((cause) => sensitivityWords(cause, unit)),
  };
}

function gapOf({ fit }: FitCell, name: string, isChosen: boolean): SpreadGap[] {
  if (fit?.gapMm === undefined) return [];
  return [
    {
      name,
      gapMm: fit.gapMm,
      standardUncertaintyMm: fit.standardUncertaintyMm,
      isChosen,
      isOnLeadpipe: fit.outcome === "on-leadpipe",
    },
  ];
}

/** A step that a hand feels: a hundredth of a mm, a thousandth of an inch, a hundredth of a usual taper. */
const steps = { mm: 0.01, in: 0.0254, taper: 0.0005 } as const;

/** `0.01 mm more receiver mouth diameter makes 0.20 mm less gap; here it varies by 0.030 mm (standard deviation).` */
export function sensitivityWords(
  { cause, sensitivity, standardDeviation }: SpreadCause,
  unit: LengthUnit,
): string[] {
  if (cause === "together" || sensitivity === undefined || standardDeviation === undefined) return [];
  const taper = isTaper(cause);
  const step = taper ? steps.taper : steps[unit];
  const changeMm = sensitivity * step;
  const asRead = (value: number, digits: number) =>
    taper ? `${Number(value.toPrecision(2))}` : formatLength(value, unit, digits);
  const effect =
    changeMm === 0
      ? "does not move the gap: the other taper decides"
      : `makes ${formatLength(Math.abs(changeMm), unit, unit === "mm" ? 2 : 3)} ${changeMm > 0 ? "more" : "less"} gap`;
  const varies = `it varies by ${asRead(standardDeviation, unit === "mm" ? 3 : 4)} here (standard deviation)`;
  return [`${asRead(step, unit === "mm" ? 2 : 3)} more ${causeName(cause)} ${effect}; ${varies}.`];
}
