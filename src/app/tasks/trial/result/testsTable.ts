/** The tests, a row a scale: preference first, which decides. */
import { html, type TemplateResult } from "lit";
import type { ScaleAnalysis, TrialAnalysis } from "../../../../trial/analysis.ts";
import { SCALES } from "../../../../trial/trial.ts";
import { signed } from "../../../../words/numbers.ts";
import { SCALE_WORDS } from "../scaleWords.ts";
import { pText, testWords } from "./resultData.ts";

export function testsTable({ scales }: TrialAnalysis): TemplateResult {
  const rows = SCALES.toReversed().map((scale) => scales.find((one) => one.scale === scale)!);
  return html`
    <div class="scroll" tabindex="0" role="region" aria-label="The tests">
      <table class="tests" data-testid="tests">
        <thead>
          <tr>
            <th>scale</th>
            <th>permutation test</th>
            <th>as one of three, by Holm</th>
            <th>Friedman</th>
            <th>Kendall's W</th>
            <th>agreement (95 %)</th>
            <th>two ratings of one differ by less than</th>
          </tr>
        </thead>
        <tbody>${rows.map(row)}</tbody>
      </table>
    </div>
    <p class="muted small">
      Permutation test: how often ratings put into any order within each repeat would differ as much between the items. Friedman's
      is the same question asked of ranks, by an approximation. Agreement: intraclass correlation ICC(3,1), 1 where every
      repeat says the same. The last column holds in 95 % of cases, in points of 100.
    </p>
  `;
}

function row({ scale, test, correctedP, friedman, repeatability }: ScaleAnalysis): TemplateResult {
  const { correlation, interval, limit } = repeatability;
  return html`
    <tr>
      <th scope="row">${SCALE_WORDS[scale].name}</th>
      <td>${pText(test.p)}<small>${testWords(test)}</small></td>
      <td>${scale === "preference" ? "decides alone" : pText(correctedP)}</td>
      <td>${pText(friedman.p)}<small>χ² = ${friedman.chiSquare.toFixed(2)}, ${friedman.degreesOfFreedom} degrees of freedom</small></td>
      <td>${friedman.concordance.toFixed(2)}</td>
      <td>${
        correlation === null || !interval
          ? "–"
          : html`${two(correlation)}<small>${two(interval[0])} to ${two(interval[1])}</small>`
      }</td>
      <td>${Math.round(limit)}</td>
    </tr>
  `;
}

const two = (value: number): string => signed(value, 2).replace("+", "");
