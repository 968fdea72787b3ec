/** What an opened trial came to: the plain sentence first, the model's word beside it, then drawings, tests and every turn. */

import { html, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { itemLabel, ratingsFigure } from "../../../../charts/plots/trial/ratingsChart.ts";
import { instrumentOf } from "../../../../setup/instrumentOf.ts";
import { isTurnDone, type MeasuredOutcome } from "../../../../study/listened/measuredTrial.ts";
import type { TrialAnalysis } from "../../../../trial/analysis.ts";
import type { TrialFinding } from "../../../../trial/finding.ts";
import { isMisfit } from "../../../../trial/preference.ts";
import {
  FEWEST_REPEATS,
  ratingBlocks,
  repeatsOf,
  SCALES,
  type Scale,
  type Trial,
} from "../../../../trial/trial.ts";
import { keptWords } from "../../../../words/listen/measuredWords.ts";
import { percent } from "../../../../words/numbers.ts";
import { AGREEMENT } from "../../../../words/trial/agreement.ts";
import { PLAYED_ALONE } from "../../../../words/trial/envelopes.ts";
import { turnsDoneText } from "../../../../words/trial/listed.ts";
import { measuredOutcomeWords } from "../../../../words/trial/measuredTrial.ts";
import { preferenceWithin, TOO_LITTLE, trialSentence } from "../../../../words/trial/sentence.ts";
import { saveCsv } from "../../../chart/chartFile.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { segments } from "../../../shell/look/segments.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { gapEffect } from "../../../state/bench/gapEffect.ts";
import { writtenHz } from "../../../state/bench/listened.ts";
import { measuredAtTurns } from "../../../state/bench/measuredAtTurns.ts";
import { findingOf } from "../../../state/bench/trialFindings.ts";
import { setupFileName } from "../../../state/keeping/setupFileName.ts";
import { PageElement } from "../../../state/page.ts";
import "../../../chart/chartElement.ts";
import { agreementFigure } from "../../../../charts/plots/trial/agreementChart.ts";
import "./keptRecordings.ts";
import { notice, warning } from "../../../shell/look/notice.ts";
import { SCALE_WORDS } from "../scaleWords.ts";
import { analysisWork } from "../trialWork.ts";
import { agreementData, pText, ratingsData, testWords } from "./resultData.ts";
import { resultStyles } from "./resultStyles.ts";
import { testsTable } from "./testsTable.ts";
import { trialTable } from "./trialTable.ts";

@customElement("annulus-trial-result")
export class TrialResult extends PageElement {
  readonly #work = analysisWork();
  @property({ attribute: false }) trial!: Trial;
  @state() private scale: Scale = "preference";
  /** The drawings compare by identity. */
  #drawn: { readonly of: readonly unknown[]; readonly ratings: object; readonly agreement: object } | null =
    null;

  static override styles = [controls, sheetStyles, resultStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.#ask();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#work.close();
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has("trial")) this.#ask();
  }

  #ask(): void {
    if (this.#isRated) this.#work.ask({ trial: this.trial });
  }

  /** Where takes decide, ratings may have been left out. */
  get #isRated(): boolean {
    return !this.trial.decidedBy || ratingBlocks(this.trial, "preference").length >= FEWEST_REPEATS;
  }

  override render() {
    const { trial } = this;
    const { value, refused, progress } = this.#work.value;
    const finding = findingOf(trial);
    return html`
      ${this.#head(finding, refused, value)}
      ${
        value
          ? this.#drawings(value)
          : progress === null || !this.#isRated
            ? nothing
            : html`<p class="working" role="status">The tests are worked out <progress .value=${progress} aria-label="Tests done"></progress></p>`
      }
      <section class="stack">
        <h3>Every turn</h3>
        <div class="actions controls">
          <button type="button" data-testid="save-trial" @click=${this.#save}>${icon("save")}Save as CSV</button>
        </div>
        ${this.#turns()}
        <annulus-kept-recordings .trial=${trial}></annulus-kept-recordings>
      </section>
    `;
  }

  #head(finding: TrialFinding | null, refused: string | null, analysis: TrialAnalysis | null) {
    const { unit } = this.page.store.parts.view;
    const { trial } = this;
    const { notes, setup } = this.page.store.parts.document;
    const measured = measuredAtTurns(trial, notes, instrumentOf(setup));
    const preference = analysis?.scales.find(({ scale }) => scale === "preference");
    const other = unit === "mm" ? "in" : "mm";
    return html`
      <section class="finding" aria-label="The finding">
        <div class="stack">
          ${measured?.decidedBy ? this.#measured(measured) : nothing}
          ${
            measured?.decidedBy && !finding
              ? nothing
              : html`<p class=${measured?.decidedBy ? "" : "sentence"} data-testid="sentence">${measured?.decidedBy ? "As rated besides: " : ""}${finding ? trialSentence(finding, unit) : (refused ?? TOO_LITTLE)}</p>`
          }
          ${
            finding?.preferredGapMm == null || !finding.intervalMm
              ? nothing
              : html`<p class="both" data-testid="preferred">${preferenceWithin(finding.preferredGapMm, finding.intervalMm, other)}</p>`
          }
          ${measured && !measured.decidedBy ? this.#measured(measured) : nothing}
          ${trial.alone ? html`<p class="muted" data-testid="played-alone">${PLAYED_ALONE}</p>` : nothing}
          ${trial.opened === "early" ? warning(this.#earlyWords(), { testId: "early" }) : nothing}
          ${
            finding
              ? html`<p class="muted">
                  ${finding.repeats} of ${repeatsOf(trial)} repeats count.
                  ${pText(finding.p)} on preference${preference ? ` (${testWords(preference.test)})` : ""}; counted only below 0.05, so that a player who
                  guesses is believed in at most 5 % of trials.
                </p>`
              : nothing
          }
          ${analysis ? this.#notes(analysis, finding) : nothing}
        </div>
        <aside class="stack" aria-label="What the model says">
          <h3>The model on these gaps</h3>
          <p data-testid="model-says">${this.#modelSays()}</p>
        </aside>
      </section>
    `;
  }

  /** What was measured at its turns; where that was to decide, it is told before anything else. */
  #measured(outcome: MeasuredOutcome) {
    const { document, view } = this.page.store.parts;
    const sentences = measuredOutcomeWords(outcome, view.unit, instrumentOf(document.setup));
    return html`${sentences.map((one) => html`<p class=${outcome.decidedBy ? "sentence" : ""} data-testid="measured-trial">${one}</p>`)}`;
  }

  /** What goes with the sentence: that undecided is not alike, what could have been found, and what the curve does not show. */
  #notes({ power, scales }: TrialAnalysis, finding: TrialFinding | null) {
    const preference = scales.find(({ scale }) => scale === "preference")!;
    const { curve } = preference;
    const scatter = Math.max(1, Math.round(preference.repeatability.standardDeviation));
    return html`
      <p class="muted" data-testid="could">
        ${finding?.isDecided ? nothing : "Not told apart is not alike: more repeats may still find a difference."}
        ${AGREEMENT[preference.repeatability.agreement]} Ratings of one and the same scatter by
        ${scatter} ${scatter === 1 ? "point" : "points"}, which is the scatter to plan this player's next trial with; at it, a difference of ${this.trial.difference} points is found in ${percent(power.chance)} of trials like this one.
      </p>
      ${finding?.isDecided && curve && isMisfit(curve) ? notice(`The ratings do not follow a simple curve (${pText(curve.misfitP!)}): the gaps are compared one by one instead.`, { testId: "misfit" }) : nothing}
    `;
  }

  #modelSays(): string {
    const gapsMm = this.trial.items.flatMap(({ gapMm }) => gapMm ?? []);
    if (gapsMm.length < this.trial.items.length)
      return "It knows nothing of these by name: open each as a setup in Compare, and it says how they differ.";
    const { document, view } = this.page.store.parts;
    const { value } = this.page.model.parts.sweep;
    const effect =
      value &&
      gapEffect({
        sweep: value,
        fromMm: Math.min(...gapsMm),
        toMm: Math.max(...gapsMm),
        thresholds: document.setup.thresholds,
        unit: view.unit,
      });
    if (effect) return `Between the narrowest and the widest: ${effect}`;
    return value
      ? "The setup that is open does not reach all of these gaps."
      : "It is still computing what the gap does.";
  }

  #drawings(analysis: TrialAnalysis) {
    const { unit } = this.page.store.parts.view;
    const of = [analysis, unit, this.scale];
    const shown = analysis.scales.find(({ scale }) => scale === this.scale)!;
    if (!this.#drawn || of.some((one, i) => one !== this.#drawn!.of[i]))
      this.#drawn = {
        of,
        ratings: ratingsData(this.trial, shown, unit),
        agreement: agreementData(this.trial, shown, unit),
      };
    const choices = SCALES.toReversed().map((value) => ({ value, text: SCALE_WORDS[value].name }));
    return html`
      <section class="stack">
        <div class="controls">${segments("Scale drawn", choices, this.scale, (scale) => {
          this.scale = scale;
        })}</div>
        <div class="columns">
          <annulus-chart .figure=${ratingsFigure} .data=${this.#drawn.ratings}></annulus-chart>
          <annulus-chart .figure=${agreementFigure} .data=${this.#drawn.agreement}></annulus-chart>
        </div>
      </section>
      <section class="stack"><h3>The tests</h3>${testsTable(analysis)}</section>
    `;
  }

  /** Why a trial that was not opened once, and after all turns, is worth less. */
  #earlyWords(): string {
    const { trial } = this;
    const { takes } = this.page.store.parts.document.notes.listen;
    const isWhole = trial.turns.every((turn) => isTurnDone(trial, turn, takes));
    return isWhole
      ? "Opened again: the codes had been seen before, and what was found can have been changed since. It is no blind trial any more."
      : `Opened early, with ${turnsDoneText(trial, takes)}: who knows how a trial stands can stop it where it suits.`;
  }

  #turns() {
    const { unit } = this.page.store.parts.view;
    const { id, items, turns } = this.trial;
    const { takes } = this.page.store.parts.document.notes.listen;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const own = takes.filter(({ blind }) => blind?.trial === id);
    const heard = (code: string) =>
      own
        .filter(({ blind }) => blind!.code === code)
        .map(({ measured, partial }) => keptWords(measured, writtenHz(instrument, partial)))
        .join("; ");
    return html`
      <div class="scroll" tabindex="0" role="region" aria-label="Every turn">
        <table class="turns" data-testid="turns">
          <thead>
            <tr><th class="number">turn</th><th>code</th><th>was</th>${SCALES.map((scale) => html`<th class="number">${SCALE_WORDS[scale].name.toLowerCase()}</th>`)}${own.length > 0 ? html`<th>measured</th>` : nothing}<th>remark</th></tr>
          </thead>
          <tbody>
            ${turns.map(
              ({ code, item, ratings, remark }, i) => html`
                <tr>
                  <td class="number">${i + 1}</td>
                  <th scope="row">${code}</th>
                  <td>${itemLabel(items[item], unit)}</td>
                  ${SCALES.map((scale) => html`<td class="number">${ratings[scale] ?? "–"}</td>`)}
                  ${own.length > 0 ? html`<td>${heard(code) || "–"}</td>` : nothing}
                  <td>${remark}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
    `;
  }

  readonly #save = (): void => {
    const name = setupFileName(this.page.store.parts.document.setup).replace(/\.setup\.json$/, "");
    saveCsv(trialTable(this.trial), `${name}-blind-trial`);
  };
}
