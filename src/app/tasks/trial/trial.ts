/**
 * The sheet of blind trials: the plan of the next, one that is sealed and played, or a finished one; with the others of the
 * job at hand. Whatever is shown of a trial before it is opened knows codes only.
 */

import { html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { keyed } from "lit/directives/keyed.js";
import { isFinished, type Trial } from "../../../trial/trial.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { shownTrial } from "../../state/notes/trial.ts";
import { PageElement } from "../../state/page.ts";
import "./plan/plan.ts";
import "./result/result.ts";
import "./session/sealed.ts";
import "./trialList.ts";
import { trialStyles } from "./trialStyles.ts";

@customElement("annulus-trial")
export class TrialSheet extends PageElement {
  static override styles = [controls, sheetStyles, trialStyles];

  override render() {
    const { trial: notes } = this.page.store.parts.document.notes;
    const trial = shownTrial(notes);
    if (trial && !isFinished(trial))
      return html`
        <main>
          ${keyed(trial.id, html`<annulus-trial-sealed></annulus-trial-sealed>`)}
          ${notes.trials.length > 1 ? html`<annulus-trial-list isPlaying></annulus-trial-list>` : nothing}
        </main>
      `;
    return html`
      <main>
        <annulus-trial-list></annulus-trial-list>
        ${trial ? this.#finished(trial) : html`<annulus-trial-plan></annulus-trial-plan>`}
      </main>
    `;
  }

  #finished(trial: Trial) {
    return html`
      <div class="head apart">
        <h2>Blind trial${trial.player ? html`<small>${trial.player}</small>` : nothing}</h2>
        <div class="actions">
          <button type="button" data-testid="print-trial" @click=${() => print()}>${icon("print")}Print</button>
          <button type="button" data-testid="report-trial" @click=${() => this.#report(trial)}>${icon("table")}Report this trial</button>
        </div>
      </div>
      <annulus-trial-result .trial=${trial}></annulus-trial-result>
    `;
  }

  /** On the report it stays, whatever is finished after it. */
  #report({ id }: Trial): void {
    const { store, router } = this.page;
    store.setNotes("sheet", { ...store.state.document.notes.sheet, trial: id });
    router.go("sheet");
  }
}
