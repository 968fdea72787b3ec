/** The worker's answers about a measurement as charts and a table show them. */

import { html } from "lit";
import type { FittedColumn } from "../../../../../workers/instrument/compare.ts";
import type { DeviationData } from "../../../../charts/plots/compare/deviationChart.ts";
import type { MeasuredChartData } from "../../../../charts/plots/compare/measuredChart.ts";
import type { InstrumentKind } from "../../../../setup/instrumentKind.ts";
import type { Thresholds } from "../../../../setup/setup.ts";
import type { Measured, Overlay } from "../../../../study/measured/measured.ts";
import { noteText } from "../../../../words/instruments.ts";
import { apartWords, peakWords } from "../../../../words/measured/peakWords.ts";
import { signed } from "../../../../words/numbers.ts";

interface Parts {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

const sizes = ({ re, im }: Parts, factor = 1): Float64Array =>
  re.map((x, i) => factor * Math.hypot(x, im[i]));

export const curvesOf = (
  measured: Measured,
  overlay: Overlay,
  fit: FittedColumn | null,
): MeasuredChartData => ({
  frequencies: measured.frequencies,
  measured: sizes(measured, (fit?.after ?? overlay).unit),
  model: sizes(overlay.model),
  fitted: fit && sizes(fit.after.model),
  apartDb: overlay.rmsDb,
  fittedDb: fit?.after.rmsDb ?? null,
  peaks: overlay.peaks.map(({ n, model }) => ({ n, hz: model.frequencyHz })),
});

const RESIDUALS = {
  cents: { title: "Measured less modelled: pitch", unit: "cents", digits: 1, threshold: "cents" },
  heightDb: { title: "Measured less modelled: height", unit: "dB", digits: 2, threshold: "decibels" },
} as const;

export function residualsOf(
  key: keyof typeof RESIDUALS,
  before: Overlay,
  fit: FittedColumn | null,
  thresholds: Thresholds,
): DeviationData {
  const { threshold, ...about } = RESIDUALS[key];
  const values = ({ peaks }: Overlay) => peaks.map((peak) => ({ n: peak.n, value: peak[key] }));
  return {
    ...about,
    feltFrom: thresholds[threshold],
    series: [
      { name: "as the setup has it", kind: "before", values: values(before) },
      ...(fit ? [{ name: "fitted", kind: "after", values: values(fit.after) } as const] : []),
    ],
  };
}

export function peaksTable(overlay: Overlay, fit: FittedColumn | null, instrument: InstrumentKind) {
  const { peaks } = overlay;
  const heads = [
    "model, Hz",
    "measured, Hz",
    "cents",
    "dB",
    "model Q",
    "measured Q",
    ...(fit ? ["fitted: cents", "fitted: dB"] : []),
  ];
  const shown = (value: number | null | undefined, digits: number) =>
    value === null || value === undefined ? "–" : signed(value, digits);
  return html`
    <div class="scroll" tabindex="0" role="region" aria-label="Measured less modelled, note by note">
      <table data-testid="measured-peaks">
        <thead>
          <tr><th scope="col">note</th>${heads.map((head) => html`<th scope="col" class="number">${head}</th>`)}</tr>
        </thead>
        <tbody>
          ${peaks.map(({ n, model, measured, cents, heightDb }) => {
            const after = fit?.after.peaks.find((peak) => peak.n === n);
            return html`
              <tr>
                <th scope="row">${noteText(n, instrument)}</th>
                <td class="number">${model.frequencyHz.toFixed(2)}</td>
                <td class="number">${measured?.frequencyHz.toFixed(2) ?? "–"}</td>
                <td class="number">${shown(cents, 1)}</td>
                <td class="number">${shown(heightDb, 2)}</td>
                <td class="number">${model.Q.toFixed(1)}</td>
                <td class="number">${measured?.Q.toFixed(1) ?? "–"}</td>
                ${
                  fit
                    ? html`<td class="number">${shown(after?.cents, 1)}</td><td class="number">${shown(after?.heightDb, 2)}</td>`
                    : ""
                }
              </tr>
            `;
          })}
        </tbody>
      </table>
    </div>
    <p class="reason">
      Over all frequencies ${apartWords(overlay)} root mean square as the setup has
      it${fit ? `, ${apartWords(fit.after)} fitted` : ""}.
      ${peakWords(overlay, instrument).join(" ")}
    </p>
  `;
}
