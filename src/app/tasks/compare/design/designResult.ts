/** What a search came to: each target before and after, where each start ended, and what the goal leaves open. */

import { html, nothing, type TemplateResult } from "lit";
import type { Designed } from "../../../../../workers/instrument/compare.ts";
import { isSameGap, gapMm as ownGapMm, type Setup } from "../../../../setup/setup.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import {
  designWords,
  freedomWords,
  missText,
  startWords,
  worseWords,
} from "../../../../words/design/designWords.ts";
import { gapKindWords } from "../../../../words/gapKinds.ts";
import { bothUnits, signed } from "../../../../words/numbers.ts";
import { warning } from "../../../shell/look/notice.ts";

const figure = (value: number | null): string => (value === null ? "–" : value.toFixed(2).replace("-", "−"));

export function designResult(designed: Designed, setup: Setup, unit: LengthUnit): TemplateResult {
  const gapBeforeMm = ownGapMm(setup);
  const { targets, gapMm, missBefore, missAfter, freedom } = designed;
  const worse = worseWords(designed);
  return html`
    <div class="stack" data-testid="design-result" aria-live="polite">
      ${worse ? warning(worse, { testId: "design-worse" }) : nothing}
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
        ${startWords(designed).join(" ")}
        ${designWords(designed, unit).join(" ")}
      </p>
    </div>
  `;
}
