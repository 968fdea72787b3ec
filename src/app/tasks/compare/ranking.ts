/** What the maker wants, and which candidate comes nearest to it. */

import { css, html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import {
  MODE_QUANTITIES,
  NOTE_QUANTITIES,
  WHOLE_QUANTITIES,
} from "../../../study/compare/compareQuantities.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { compareForm, GOAL } from "../../state/notes/compare.ts";
import { PageElement } from "../../state/page.ts";
import type { GoalReading } from "./compareAsked.ts";
import { type Shown, scoreOf } from "./comparedCandidates.ts";

const EXAMPLES = [
  "2:1, 3:1, 4:1, 5:2, 6:1",
  "abs(cents2) + 2*abs(cents5) - height4/10",
  "abs(shift6) + abs(slide)/10",
];

@customElement("annulus-ranking")
export class Ranking extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  @property({ attribute: false }) shown: readonly Shown[] = [];
  /** The goal as it is read. */
  @property({ attribute: false }) reading!: GoalReading;

  static override styles = [
    controls,
    sheetStyles,
    css`
      ol {
        margin: 0;
        padding: 0;
        list-style: none;
        max-width: 46rem;
      }
      li {
        display: grid;
        grid-template-columns: 2rem minmax(0, 1fr) auto;
        gap: 0.75rem;
        padding: 0.35rem 0;
        border-bottom: 1px solid var(--hairline);
      }
      li:first-child {
        font-weight: 650;
      }
      .score {
        text-align: right;
      }
      annulus-entry {
        max-width: 46rem;
      }
      .examples {
        align-items: center;
        font-size: var(--type-14);
      }
      dl {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: 0.15rem 1rem;
        margin: 0.5rem 0;
        font-size: var(--type-14);
      }
      dd {
        margin: 0;
      }
      summary {
        min-height: var(--touch);
        align-content: center;
        cursor: pointer;
        font-size: var(--type-14);
      }
    `,
  ];

  override render() {
    return html`
      <div class="stack">
        ${this.#form.entry(GOAL, ["goal"], this.reading.problem)}
        <div class="actions examples controls">
          <span class="muted">Such as</span>
          ${EXAMPLES.map((example) => html`<button type="button" @click=${() => this.#form.write({ goal: example })}>${example}</button>`)}
        </div>
        <div aria-live="polite" data-testid="ranking">${this.#ranking()}</div>
        <details class="controls">
          <summary>What a goal may speak of</summary>
          <dl>
            ${Object.entries({
              ...numbered(MODE_QUANTITIES),
              ...numbered(NOTE_QUANTITIES),
              ...WHOLE_QUANTITIES,
            }).map(([name, meaning]) => html`<dt><b>${name}</b></dt><dd>${meaning}</dd>`)}
          </dl>
          <p class="muted">With + − * / ^, brackets, abs, min, max, mean, hypot, sqrt, exp and log.</p>
        </details>
      </div>
    `;
  }

  #ranking() {
    const { goal } = this.reading;
    if (!goal || this.shown.length === 0) return nothing;
    const scored = this.shown
      .map((one) => ({ ...one, score: scoreOf(one, goal) }))
      .sort((a, b) => (a.score ?? Infinity) - (b.score ?? Infinity));
    return html`
      <ol aria-label="Ranking, the best first">
        ${scored.map(
          ({ number, name, score, answer }, i) => html`
            <li>
              <span>${score === null ? "–" : `${i + 1}.`}</span>
              <span>${number} ${name}</span>
              <span class="score">${score === null ? (answer.refusal ? "not brought to pitch" : "lacks what the goal asks for") : shownScore(score)}</span>
            </li>
          `,
        )}
      </ol>
    `;
  }
}

const numbered = (quantities: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(Object.entries(quantities).map(([name, meaning]) => [`${name}1, ${name}2, …`, meaning]));

const shownScore = (score: number): string => `${Number(score.toPrecision(4))}`.replace("-", "−");
