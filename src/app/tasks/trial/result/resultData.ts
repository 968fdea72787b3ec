/** What a trial came to, as the drawings and the table of tests show it. */
import type { AgreementData } from "../../../../charts/plots/trial/agreementChart.ts";
import { itemLabel, type RatingsData } from "../../../../charts/plots/trial/ratingsChart.ts";
import type { ScaleAnalysis } from "../../../../trial/analysis.ts";
import type { PermutationTest } from "../../../../trial/permutation.ts";
import { ERROR_RATE } from "../../../../trial/power.ts";
import { isOneGapBest } from "../../../../trial/preference.ts";
import type { Trial } from "../../../../trial/trial.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { AGREEMENT } from "../../../../words/trial/agreement.ts";
import { SCALE_WORDS } from "../scaleWords.ts";

/** Items as they are read from left to right: gaps from narrow to wide, names as planned. */
const inOrder = ({ items }: Trial): number[] =>
  items.map((_, i) => i).sort((a, b) => (items[a].gapMm ?? a) - (items[b].gapMm ?? b));

export function ratingsData(trial: Trial, analysis: ScaleAnalysis, unit: LengthUnit): RatingsData {
  const { scale, blocks, ranking, curve, correctedP, test } = analysis;
  return {
    scale: SCALE_WORDS[scale],
    items: inOrder(trial).map((item) => {
      const { mean, interval } = ranking.find((one) => one.item === item)!;
      return {
        label: itemLabel(trial.items[item], unit),
        gapMm: trial.items[item].gapMm,
        ratings: blocks.map((block) => block[item]),
        mean,
        interval,
      };
    }),
    curve: curve && correctedP < ERROR_RATE && isOneGapBest(curve) ? curve : null,
    words: `${SCALE_WORDS[scale].name} ${correctedP < ERROR_RATE ? "was" : "was not"} told apart, ${pText(test.p)}.`,
  };
}

export function agreementData(trial: Trial, analysis: ScaleAnalysis, unit: LengthUnit): AgreementData {
  const { scale, blocks, repeatability } = analysis;
  return {
    scale: SCALE_WORDS[scale],
    items: inOrder(trial).map((item) => {
      const { name, gapMm } = trial.items[item];
      return {
        label: gapMm === null ? name : formatLength(gapMm, unit),
        ratings: blocks.map((block) => block[item]),
      };
    }),
    words: AGREEMENT[repeatability.agreement],
  };
}

export const pText = (p: number): string => (p < 0.001 ? "p < 0.001" : `p = ${p.toFixed(p < 0.1 ? 3 : 2)}`);

/** How p was come by. */
export function testWords({ isExact, orders, standardError }: PermutationTest): string {
  const count = orders.toLocaleString("en").replaceAll(",", " ");
  return isExact
    ? `exact, all ${count} orders counted`
    : `${count} orders drawn, p to ${errorText(standardError)}`;
}

/** None in all the orders drawn is no error of 0. */
const errorText = (standardError: number): string =>
  standardError < 0.0001 ? "less than 0.0001" : `±${standardError.toFixed(standardError < 0.001 ? 4 : 3)}`;
