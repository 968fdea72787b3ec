/** The gap as measured: the largest thing on the sheet, then how well it is known, what to do about it, what it is made of. */

import { html, nothing, type TemplateResult } from "lit";
import type { GapMeasurement } from "../../../bench/measure/gap.ts";
import type { LengthUnit } from "../../../units/length.ts";
import {
  lengthSpan,
  plusMinus,
  roundedLength,
  standardUncertaintyText,
} from "../../../units/uncertainLength.ts";
import { adviceWords } from "../../../words/bench/gapAdvice.ts";
import { icon } from "../../shell/look/icon.ts";
import { notice, warning } from "../../shell/look/notice.ts";
import { expandedGapMm, type Measurement, measuredLength } from "../../state/bench/measurement.ts";
import { budgetTable, degreesText } from "./budgetTable.ts";

const otherUnit = (unit: LengthUnit): LengthUnit => (unit === "mm" ? "in" : "mm");

export function gapValue({ measured, unit }: Measurement, compared: string): TemplateResult {
  if (!measured)
    return html`
      <section class="value waiting" aria-label="The gap">
        <p class="lead">The gap appears here with the first reading of each length.</p>
        <ol>
          <li>Measure the receiver's depth, three times or more, and type what the tool shows.</li>
          <li>Seat the mouthpiece, mark the shank, take it out and measure its insertion, as often.</li>
          <li>Give the tool's smallest step, so that the uncertainty is whole.</li>
        </ol>
      </section>
    `;
  const expandedMm = expandedGapMm(measured);
  return html`
    <section class="value known" aria-label="The gap">
      <p class="big" data-testid="measured-gap">
        ${roundedLength(measured.gapMm, expandedMm, unit)}
        <span>${expandedMm === undefined ? "± unknown" : `± ${roundedLength(expandedMm, expandedMm, unit)}`}</span>
      </p>
      <p class="other" data-testid="measured-other">${plusMinus(measured.gapMm, expandedMm, otherUnit(unit))}</p>
      <p class="compared" data-testid="compared">${compared}</p>
    </section>
  `;
}

/** For who hears the page, when an entry is finished. */
export function spokenGap({ measured, unit, refused }: Measurement): string {
  if (!measured) return refused;
  const expandedMm = expandedGapMm(measured);
  return `Gap ${plusMinus(measured.gapMm, expandedMm, unit)}, ${plusMinus(measured.gapMm, expandedMm, otherUnit(unit))}. ${measured.advice.map((one) => adviceWords(one, unit)).join(" ")}`;
}

export interface ResultActions {
  /** Why the setup cannot have this gap; empty while it was not asked for. */
  readonly refusal: string;
  readonly isInSetup: boolean;
  readonly use: () => void;
  readonly save: () => void;
}

export function resultDetails(read: Measurement, actions: ResultActions): TemplateResult {
  const { measured, refused, uncounted, unit } = read;
  return html`
    <section class="details stack" aria-label="How well it is known">
      ${refused ? warning(refused) : nothing}
      ${uncounted > 0 ? warning(`${uncounted === 1 ? "One entry" : `${uncounted} entries`} cannot be read and ${uncounted === 1 ? "does" : "do"} not count: see beside ${uncounted === 1 ? "it" : "them"}.`) : nothing}
      ${
        measured
          ? html`
              ${
                measured.advice.length > 0
                  ? html`<ul class="advice" data-testid="advice">${measured.advice.map((one, i) => html`<li>${measured.isNegative && i === 0 ? warning(adviceWords(one, unit)) : notice(adviceWords(one, unit))}</li>`)}</ul>`
                  : nothing
              }
              ${figures(measured, unit)}
              <div class="actions controls">
                <button type="button" class="use" data-testid="use-gap" @click=${actions.use}>Use this gap</button>
                <button type="button" data-testid="save-measurement" @click=${actions.save}>${icon("save")}Save as CSV</button>
                ${actions.isInSetup ? html`<a href="#explore" data-testid="to-explore">See in Explore what it does</a>` : nothing}
              </div>
              <div role="alert">${actions.refusal ? warning(actions.refusal, { testId: "use-refused" }) : nothing}</div>
              ${budgetTable(measured.budget, unit)}
            `
          : nothing
      }
    </section>
  `;
}

function figures(measured: GapMeasurement, unit: LengthUnit): TemplateResult {
  const { standardUncertaintyMm: u, degreesOfFreedom, coverageFactor, intervalMm, confidence } = measured;
  const expandedMm = expandedGapMm(measured);
  const other = otherUnit(unit);
  const [depth, insertion] = (["depth", "insertion"] as const).map((length) =>
    measuredLength(measured, length),
  );
  return html`
    <dl data-testid="figures">
      <dt>depth less insertion</dt>
      <dd>${plusMinus(depth.lengthMm, depth.expandedMm, unit)} less ${plusMinus(insertion.lengthMm, insertion.expandedMm, unit)}, zero taken off</dd>
      ${
        u === undefined || coverageFactor === undefined || !intervalMm || expandedMm === undefined
          ? html`<dt>uncertainty</dt><dd>unknown</dd>`
          : html`
              <dt>${100 * confidence} % interval</dt>
              <dd>${lengthSpan(intervalMm, expandedMm, unit)} · ${lengthSpan(intervalMm, expandedMm, other)}</dd>
              <dt>standard uncertainty</dt>
              <dd>${standardUncertaintyText(u, unit)} · ${standardUncertaintyText(u, other)}</dd>
              <dt>coverage factor</dt>
              <dd>${coverageFactor.toFixed(2)}, from ${degreesText(degreesOfFreedom)} effective degrees of freedom</dd>
            `
      }
    </dl>
  `;
}
