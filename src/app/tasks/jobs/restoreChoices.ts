/** What a file of jobs holds that is otherwise here, job by job: both, the file's, or what is here. */

import { css, html, LitElement, nothing, type TemplateResult } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Damage } from "../../../record/backup.ts";
import { type Choice, isDifferent, USUAL_CHOICE } from "../../../record/merge.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { warning } from "../../shell/look/notice.ts";
import { segments } from "../../shell/look/segments.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import type { Comparison } from "../../state/record/takenIn.ts";
import { whenText } from "./jobRow.ts";
import { damageText, offeredText, STANDING } from "./restoreWords.ts";

export interface Offered {
  readonly name: string;
  readonly comparisons: readonly Comparison[];
  readonly damage: Damage | null;
}

const DIFFERENT = [
  { value: "keep both", text: "Keep both" },
  { value: "take", text: "Replace" },
  { value: "skip", text: "Skip" },
] as const;
const NEW = [
  { value: "take", text: "Add" },
  { value: "skip", text: "Skip" },
] as const;

@customElement("annulus-restore-choices")
export class RestoreChoices extends LitElement {
  @property({ attribute: false }) offered!: Offered;
  @state() private choices: readonly Choice[] = [];
  @state() private showsNew = false;

  static override styles = [
    controls,
    panelStyles,
    css`
      :host {
        padding: 0.75rem 0;
        border: solid var(--ink);
        border-width: 1.5px 0;
        font-size: var(--type-14);
      }
      h4 {
        font-size: var(--type-16);
        font-weight: 650;
      }
      fieldset {
        margin: 0;
        padding: 0.5rem 0;
        border: 0;
        border-top: 1px solid var(--hairline);
      }
      legend {
        float: left;
        width: 100%;
        padding: 0;
        font-weight: 650;
      }
      fieldset p {
        clear: both;
        color: var(--muted);
      }
      fieldset div {
        display: flex;
        flex-wrap: wrap;
        gap: 0 1.25rem;
      }
      label {
        display: inline-flex;
        align-items: center;
        gap: 0.4rem;
        min-height: var(--touch);
      }
    `,
  ];

  protected override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (!changed.has("offered")) return;
    this.choices = this.offered.comparisons.map(({ standing }) => USUAL_CHOICE[standing]);
    this.showsNew = false;
  }

  override render() {
    const { name, comparisons, damage } = this.offered;
    const places = comparisons.map((_, i) => i);
    const different = places.filter((i) => isDifferent(comparisons[i].standing));
    const added = places.filter((i) => comparisons[i].standing === "new");
    return html`
      <h4 tabindex="-1" id="heading">What to take from ${name}</h4>
      ${damage ? warning(damageText(name, damage, comparisons.length), { testId: "damage" }) : nothing}
      <p data-testid="offered">${offeredText(comparisons.map(({ standing }) => standing))}</p>
      ${different.length > 0 ? this.#all(different) : nothing}
      <div>${different.map((i) => this.#job(i, DIFFERENT))}</div>
      ${
        added.length > 0
          ? html`
              <details @toggle=${this.#onToggle}>
                <summary>${added.length === 1 ? "The new one" : `The ${added.length} new ones`}</summary>
                ${this.showsNew ? added.map((i) => this.#job(i, NEW)) : nothing}
              </details>
            `
          : nothing
      }
      <div class="actions controls">
        <button type="button" data-testid="take-chosen" @click=${this.#take}>${icon("check")}Restore as chosen</button>
        <button type="button" data-testid="leave-file" @click=${() => this.dispatchEvent(new CustomEvent("leave"))}>Leave the file</button>
      </div>
    `;
  }

  override focus(): void {
    this.renderRoot.querySelector<HTMLElement>("#heading")?.focus();
  }

  #all(different: readonly number[]): TemplateResult {
    const [first] = different;
    const isOne = different.every((i) => this.choices[i] === this.choices[first]);
    return html`
      <div class="actions controls">
        <span>All that differ</span>
        ${segments<Choice | null>(
          "All that differ",
          DIFFERENT,
          isOne ? this.choices[first] : null,
          (choice) => {
            if (choice) this.choices = this.choices.map((old, i) => (different.includes(i) ? choice : old));
          },
        )}
      </div>
    `;
  }

  #job(place: number, options: readonly { readonly value: Choice; readonly text: string }[]): TemplateResult {
    const { job, standing, changed } = this.offered.comparisons[place];
    const title = job.title.trim() || "Untitled";
    return html`
      <fieldset data-testid="restore-job">
        <legend>${title}${job.player.trim() ? `, ${job.player}` : ""}</legend>
        <p>${STANDING[standing]} In the file: changed ${whenText(job.changed)}${changed ? `; here: ${whenText(changed)}` : ""}.</p>
        <div>
          ${options.map(
            ({ value, text }) => html`
              <label>
                <input
                  type="radio"
                  name="choice-${place}"
                  value=${value}
                  .checked=${this.choices[place] === value}
                  @change=${() => {
                    this.choices = this.choices.with(place, value);
                  }}
                />
                ${text}
              </label>
            `,
          )}
        </div>
      </fieldset>
    `;
  }

  readonly #onToggle = ({ target }: Event): void => {
    this.showsNew = (target as HTMLDetailsElement).open;
  };

  readonly #take = (): void => {
    this.dispatchEvent(new CustomEvent<readonly Choice[]>("choose", { detail: this.choices }));
  };
}
