/** What a cell of the matrix shows and says: figures and signs for the eye, whole words for who hears the page. */
import { dimensionName } from "../../../bench/fit/fitDimensions.ts";
import type { FitCell } from "../../../bench/fit/fitMatrix.ts";
import { inUnit } from "../../../charts/kit/numbers.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { OUTCOME } from "../../../words/bench/fit.ts";
import { signed } from "../../../words/numbers.ts";

export interface CellFigures {
  /** Gap without its unit; empty where there is none. */
  readonly gap: string;
  /** Standard uncertainty, `± 0.16`; empty where it is unknown. */
  readonly uncertainty: string;
  /** Gap less preferred gap, with its sign and arrow. */
  readonly difference: string;
  /** Whether it cannot be told apart from the preferred gap. */
  readonly isAlike: boolean;
  /** A short mark for what is no plain gap: `on the leadpipe`, `depth unknown`. */
  readonly remark: string;
}

/** Contrast of ink on the deepest shade stays above 4.5 in every theme. */
export const deepestShade = 0.42;

const digitsOf = (unit: LengthUnit): number => (unit === "mm" ? 2 : 3);
const figure = (lengthMm: number, unit: LengthUnit): string =>
  formatLength(lengthMm, unit).replace(` ${unit}`, "");

export function cellFigures(
  { fit, missing, fromPreferredMm, isApartFromPreferred }: FitCell,
  unit: LengthUnit,
): CellFigures {
  const change = fromPreferredMm === undefined ? "" : signed(inUnit(fromPreferredMm, unit), digitsOf(unit));
  const arrow = change.startsWith("+") ? "▲ " : change.startsWith("−") ? "▼ " : "";
  return {
    gap: fit?.gapMm === undefined ? "" : figure(fit.gapMm, unit),
    uncertainty:
      fit?.standardUncertaintyMm === undefined ? "" : `± ${figure(fit.standardUncertaintyMm, unit)}`,
    difference: arrow + change,
    isAlike: isApartFromPreferred === false,
    remark:
      fit === undefined
        ? `measure the ${missing.map((dimension) => dimensionName[dimension]).join(", ")}`
        : fit.outcome === "seated"
          ? ""
          : OUTCOME[fit.outcome],
  };
}

/** The cell in one line of words; its row and column say of what. */
export function cellLabel(cell: FitCell, unit: LengthUnit): string {
  const { fit, fromPreferredMm } = cell;
  const { remark, isAlike } = cellFigures(cell, unit);
  const u = fit?.standardUncertaintyMm;
  return [
    ...(fit?.gapMm === undefined ? [] : [`gap ${formatLength(fit.gapMm, unit)}`]),
    ...(u === undefined ? [] : [`standard uncertainty ${formatLength(u, unit)}`]),
    ...(remark ? [remark] : []),
    ...(fromPreferredMm === undefined ? [] : [preferredWords(fromPreferredMm, unit)]),
    ...(isAlike ? ["same within measurement error"] : []),
  ].join(", ");
}

/** `0.42 mm more than preferred`. */
export function preferredWords(fromPreferredMm: number, unit: LengthUnit): string {
  const apart = formatLength(Math.abs(fromPreferredMm), unit);
  if (Number.parseFloat(apart) === 0) return "as preferred";
  return `${apart} ${fromPreferredMm > 0 ? "more" : "less"} than preferred`;
}

/** Distance from the preferred gap that has the deepest shade: the farthest of the gaps that a taper decides. */
export const shadeReachMm = (cells: readonly (readonly FitCell[])[]): number =>
  cells
    .flat()
    .reduce(
      (most, { fit, fromPreferredMm = 0 }) =>
        fit?.outcome === "seated" ? Math.max(most, Math.abs(fromPreferredMm)) : most,
      0,
    );

/** How much of its accent a cell has, 0 to the deepest shade. */
export const shadeOf = ({ fromPreferredMm }: FitCell, reachMm: number): number =>
  fromPreferredMm === undefined || reachMm === 0
    ? 0
    : deepestShade * Math.min(1, Math.abs(fromPreferredMm) / reachMm);
