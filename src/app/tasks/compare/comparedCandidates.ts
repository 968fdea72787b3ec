/** The worker's answers beside the candidates they are of; what charts and tables draw from. */
import type { ComparedVariant } from "../../../../workers/instrument/compare.ts";
import type { Table } from "../../../charts/kit/drawing.ts";
import type { CompareChartData } from "../../../charts/plots/compare/compareChart.ts";
import type { CompareCurvesData } from "../../../charts/plots/compare/compareCurves.ts";
import type { Standing } from "../../../charts/plots/compare/compareSeries.ts";
import type { SensitivityData } from "../../../charts/plots/compare/sensitivityChart.ts";
import type { Thresholds } from "../../../setup/setup.ts";
import type { Goal } from "../../../study/compare/goal.ts";
import { EXTENT_MM } from "./compareAsked.ts";
import { QUANTITIES, type ShownQuantity } from "./quantities.ts";

/** Number of the lowest resonance that notes are played on. */
const FIRST_PLAYED = 2;

/** One candidate as it was compared. */
export interface Shown {
  readonly number: number;
  readonly name: string;
  readonly answer: ComparedVariant;
}

/** What `quantity` is of this candidate, by resonance or note. */
export const valuesOf = ({ answer }: Shown, { key }: ShownQuantity) =>
  Object.entries(answer.quantities).flatMap(([name, value]) => {
    const match = /^(.*?)(\d+)$/.exec(name);
    return match?.[1] === key ? [{ n: Number(match[2]), value }] : [];
  });

export const curvesData = (
  shown: readonly Shown[],
  standing: Standing,
  around: number | null,
): CompareCurvesData => ({
  ...standing,
  around,
  variants: shown.map(({ number, name, answer: { curve, modes, retuned } }) => ({
    number,
    name,
    ...curve,
    modes: retuned?.modes ?? modes,
  })),
});

export const quantityData = (
  shown: readonly Shown[],
  standing: Standing,
  quantity: ShownQuantity,
  thresholds: Thresholds,
): CompareChartData => ({
  ...standing,
  title: quantity.title,
  unit: quantity.unit,
  digits: quantity.digits,
  feltFrom: quantity.feltFrom(thresholds),
  variants: shown.map((one) => ({
    number: one.number,
    name: one.name,
    // the first lies far from its place and would flatten all others
    values: valuesOf(one, quantity).filter(({ n }) => n >= FIRST_PLAYED),
  })),
});

/** Of the leadpipe of one candidate; null where there is none. */
export function sensitivityData(
  { number, name, answer: { sensitivity } }: Shown,
  quantity: SensitivityData["quantity"],
  errorMm: number,
  highlight: number,
  { cents, decibels }: Thresholds,
): SensitivityData | null {
  if (!sensitivity) return null;
  const leadpipe = sensitivity.places.flatMap(({ part, positionMm }, i) =>
    part === "leadpipe" ? [{ positionMm, i }] : [],
  );
  if (leadpipe.length < 2) return null;
  return {
    name: `${number} ${name}`,
    errorMm,
    extentMm: EXTENT_MM,
    placesMm: leadpipe.map(({ positionMm }) => positionMm),
    quantity,
    highlight,
    feltFrom: quantity === "pitch" ? cents : decibels,
    modes: sensitivity.modes.flatMap(({ n, centsPerMm, decibelsPerMm }) => {
      const perMm = quantity === "pitch" ? centsPerMm : decibelsPerMm;
      return n >= FIRST_PLAYED && perMm ? [{ n, change: leadpipe.map(({ i }) => perMm[i] * errorMm) }] : [];
    }),
  };
}

/** The goal's value; null where a quantity is missing or it could not be brought to pitch like the others. */
export const scoreOf = ({ answer }: Shown, goal: Goal): number | null =>
  answer.refusal === null ? goal.score(answer.quantities) : null;

/** Every figure there is, a row for each candidate and resonance. */
export function allFigures(shown: readonly Shown[], goal: Goal | null): Table {
  const names = QUANTITIES.map(
    ({ key, title, unit, of }) => `${key}: ${title} (${unit})${of === "note" ? " of the note" : ""}`,
  );
  return {
    columns: [
      "number",
      "name",
      "gap (mm)",
      "length put in to retune (mm)",
      "steady flow resistance (MPa·s/m³)",
      "goal",
      "resonance",
      ...names,
      "by the gap (cents per mm)",
      "by the gap (dB per mm)",
    ],
    rows: shown.flatMap((one) => {
      const { number, name, answer } = one;
      const { gapMm, modes, sensitivity, quantities } = answer;
      const given = (key: string) => quantities[key] ?? "";
      return modes.map(({ n }) => [
        number,
        name,
        gapMm,
        given("slide"),
        given("resistance"),
        (goal && scoreOf(one, goal)) ?? "",
        n,
        ...QUANTITIES.map(({ key }) => given(`${key}${n}`)),
        sensitivity?.modes[n - 1]?.gapCentsPerMm ?? "",
        sensitivity?.modes[n - 1]?.gapDecibelsPerMm ?? "",
      ]);
    }),
  };
}
