/** The trials of the job, each with its finding in a line: to look at one, or to plan another while the others stay. */

import { css, html, nothing, type TemplateResult } from "lit";
import { customElement, property } from "lit/decorators.js";
import { isFinished, type Trial } from "../../../trial/trial.ts";
import { standingText, triedText } from "../../../words/trial/listed.ts";
import { TOO_LITTLE, trialSentence } from "../../../words/trial/sentence.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { findingOf, knownFinding } from "../../state/bench/trialFindings.ts";
import { finishedTrials } from "../../state/notes/trial.ts";
import { PageElement } from "../../state/page.ts";

@customElement("annulus-trial-list")
export class TrialList extends PageElement {
  /** While a trial is played, what others found is not in sight. */
  @property({ type: Boolean }) isPlaying = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  static override styles = [
    controls,
    sheetStyles,
    css`
      :host {
        display: block;
        container: none;
      }
      h3 {
        font-size: var(--type-16);
        font-weight: 650;
      }
      ol {
        display: grid;
        margin: 0.25rem 0;
        padding: 0;
        list-style: none;
      }
      li {
        border-bottom: 1px solid var(--hairline);
      }
      li button {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        gap: 0.125rem 1.5rem;
        width: 100%;
        height: auto;
        min-height: var(--touch);
        padding: 0.375rem 0.5rem;
        border: 0;
        border-left: 3px solid transparent;
        text-align: left;
        white-space: normal;
      }
      li button[aria-current="true"] {
        border-left-color: var(--ink);
        font-weight: 650;
      }
      small {
        display: block;
        font-size: var(--type-14);
        font-weight: 400;
        color: var(--muted);
      }
      @container sheet (max-width: 599px) {
        li button {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { trials, shown } = this.page.store.parts.document.notes.trial;
    if (trials.length === 0) return nothing;
    return html`
      <nav class="stack" aria-labelledby="trials" data-testid="trials">
        <h3 id="trials">${this.page.job.parts.row === null ? "Trials kept here" : "Trials of this job"}</h3>
        <ol>
          ${trials.map((trial, i) => this.#row(trial, i, trial.id === shown))}
        </ol>
        ${
          shown === null
            ? nothing
            : html`
                <div class="actions">
                  <button type="button" data-testid="plan-anew" @click=${() => this.#show(null)}>${icon("plus")}Plan another trial</button>
                </div>
              `
        }
      </nav>
    `;
  }

  #row(trial: Trial, place: number, isShown: boolean): TemplateResult {
    return html`
      <li>
        <button
          type="button"
          data-testid="trial-row"
          aria-current=${isShown ? "true" : "false"}
          @click=${() => this.#show(trial.id)}
        >
          <span>Trial ${place + 1}: ${triedText(trial)}<small>${standingText(trial, this.page.store.parts.document.notes.listen.takes)}</small></span>
          <span data-testid="trial-finding">${this.#found(trial)}</span>
        </button>
      </li>
    `;
  }

  #found(trial: Trial): string {
    if (!isFinished(trial) || this.isPlaying) return "";
    const finding = knownFinding(trial);
    if (finding === undefined) return "Working out what it found…";
    return finding ? trialSentence(finding, this.page.store.parts.view.unit) : TOO_LITTLE;
  }

  /** One at a time, so that a hand on the page does not wait for them all. */
  protected override updated(): void {
    if (this.isPlaying) return;
    const { trial: notes } = this.page.store.state.document.notes;
    const next = finishedTrials(notes).find((trial) => knownFinding(trial) === undefined);
    clearTimeout(this.#timer);
    if (!next) return;
    this.#timer = setTimeout(() => {
      findingOf(next);
      this.requestUpdate();
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    clearTimeout(this.#timer);
  }

  #show(id: string | null): void {
    const { store } = this.page;
    store.setNotes("trial", { ...store.state.document.notes.trial, shown: id });
  }
}
