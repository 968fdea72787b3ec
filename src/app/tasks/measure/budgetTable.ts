/** What the uncertainty of the gap is made of, a row a component. */

import { html, type TemplateResult } from "lit";
import { styleMap } from "lit/directives/style-map.js";
import type { BudgetRow } from "../../../bench/measure/budget.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { standardUncertaintyText } from "../../../units/uncertainLength.ts";
import { componentName } from "../../../words/bench/budget.ts";
import { percent } from "../../../words/numbers.ts";

export const degreesText = (degrees: number | undefined): string =>
  degrees === undefined ? "–" : Number.isFinite(degrees) ? `${Number(degrees.toFixed(1))}` : "∞";

export const budgetTable = (budget: readonly BudgetRow[], unit: LengthUnit): TemplateResult => html`
  <div class="scroll">
    <table class="budget" data-testid="budget">
      <caption>What the uncertainty is made of</caption>
      <thead>
        <tr>
          <th scope="col">component</th>
          <th scope="col" class="number">standard uncertainty</th>
          <th scope="col" class="number">degrees of freedom</th>
          <th scope="col" class="number">share of variance</th>
        </tr>
      </thead>
      <tbody>
        ${budget.map(
          ({ component, standardUncertainty, degreesOfFreedom, varianceShare }) => html`
            <tr>
              <th scope="row">${componentName(component)}</th>
              <td class="number">${standardUncertainty === undefined ? "unknown" : standardUncertaintyText(standardUncertainty, unit)}</td>
              <td class="number">${degreesText(degreesOfFreedom)}</td>
              <td class="number">
                ${
                  varianceShare === undefined
                    ? "–"
                    : html`<div class="share">
                        <div class="track" aria-hidden="true"><span style=${styleMap({ width: `${100 * varianceShare}%` })}></span></div>
                        <b>${percent(varianceShare)}</b>
                      </div>`
                }
              </td>
            </tr>
          `,
        )}
      </tbody>
    </table>
  </div>
`;
