/** A sealed trial: the turns for whoever plays; the card for the second person, behind a warning; and the way to open it. */

import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { isRated, type Trial } from "../../../trial/trial.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { PrintedCopy } from "../../shell/printedCopy.ts";
import { shownTrial, withOpened, withoutOrder } from "../../state/notes/trial.ts";
import { PageElement } from "../../state/page.ts";
import { type JobNames, jobNames } from "../../state/record/jobNames.ts";
import { haveSeen, rememberSeen } from "./codesSeen.ts";
import "./session.ts";
import { SetupCard } from "./setupCard.ts";
import { trialStyles } from "./trialStyles.ts";

/** What is looked at. */
type Face = "play" | "card" | "open";

const FACES = [
  { value: "play", text: "Play" },
  { value: "card", text: "Set-up card" },
  { value: "open", text: "Open" },
] as const;

@customElement("annulus-trial-sealed")
export class SealedTrial extends PageElement {
  static override styles = [controls, sheetStyles, trialStyles];
  readonly #paper = new PrintedCopy(this, new SetupCard());
  @state() private face: Face = "play";
  /** The second person has said to be one; asked for anew whenever the card was left. */
  @state() private showsCard = false;

  #names!: JobNames;

  protected override willUpdate(): void {
    const { document, view } = this.page.store.parts;
    this.#names = jobNames({ document, view, row: this.page.job.parts.row });
  }

  override render() {
    const trial = shownTrial(this.page.store.parts.document.notes.trial);
    if (!trial) return nothing;
    return html`
      <div class="head">
        <h2>Blind trial${trial.player ? html`<small>${trial.player}</small>` : nothing}</h2>
        ${segments<Face>("What is looked at", FACES, this.face, (face) => {
          this.face = face;
          this.showsCard = false;
        })}
      </div>
      ${this.face === "play" ? this.#session() : this.face === "card" ? this.#card(trial) : this.#opening(trial)}
    `;
  }

  protected override updated(): void {
    const { document, view } = this.page.store.parts;
    const trial = shownTrial(document.notes.trial);
    this.#paper.show(
      trial && this.showsCard ? { trial, setup: document.setup, names: this.#names, unit: view.unit } : null,
    );
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.showsCard = false;
  }

  #session() {
    return html`<annulus-trial-session @finish=${() => {
      this.face = "open";
    }}></annulus-trial-session>`;
  }

  #card(trial: Trial): TemplateResult {
    if (!this.showsCard)
      return html`
        <section class="gate stack">
          <p class="notice wrong">${icon("warning")}<span>The card says which code stands for what. It is for a second person who mounts and does not listen: <b>not for the player, nor for the technician who judges</b>. Once seen it cannot be unseen.</span></p>
          <div class="actions">
            <button type="button" data-testid="show-card" @click=${() => {
              this.showsCard = true;
            }}>${icon("eye")}I am the second person: show the card</button>
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
        <annulus-trial-card .trial=${trial} .setup=${document.setup} .names=${this.#names} .unit=${view.unit}></annulus-trial-card>
      </section>
    `;
  }

  #opening(trial: Trial) {
    const of = trial.turns.length;
    const rated = trial.turns.filter(isRated).length;
    const wasSeen = haveSeen(trial.id);
    const isBlind = rated === of && !wasSeen;
    const standing = wasSeen
      ? `The codes of this trial have been seen before; the result will say ${rated === of ? "so" : "that it was opened early"}.`
      : isBlind
        ? `All ${of} turns are rated. The codes can be opened.`
        : `${rated} of ${of} turns are rated. To open the codes now ends the blind trial, and the result will say that it was opened early.`;
    return html`
      <section class="gate stack">
        <p class="lead" data-testid="opening">${standing}</p>
        <div class="actions">
          <button type="button" class=${isBlind ? "seal" : ""} data-testid="open-trial" @click=${() => this.#open(trial, isBlind)}>
            ${icon("open")}${isBlind ? "Open the codes" : rated === of ? "Open again" : "Open early all the same"}
          </button>
          <button type="button" data-testid="plan-anew" @click=${this.#planAnother}>${icon("plus")}Plan another trial; this one waits</button>
          <button type="button" data-testid="throw-away" @click=${() => this.#throwAway(trial)}>${icon("reset")}Throw this order away</button>
        </div>
      </section>
    `;
  }

  #open(trial: Trial, isBlind: boolean): void {
    const { store } = this.page;
    rememberSeen(trial.id);
    const { trial: notes } = store.state.document.notes;
    const opened = isBlind ? "complete" : "early";
    store.setNotes("trial", withOpened(notes, trial.id, opened, new Date().toISOString()));
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
