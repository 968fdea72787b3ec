/** Every take of sweeps that was kept, and what they say together: by how much each resonance moved, beside the model. */
import { css, html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { sweptFigure } from "../../../charts/plots/swept/sweptChart.ts";
import type { KeptSweep } from "../../../response/keptSweep.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { isSameGap } from "../../../setup/setup.ts";
import { type BesideModel, besideModel, octaveChanges } from "../../../study/swept/besideModel.ts";
import type { SweptChange } from "../../../study/swept/sweptChange.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { signed } from "../../../words/numbers.ts";
import { shortWarning } from "../../../words/response/responseWarning.ts";
import {
  doubtWords,
  measuredText,
  octaveWords,
  resonanceName,
  SIDE_NAMES,
  SWEPT_FINDING,
  scatterWords,
  sweptHeadline,
} from "../../../words/swept/sweptWords.ts";
import { RULE } from "../../../words/verdicts/rules.ts";
import "../../chart/chartElement.ts";
import { download } from "../../shell/download.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { notice } from "../../shell/look/notice.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import type { Recordings } from "../../sound/recordings.ts";
import { takenStyles } from "../../sound/takeStyles.ts";
import { sweptIn } from "../../state/bench/swept.ts";
import { withoutSweep } from "../../state/notes/resonances.ts";
import { PageElement } from "../../state/page.ts";
import { SWEEPS_OF } from "./sweepsOf.ts";

@customElement("annulus-swept")
export class SweptResult extends PageElement {
  @property({ attribute: false }) recordings!: Recordings;

  static override styles = [
    controls,
    sheetStyles,
    takenStyles,
    css`
      td,
      th {
        white-space: nowrap;
      }
      .elsewhere {
        color: var(--muted);
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.page.compared.show(null);
  }

  /** While this is in sight the model compares the gaps that were swept. */
  protected override updated(): void {
    const swept = this.#swept();
    this.page.compared.show(swept && { gapMm: swept.afterMm, referenceGapMm: swept.beforeMm });
  }

  override render() {
    const { takes } = this.page.store.parts.document.notes.resonances;
    if (takes.length === 0)
      return html`<section class="stack"><h3>Takes</h3><p class="small muted">None yet. What you keep is listed here; before and after are compared as soon as there is one of each.</p></section>`;
    const swept = this.#swept();
    return html`
      <section class="stack" aria-labelledby="swept-title">
        <h3 id="swept-title">This instrument, measured</h3>
        ${swept ? this.#compared(swept) : html`<p class="small muted">Sweep the other one too, and before and after are compared here.</p>`}
        <div class="scroll">${this.#takes(takes, swept)}</div>
      </section>
    `;
  }

  #swept(): SweptChange | null {
    return sweptIn(this.page.store.parts.document.notes);
  }

  #compared(swept: SweptChange) {
    const { document, view } = this.page.store.parts;
    const instrument = instrumentOf(document.setup);
    const { explored } = this.page.model.parts;
    const beside = besideModel(swept, explored.value);
    const octaves = octaveChanges(swept, beside.resonances);
    return html`
      <p class="finding" data-testid="swept-finding">${sweptHeadline(swept, beside, view.unit)}</p>
      ${swept.doubts.map((doubt) => notice(doubtWords(doubt), { sign: "warning", testId: "swept-doubt" }))}
      ${beside.resonances.length > 0 ? html`<annulus-chart .figure=${sweptFigure} .data=${{ swept, beside }} .answer=${explored}></annulus-chart>${this.#table(beside)}` : nothing}
      <p class="small muted">${scatterWords(swept)} ${isSameGap(swept.beforeMm, swept.afterMm) ? "Before and after have the same gap, so the model, which knows only the gap, says nothing of the change." : "They agree where they differ by no more than both ± together. “Cannot tell”: no shift was found, and the model’s is not ruled out."}</p>
      ${
        octaves.length > 0
          ? html`<p class="small" data-testid="octaves">The rule: “${RULE.octaves}” Measured: ${octaves.map((one) => octaveWords(one, document.setup.thresholds.cents, instrument)).join("; ")}.</p>`
          : nothing
      }
    `;
  }

  #table({ resonances }: BesideModel) {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const dash = "–";
    return html`
      <div class="scroll" tabindex="0" role="group" aria-label="Shifts">
        <table data-testid="swept-table">
          <thead>
            <tr><th>Note</th><th class="number">Before, Hz</th><th class="number">Shift, cents</th><th class="number">Model, cents</th><th>Model</th><th class="number">Q</th><th class="number">Change of Q, %</th><th class="number">Model, %</th></tr>
          </thead>
          <tbody>
            ${resonances.map(
              (one) => html`
                <tr>
                  <td>${resonanceName(one, instrument)}</td>
                  <td class="number">${one.hz.toFixed(1)}</td>
                  <td class="number">${measuredText(one.shift)}</td>
                  <td class="number">${one.model ? (one.model.expanded === null ? signed(one.model.value, 1) : measuredText({ value: one.model.value, expanded: one.model.expanded })) : dash}</td>
                  <td>${SWEPT_FINDING[one.finding]}</td>
                  <td class="number">${one.q.toFixed(1)}</td>
                  <td class="number">${measuredText(one.qChange)}</td>
                  <td class="number">${one.model ? signed(one.model.qPercent, 1) : dash}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
    `;
  }

  #takes(takes: readonly KeptSweep[], swept: SweptChange | null) {
    const { unit } = this.page.store.parts.view;
    return html`
      <table data-testid="sweeps">
        <thead>
          <tr><th>Take</th><th>Kept</th><th>What</th><th>Gap</th><th class="number">°C</th><th class="number">Resonances</th><th class="number">Off the others, cents</th><th></th></tr>
        </thead>
        <tbody>
          ${takes.map((take) => {
            const at = swept?.takes.findIndex(({ id }) => id === take.id) ?? -1;
            const offset = swept?.takes[at]?.offsetCents ?? null;
            const when = new Date(take.at).toLocaleString([], { dateStyle: "short", timeStyle: "short" });
            return html`
              <tr class=${swept && at < 0 ? "elsewhere" : ""}>
                <td>${at < 0 ? "–" : at + 1}</td>
                <td>${when}</td>
                <td>${SIDE_NAMES[take.side].toLowerCase()}${swept && at < 0 ? " (another gap: not compared)" : ""}${take.warnings.length > 0 ? html` <span class="muted">(${take.warnings.map((warning) => shortWarning(warning)).join(", ")})</span>` : nothing}</td>
                <td>${formatLength(take.gapMm, unit)}</td>
                <td class="number">${take.temperatureC.toFixed(1)}</td>
                <td class="number">${take.resonances.length}</td>
                <td class="number">${offset === null ? "–" : signed(offset, 2)}</td>
                <td>
                  ${take.hasSound ? html`<button type="button" class="plain square" aria-label="Save the recording of ${when}" title="Save the recording" @click=${() => void this.#save(take.id)}>${icon("save")}</button>` : nothing}
                  <button type="button" class="plain square" data-testid="remove-sweep" aria-label="Remove the take of ${when}" title="Remove" @click=${() => void this.#remove(take)}>${icon("xmark")}</button>
                </td>
              </tr>
            `;
          })}
        </tbody>
      </table>
    `;
  }

  async #save(id: string): Promise<void> {
    const sounds = await this.recordings.of(SWEEPS_OF).catch(() => new Map<string, Blob>());
    const sound = sounds.get(id);
    if (sound) download(sound, `sweep-${id}.wav`);
    else this.page.store.say("note", "The sound of this take is no longer in this browser; its numbers are.");
  }

  async #remove({ id, hasSound }: KeptSweep): Promise<void> {
    const { store } = this.page;
    const { resonances } = store.state.document.notes;
    store.setNotes("resonances", { ...resonances, takes: withoutSweep(resonances.takes, id) });
    if (!hasSound) return;
    await this.recordings.remove(SWEEPS_OF, id).catch(() => {});
    store.say("note", "Removed. Undo brings the numbers back, not the sound.");
  }
}
