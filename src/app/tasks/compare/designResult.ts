/** What a search came to: each target before and after, where each start ended, and what the goal leaves open. */

import { html, type TemplateResult } from "lit";
import type { Designed } from "../../../../workers/compare.ts";
import { isSameGap, gapMm as ownGapMm, type Setup } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { designWords, freedomWords } from "../../../words/design/designWords.ts";
import { gapKindWords } from "../../../words/gapKinds.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";

const figure = (value: number | null): string => (value === null ? "–" : value.toFixed(2).replace("-", "−"));

/** Three figures, as far as anybody could care. */
export const missText = (miss: number): string =>
  miss < 0.001 ? "under 0.001" : `${Number(miss.toPrecision(3))}`;

export function designResult(designed: Designed, setup: Setup, unit: LengthUnit): TemplateResult {
  const gapBeforeMm = ownGapMm(setup);
  const { targets, gapMm, missBefore, missAfter, starts, freedom } = designed;
  return html`
    <div class="stack" data-testid="design-result" aria-live="polite">
      <p>Left of the misses: ${missText(missBefore)} before, <b>${missText(missAfter)}</b> after (weighted r.m.s., cents and dB).</p>
      <p>${
        isSameGap(gapMm, gapBeforeMm)
          ? html`Gap stays at ${bothUnits(gapMm, unit)}, ${gapKindWords(setup, gapMm)}.`
          : html`Gap ${bothUnits(gapBeforeMm, unit)} before, ${gapKindWords(setup, gapBeforeMm)}; designed: <b>${bothUnits(gapMm, unit)}</b>.`
      }</p>
      <div class="scroll" tabindex="0" role="region" aria-label="Targets before and after">
        <table>
          <thead>
            <tr><th scope="col">target</th>${["wanted", "before", "after", "off by"].map((head) => html`<th scope="col" class="number">${head}</th>`)}</tr>
          </thead>
          <tbody>
            ${targets.map(
              ({ quantity, n, target, before, after, missedBy }) => html`
                <tr>
                  <th scope="row">${quantity}${n}</th>
                  <td class="number">${figure(target)}</td>
                  <td class="number">${figure(before)}</td>
                  <td class="number">${figure(after)}</td>
                  <td class="number">${missedBy === null ? "–" : signed(missedBy, 2)}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
      <p class="reason">${freedomWords(freedom)}</p>
      <p class="reason">
        ${starts.map(({ miss, steps }, i) => `Start ${i + 1} came to ${missText(miss)} in ${steps} ${steps === 1 ? "step" : "steps"}.`).join(" ")}
        ${designWords(designed, unit).join(" ")}
      </p>
    </div>
  `;
}
