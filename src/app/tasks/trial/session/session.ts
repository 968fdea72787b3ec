/**
 * One turn at a time, for whoever plays: the code, what to play, four scales. Nothing here knows what is mounted: of a turn
 * only its code, its ratings and its remark are taken out of the sealed trial.
 */

import { css, html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { instrumentOf } from "../../../../setup/instrumentOf.ts";
import { isTurnDone } from "../../../../study/listened/measuredTrial.ts";
import { envelopeOf } from "../../../../trial/envelopes.ts";
import { repeatsOf, SCALES, type Scale, type Trial } from "../../../../trial/trial.ts";
import { keptWords } from "../../../../words/listen/measuredWords.ts";
import { TEST_NAMES } from "../../../../words/listen/testWords.ts";
import { DECIDED_BY } from "../../../../words/trial/measuredTrial.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { writtenHz } from "../../../state/bench/listened.ts";
import { PageElement } from "../../../state/page.ts";
import "../../../form/entry.ts";
import type { WriteEvent } from "../../../form/entry.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { shownTrial, withTurn } from "../../../state/notes/trial.ts";
import "./ratingSlider.ts";
import type { RateEvent, RatingSlider } from "./ratingSlider.ts";
import "./recordingPanel.ts";
import { SCALE_WORDS } from "../scaleWords.ts";

@customElement("annulus-trial-session")
export class TrialSession extends PageElement {
  /** Where the player is; the first turn that is not wholly rated, until he goes elsewhere. */
  @property({ attribute: false }) at: number | null = null;
  @state() private hint = "";

  static override styles = [
    controls,
    sheetStyles,
    css`
      :host {
        display: grid;
        gap: 1.25rem;
        width: 100%;
        max-width: 48rem;
        margin-inline: auto;
      }
      .turn {
        display: grid;
        grid-template-columns: max-content minmax(0, 1fr);
        gap: 0 2rem;
        align-items: center;
        padding-bottom: 0.75rem;
        border-bottom: 1.5px solid var(--ink);
      }
      .code {
        font-size: clamp(3.5rem, 14vw, 6rem);
        font-weight: 700;
        line-height: 1;
        letter-spacing: 0.06em;
      }
      .where {
        font-size: var(--type-16);
      }
      .where progress {
        display: block;
        width: 100%;
        margin-top: 0.35rem;
      }
      .passages {
        grid-column: 1 / -1;
        padding-top: 0.75rem;
        font-size: var(--type-20);
        text-wrap: pretty;
      }
      .scales {
        display: grid;
        gap: 1.25rem;
      }
      .go {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 2fr);
        gap: 0.75rem;
      }
      .go button {
        min-height: 3.5rem;
        font-size: var(--type-20);
      }
      .go .next {
        font-weight: 650;
        border: 2px solid var(--ink);
      }
      .hint {
        min-height: 1.5em;
        color: var(--gap);
      }
      @container sheet (max-width: 479px) {
        .turn {
          column-gap: 1rem;
        }
      }
    `,
  ];

  override render() {
    const trial = this.#trial;
    if (!trial) return nothing;
    const { turns, items, passages } = trial;
    const at = this.#place();
    const { code, ratings, remark } = turns[at];
    const takes = this.#takes;
    const done = turns.filter((turn) => isTurnDone(trial, turn, takes)).length;
    const what = trial.decidedBy ? "measured" : "rated";
    return html`
      <section class="turn" aria-label="Turn">
        <p class="code" data-testid="code">${code}</p>
        <div class="where">
          ${trial.alone ? html`<p data-testid="envelope">Take envelope <b>${envelopeOf(turns[at])}</b>.</p>` : nothing}
          <p data-testid="turn">Turn ${at + 1} of ${turns.length}, repeat ${1 + Math.floor(at / items.length)} of ${repeatsOf(trial)}</p>
          <progress max=${turns.length} .value=${done} aria-label="Turns ${what}"></progress>
          <p class="muted">${done} ${what}</p>
        </div>
        <p class="passages">${passages || "Play the same as at every other turn, as long as you need."}</p>
      </section>
      ${trial.decidedBy ? this.#measuring(trial, code) : nothing}
      <section class="scales" aria-label="Ratings of ${code}">
        ${trial.decidedBy ? html`<p class="muted">Ratings may be left out: the takes decide.</p>` : nothing}
        ${SCALES.map((scale) => {
          const { name, low, high } = SCALE_WORDS[scale];
          return html`
            <annulus-rating
              data-scale=${scale}
              .label=${name}
              .low=${low}
              .high=${high}
              .value=${ratings[scale]}
              @rate=${(event: RateEvent) => this.#rate(scale, event)}
            ></annulus-rating>
          `;
        })}
      </section>
      <p class="hint" role="status" data-testid="hint">${this.hint}</p>
      <div class="go">
        <button type="button" data-testid="back" ?disabled=${at === 0} @click=${() => this.#go(at - 1)}>${icon("chevron-left")}Back</button>
        <button type="button" class="next" data-testid="next" @click=${this.#next}>
          ${at === turns.length - 1 ? "Done" : html`Next${icon("chevron-right")}`}
        </button>
      </div>
      <annulus-entry
        label="Remark"
        hint="If you like: one line in your own words."
        .text=${remark}
        @write=${({ detail }: WriteEvent) => this.#write({ remark: detail.text }, detail.done)}
      ></annulus-entry>
      <annulus-recording .trial=${trial.id} .code=${code}></annulus-recording>
    `;
  }

  get #trial(): Trial | null {
    return shownTrial(this.page.store.parts.document.notes.trial);
  }

  get #takes() {
    return this.page.store.parts.document.notes.listen.takes;
  }

  /** Where takes decide: those of this turn, and the way to the next. */
  #measuring({ id, decidedBy }: Trial, code: string) {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const own = this.#takes.filter(({ blind }) => blind?.trial === id && blind.code === code);
    return html`
      <section class="stack" aria-label="Takes of ${code}">
        <p>Decided by: <b>${DECIDED_BY[decidedBy!].toLowerCase()}</b>.</p>
        ${
          own.length === 0
            ? html`<p class="muted" data-testid="no-take">No take of this turn yet.</p>`
            : html`<ul data-testid="turn-takes">${own.map(({ measured, partial }) => html`<li>${TEST_NAMES[measured.test]}: ${keptWords(measured, writtenHz(instrument, partial))}</li>`)}</ul>`
        }
        <div class="actions controls">
          <button type="button" data-testid="listen-to-turn" @click=${() => this.#listen(code)}>${icon("play")}Listen to this turn</button>
        </div>
      </section>
    `;
  }

  /** The sheet that listens, set to this turn. */
  #listen(code: string): void {
    const { store, router } = this.page;
    const { id, decidedBy } = this.#trial!;
    store.setNotes("listen", { ...store.state.document.notes.listen, test: decidedBy!, trial: id, code });
    router.go("listen");
  }

  #place(): number {
    const { turns } = this.#trial!;
    const next = turns.findIndex((turn) => !isTurnDone(this.#trial!, turn, this.#takes));
    this.at ??= next < 0 ? turns.length - 1 : next;
    return Math.min(this.at, turns.length - 1);
  }

  #rate(scale: Scale, { detail }: RateEvent): void {
    const { ratings } = this.#trial!.turns[this.#place()];
    this.hint = "";
    this.#write({ ratings: { ...ratings, [scale]: detail.value } }, detail.done);
  }

  #write(part: Parameters<typeof withTurn>[2], commit: boolean): void {
    const { store } = this.page;
    const { parts: state } = store;
    store.setNotes("trial", withTurn(state.document.notes.trial, this.#place(), part), { commit });
  }

  readonly #next = (): void => {
    const { turns } = this.#trial!;
    const at = this.#place();
    const open = SCALES.filter((scale) => turns[at].ratings[scale] === null);
    if (this.#trial!.decidedBy) {
      if (!isTurnDone(this.#trial!, turns[at], this.#takes)) {
        this.hint = "Still to do: a take of this turn. Listen to it first.";
        this.renderRoot.querySelector<HTMLElement>("[data-testid=listen-to-turn]")!.focus();
        return;
      }
    } else if (open.length > 0) {
      this.hint = `Still to rate: ${open.map((scale) => SCALE_WORDS[scale].name.toLowerCase()).join(", ")}.`;
      this.renderRoot.querySelector<RatingSlider>(`[data-scale=${open[0]}]`)!.focus();
      return;
    }
    if (at < turns.length - 1) this.#go(at + 1);
    else this.dispatchEvent(new CustomEvent("finish"));
  };

  #go(to: number): void {
    this.at = to;
    this.hint = "";
    void this.updateComplete.then(() => {
      this.renderRoot.querySelector<RatingSlider>("annulus-rating")!.focus({ preventScroll: true });
      this.scrollIntoView({ block: "start" });
    });
  }
}
