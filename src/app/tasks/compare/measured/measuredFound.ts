/** What a fit to a measurement came to: whether it is to be trusted, in words, and each unknown with its interval. */

import { html, nothing, type TemplateResult } from "lit";
import type { FittedColumn, FittedEstimate } from "../../../../../workers/instrument/compare.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { columnFitWords } from "../../../../words/measured/columnFitWords.ts";
import { icon } from "../../../shell/look/icon.ts";

const HEADINGS: Readonly<Record<FittedColumn["judgement"], string>> = {
  sound: "What is left over is the measurement’s noise.",
  doubtful: "Something other than noise is left over.",
  wrong: "The model does not fit this measurement.",
};

const HIDDEN = "What is left over looks like noise, but much could be under it.";

/** Whether it is to be trusted, first; what else is to know, each a sentence. */
export function findings(fit: FittedColumn): TemplateResult {
  const { judgement, scatterDb, startDb, residual, converged, notes } = fit;
  const isSound = judgement === "sound" && converged;
  const isHidden = notes.some(({ kind }) => kind === "noise-hides");
  return html`
    <div class="notice ${isSound ? "" : "wrong"}" data-testid="fit-judgement" data-judgement=${judgement}>
      ${icon(isSound ? "info" : "warning")}
      <div class="stack">
        <p>
          <b>${converged ? (isHidden ? HIDDEN : HEADINGS[judgement]) : "Not converged."}</b> Left over: ${scatterDb.toPrecision(2)} dB, from ${startDb.toPrecision(2)} dB; the measurement’s noise
          ${residual.isStated ? "as stated" : "by its jumps"}: ${residual.noiseDb.toPrecision(2)} dB.
        </p>
        ${columnFitWords(fit).map((sentence) => html`<p>${sentence}</p>`)}
      </div>
    </div>
  `;
}

export const estimatesTable = (
  { estimates, judgement }: FittedColumn,
  unit: LengthUnit,
): TemplateResult => html`
  <div class="scroll" tabindex="0" role="region" aria-label="What was fitted">
    <table data-testid="estimates">
      <thead>
        <tr>
          <th scope="col">unknown</th>
          ${["setup", "fitted", "95 % from", "to"].map((head) => html`<th scope="col" class="number">${head}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${estimates.map((estimate) => {
          const { unknown, value, interval } = estimate;
          const shown = (of: number) => valueText(of, estimate, unit);
          return html`
            <tr>
              <th scope="row">${unknown.name}</th>
              <td class="number">${shown(unknown.start)}</td>
              <td class="number"><b>${shown(value)}</b></td>
              <td class="number">${interval ? shown(interval[0]) : "unknown"}</td>
              <td class="number">${interval ? shown(interval[1]) : "unknown"}</td>
            </tr>
          `;
        })}
      </tbody>
    </table>
  </div>
  ${judgement === "sound" ? nothing : html`<p class="reason">The intervals cover the measurement’s noise alone, and not what is wrong here.</p>`}
`;

/** With as many digits that the uncertainty has two figures. */
function valueText(value: number, { unknown, standard }: FittedEstimate, unit: LengthUnit): string {
  const digits =
    standard === null || !(standard > 0) ? 3 : Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(standard))));
  if (unknown.unit === "mm")
    return formatLength(value, unit, unit === "mm" ? digits : Math.min(6, digits + 1));
  const text = value.toFixed(digits).replace("-", "−");
  return unknown.unit ? `${text} ${unknown.unit}` : text;
}
