/** The sheet of a blind trial: planned, sealed and played, opened. Whatever is shown before it is opened knows codes only. */

import { html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import type { Trial } from "../../../trial/trial.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { PageElement } from "../../state/page.ts";
import "./plan.ts";
import "./result.ts";
import "./sealed.ts";
import { trialStyles } from "./trialStyles.ts";

@customElement("annulus-trial")
export class TrialSheet extends PageElement {
  static override styles = [controls, sheetStyles, trialStyles];

  override render() {
    const { trial } = this.page.store.parts.document.notes.trial;
    return html`
      <main @plananew=${this.#planAnew}>
        ${
          trial === null
            ? html`<annulus-trial-plan></annulus-trial-plan>`
            : trial.opened === "sealed"
              ? html`<annulus-trial-sealed></annulus-trial-sealed>`
              : this.#opened(trial)
        }
      </main>
    `;
  }

  #opened(trial: Trial) {
    return html`
      <div class="head">
        <h2>Blind trial${trial.player ? html`<small>${trial.player}</small>` : nothing}</h2>
        <button type="button" data-testid="plan-anew" @click=${this.#planAnew}>${icon("reset")}Plan another trial</button>
      </div>
      <annulus-trial-result .trial=${trial}></annulus-trial-result>
    `;
  }

  readonly #planAnew = (): void => {
    const { store } = this.page;
    const { parts: state } = store;
    store.setNotes("trial", { ...state.document.notes.trial, trial: null });
    store.say("note", "The plan is open again; the trial and its ratings are put aside.", {
      label: "Bring the trial back",
      accept: () => store.undo(),
    });
  };
}
