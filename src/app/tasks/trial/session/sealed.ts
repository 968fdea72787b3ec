/** A sealed trial: the turns for whoever plays; the card for the assistant, behind a warning, or the envelopes of who plays alone; and the way to open it. */

import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { itemLabel } from "../../../../charts/plots/trial/ratingsChart.ts";
import { isTurnDone } from "../../../../study/listened/measuredTrial.ts";
import { envelopeLetters } from "../../../../trial/envelopes.ts";
import type { Trial } from "../../../../trial/trial.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { segments } from "../../../shell/look/segments.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { PrintedCopy } from "../../../shell/printedCopy.ts";
import { measuredGap } from "../../../state/bench/jobGaps.ts";
import { shownTrial, withOpened, withoutOrder } from "../../../state/notes/trial.ts";
import { PageElement } from "../../../state/page.ts";
import { type JobNames, jobNames } from "../../../state/record/jobNames.ts";
import { haveSeen, rememberSeen } from "./codesSeen.ts";
import { EnvelopeCard } from "./envelopeCard.ts";
import "./session.ts";
import { trialStyles } from "../trialStyles.ts";
import { SetupCard } from "./setupCard.ts";

/** What is looked at. */
type Face = "play" | "card" | "open";

const faces = ({ alone }: Trial) =>
  [
    { value: "play", text: "Play" },
    { value: "card", text: alone ? "Envelopes" : "Set-up card" },
    { value: "open", text: "Open" },
  ] as const;

@customElement("annulus-trial-sealed")
export class SealedTrial extends PageElement {
  static override styles = [controls, sheetStyles, trialStyles];
  readonly #paper = new PrintedCopy(this, new SetupCard());
  readonly #envelopes = new PrintedCopy(this, new EnvelopeCard());
  @state() private face: Face | null = null;
  /** The assistant has said to be one; asked for anew whenever the card was left. */
  @state() private showsCard = false;

  #names!: JobNames;

  protected override willUpdate(): void {
    const { document, view } = this.page.store.parts;
    this.#names = jobNames({ document, view, row: this.page.job.parts.row });
  }

  override render() {
    const trial = shownTrial(this.page.store.parts.document.notes.trial);
    if (!trial) return nothing;
    const face = this.#face(trial);
    return html`
      <div class="head apart">
        <h2>Blind trial${trial.player ? html`<small>${trial.player}</small>` : nothing}</h2>
        ${segments<Face>("Show", faces(trial), face, (face) => {
          this.face = face;
          this.showsCard = false;
        })}
      </div>
      ${face === "play" ? this.#session() : face === "open" ? this.#opening(trial) : trial.alone ? this.#envelopesCard(trial) : this.#card(trial)}
    `;
  }

  protected override updated(): void {
    const { document, view } = this.page.store.parts;
    const trial = shownTrial(document.notes.trial);
    const isAlone = trial?.alone && this.#face(trial) === "card";
    this.#envelopes.show(
      isAlone
        ? { trial, setup: document.setup, presentMm: this.#presentMm, names: this.#names, unit: view.unit }
        : null,
    );
    this.#paper.show(
      trial && this.showsCard && !trial.alone
        ? { trial, setup: document.setup, presentMm: this.#presentMm, names: this.#names, unit: view.unit }
        : null,
    );
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.showsCard = false;
  }

  /** Who plays alone begins with the envelopes. */
  #face(trial: Trial): Face {
    return this.face ?? (trial.alone && this.#done(trial) === 0 ? "card" : "play");
  }

