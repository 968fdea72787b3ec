/** How firmly notes sit in their slots at two gaps, on modelled lips anyone may change. */

import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { evidenceWords } from "../../../words/verdicts/evidence.ts";
import { FINDING } from "../../../words/verdicts/findings.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { playForm } from "../../state/notes/play.ts";
import { PageElement } from "../../state/page.ts";
import { feelStyles } from "./feelStyles.ts";
import { feelWork } from "./feelWork.ts";
import "../../chart/chartElement.ts";
import { slotFigure } from "../../../charts/plots/slotChart.ts";
import { holdFigure } from "./holdFigure.ts";
import { hasOwnLips, lipsForm } from "./slotsLips.ts";

@customElement("annulus-slots")
export class Slots extends PageElement {
  readonly #form = new NotesForm(this, "play", playForm);

  static override styles = [
    controls,
    sheetStyles,
    feelStyles,
    css`
      .finding {
        font-weight: 700;
      }
    `,
  ];

  override render() {
    const { notes } = this.#form;
    const { felt, slots } = this.page.feel.parts;
    const atBoth = slots.value && { reference: slots.value[0], chosen: slots.value[1] };
    return html`
      <section aria-labelledby="slots-title">
        <h2 id="slots-title">How firmly notes slot</h2>
        <p class="words">
          Slot width is the range of lip frequencies that start the note; pull how far the pitch follows the lips;
          margin how much more pressure the next note would need. All by linear stability of modelled lips on this air column.
        </p>
        <div aria-live="polite">
          ${felt.value && !felt.stale ? html`<p class="words" data-testid="slots-finding"><span class="finding">The model: ${FINDING[felt.value.slots.finding]}.</span> ${evidenceWords(felt.value.slots, instrumentOf(this.page.store.parts.document.setup))}</p>` : ""}
        </div>
        ${feelWork(this.page.feel, ["slots", "felt", "holds"])}
        <div class="figures">
          <annulus-chart .figure=${slotFigure} .data=${atBoth} .answer=${slots}></annulus-chart>
          <annulus-chart .figure=${holdFigure}></annulus-chart>
        </div>
        <details data-testid="lips" ?open=${hasOwnLips(notes)}>
          <summary>The lips${hasOwnLips(notes) ? ", changed" : ""}</summary>
          <p class="small">
            Nobody can measure these in a playing mouth. What the model finds is looked at again with each of them at either end
            of what it may be. An empty field is the usual value.
          </p>
          ${lipsForm(this.#form, instrumentOf(this.page.store.parts.document.setup))}
        </details>
      </section>
    `;
  }
}