  /** Turns of which all is known that the trial needs. */
  #done(trial: Trial): number {
    const { takes } = this.page.store.parts.document.notes.listen;
    return trial.turns.filter((turn) => isTurnDone(trial, turn, takes)).length;
  }

  /** The gap at the bench, which readings tell before the file does. */
  get #presentMm(): number {
    const { document, view } = this.page.store.parts;
    return measuredGap(document, view.unit).gapMm;
  }

  #session() {
    return html`<annulus-trial-session @finish=${() => {
      this.face = "open";
    }}></annulus-trial-session>`;
  }

  #envelopesCard(trial: Trial): TemplateResult {
    const { document, view } = this.page.store.parts;
    return html`
      <section class="stack">
        <div class="actions">
          <button type="button" data-testid="print-envelopes" @click=${() => print()}>${icon("print")}Print the slips</button>
        </div>
        <annulus-trial-envelopes .trial=${trial} .setup=${document.setup} .presentMm=${this.#presentMm} .names=${this.#names} .unit=${view.unit}></annulus-trial-envelopes>
      </section>
    `;
  }

  #card(trial: Trial): TemplateResult {
    if (!this.showsCard)
      return html`
        <section class="gate stack">
          <p class="notice wrong">${icon("warning")}<span>The card says which code stands for what. It is for an assistant who fits mouthpieces and does not judge: <b>not for the player, nor for the technician who judges</b>. Once seen it cannot be unseen.</span></p>
          <div class="actions">
            <button type="button" data-testid="show-card" @click=${() => {
              this.showsCard = true;
            }}>${icon("eye")}I am the assistant: show the card</button>
          </div>
        </section>
      `;
    const { document, view } = this.page.store.parts;
    return html`
      <section class="stack">
        <div class="actions">
          <button type="button" data-testid="print-card" @click=${() => print()}>${icon("print")}Print the card</button>
          <button type="button" data-testid="hide-card" @click=${() => {
            this.showsCard = false;
          }}>${icon("eye-slash")}Put it away</button>
        </div>
        <annulus-trial-card .trial=${trial} .setup=${document.setup} .presentMm=${this.#presentMm} .names=${this.#names} .unit=${view.unit}></annulus-trial-card>
      </section>
    `;
  }

  #opening(trial: Trial) {
    const of = trial.turns.length;
    const done = this.#done(trial);
    const what = trial.decidedBy ? "measured" : "rated";
    const wasSeen = haveSeen(trial.id);
    const isBlind = done === of && !wasSeen;
    const standing = wasSeen
      ? `The codes of this trial have been seen before; the result will say ${done === of ? "so" : "that it was opened early"}.`
      : isBlind
        ? `All ${of} turns are ${what}. The codes can be opened.`
        : `${done} of ${of} turns are ${what}. To open the codes now ends the blind trial, and the result will say that it was opened early.`;
    return html`
      <section class="gate stack">
        <p class="lead" data-testid="opening">${standing}</p>
        ${trial.alone ? this.#holds(trial) : nothing}
        <div class="actions">
          <button type="button" class=${isBlind ? "seal" : ""} data-testid="open-trial" ?disabled=${trial.alone && this.#held(trial) === null} @click=${() => this.#open(trial, isBlind)}>
            ${icon("open")}${isBlind ? "Open the codes" : done === of ? "Open again" : "Open early all the same"}
          </button>
          <button type="button" data-testid="plan-anew" @click=${this.#planAnother}>${icon("plus")}Plan another trial; this one waits</button>
          <button type="button" data-testid="throw-away" @click=${() => this.#throwAway(trial)}>${icon("reset")}Throw this order away</button>
        </div>
      </section>
    `;
  }

  /** What the slip in each envelope says. */
  #holds(trial: Trial): TemplateResult {
    const { document, view } = this.page.store.parts;
    const { holds } = document.notes.trial;
    const write = (envelope: number, held: string) => {
      const { store } = this.page;
      const { trial: notes } = store.state.document.notes;
      const next = trial.items.map((_, i) => (i === envelope ? held : (notes.holds[i] ?? "")));
      store.setNotes("trial", { ...notes, holds: next });
    };
    return html`
      <div class="items controls" role="group" aria-label="What the envelopes held">
        ${envelopeLetters(trial.items.length).map(
          (letter, envelope) => html`
            <label class="stack"
              ><span>Envelope ${letter} held</span>
              <select data-testid="held-${letter}" @change=${({ target }: Event) => write(envelope, (target as HTMLSelectElement).value)}>
                <option value="" ?selected=${!holds[envelope]}>open the slip</option>
                ${trial.items.map((item, i) => html`<option value=${i} ?selected=${holds[envelope] === `${i}`}>${itemLabel(item, view.unit)}</option>`)}
              </select>
            </label>
          `,
        )}
      </div>
      <p class="muted">Open the slips only when all turns are ${trial.decidedBy ? "measured" : "rated"}. Each thing was in one envelope.</p>
    `;
  }

  /** By envelope, the place of what it held; null until all is said and each thing once. */
  #held({ items }: Trial): readonly number[] | null {
    const { holds } = this.page.store.parts.document.notes.trial;
    const held = items.map((_, i) => (holds[i] ? Number(holds[i]) : -1));
    return new Set(held).size === items.length && !held.includes(-1) ? held : null;
  }

  #open(trial: Trial, isBlind: boolean): void {
    const { store } = this.page;
    rememberSeen(trial.id);
    const { trial: notes } = store.state.document.notes;
    const opened = isBlind ? "complete" : "early";
    store.setNotes(
      "trial",
      withOpened(notes, trial.id, opened, new Date().toISOString(), this.#held(trial) ?? []),
    );
  }

  readonly #planAnother = (): void => {
    const { store } = this.page;
    store.setNotes("trial", { ...store.state.document.notes.trial, shown: null });
  };

  #throwAway({ id }: Trial): void {
    const { store } = this.page;
    store.setNotes("trial", withoutOrder(store.state.document.notes.trial, id));
    store.say("note", "The order is thrown away, with what was rated in it; its recordings stay.", {
      label: "Bring it back",
      accept: () => store.undo(),
    });
  }
}
