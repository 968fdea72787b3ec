/** Every take that was kept, and what they say together, gap by gap. */
import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { listenedFigure } from "../../../charts/plots/listen/listenedChart.ts";
import type { KeptTake } from "../../../listen/keptTake.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { besideModel, modelChange, modelStart, modelWidths } from "../../../study/listened/besideModel.ts";
import { isCompared, type ListenedNote } from "../../../study/listened/measuredGaps.ts";
import {
  besideModelWords,
  besideRuleWords,
  besideStartWords,
  NO_MODEL,
} from "../../../words/listen/besideWords.ts";
import {
  basisWords,
  keptWords,
  listenedWords,
  placeWords,
  takenWords,
} from "../../../words/listen/measuredWords.ts";
import { planWords } from "../../../words/trial/measuredTrial.ts";
import "../../chart/chartElement.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { Recordings } from "../../sound/recordings.ts";
import { takenStyles } from "../../sound/takeStyles.ts";
import { listenedIn, writtenHz } from "../../state/bench/listened.ts";
import { withoutTake } from "../../state/notes/listen.ts";
import { PageElement } from "../../state/page.ts";
import "./slurModel.ts";
import { RECORDINGS_OF } from "./recordingsOf.ts";

@customElement("annulus-takes")
export class Takes extends PageElement {
  readonly #recordings = new Recordings();
  /** The take whose sound is to be heard. */
  @state() private played: { readonly id: string; readonly address: string } | null = null;

  static override styles = [
    controls,
    sheetStyles,
    takenStyles,
    css`
      .notes {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(26rem, 100%), 1fr));
        gap: 1.5rem 2rem;
        align-items: start;
      }
      audio {
        width: 100%;
        height: 2.75rem;
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#show(null);
    this.#recordings.close();
  }

  override render() {
    const { document } = this.page.store.parts;
    const { takes } = document.notes.listen;
    if (takes.length === 0)
      return html`<section class="stack"><h3>Takes</h3><p class="small muted">None yet. What you keep is listed here, and compared gap by gap.</p></section>`;
    const instrument = instrumentOf(document.setup);
    const notes = listenedIn(document.notes, instrument);
    return html`
      <section class="stack" aria-labelledby="measured-title">
        <h3 id="measured-title">This player, measured</h3>
        <div class="notes">${notes.map((note) => this.#note(note))}</div>
        ${this.played ? html`<audio controls autoplay src=${this.played.address} aria-label="The sound of a take"></audio>` : nothing}
        <div class="scroll">
          <table data-testid="takes">
            <thead>
              <tr><th>Kept</th><th>What</th><th>Gap</th><th>Found</th><th></th></tr>
            </thead>
            <tbody>
              ${takes.toReversed().map((take) => this.#row(take))}
            </tbody>
          </table>
        </div>
      </section>
    `;
  }

  #note(note: ListenedNote) {
    const { document, view } = this.page.store.parts;
    const isSlot = note.test === "slot" && isCompared(note);
    const { holds } = isSlot ? this.page.feel.parts : { holds: null };
    const model = holds?.value ? modelWidths(holds.value, note.partial) : [];
    const change = note.change && modelChange(model, note.change);
    return html`
      <article class="stack">
        <p class="finding" data-testid="measured">${listenedWords(note, view.unit, instrumentOf(document.setup))}</p>
        ${isSlot && note.change ? html`<p class="small">${besideRuleWords(note.change)}</p>` : nothing}
        ${
          change !== null && note.change
            ? html`<p class="small" data-testid="beside-model">${besideModelWords(besideModel(note.change, change), change)}</p>`
            : nothing
        }
        ${this.#otherModel(note)}
        <p class="small muted">${basisWords(note)} ${planWords(note)}</p>
        ${isCompared(note) ? html`<annulus-chart .figure=${listenedFigure} .data=${{ note, model }} .answer=${holds}></annulus-chart>` : nothing}
      </article>
    `;
  }

  /** What the model has of anything but a slot; that it has nothing is said. */
  #otherModel(note: ListenedNote) {
    const { change, test, partial } = note;
    if (test === "slot" || !change) return nothing;
    if (test === "slur") return html`<annulus-slur-model .note=${note}></annulus-slur-model>`;
    if (test === "steady") return html`<p class="small" data-testid="no-model">${NO_MODEL.steady}</p>`;
    const { holds } = this.page.feel.parts;
    if (!holds.value)
      return holds.progress === null ? nothing : html`<p class="small muted">The model is being asked.</p>`;
    const start = modelStart(holds.value, partial, change);
    const { pressurePercent } = this.page.store.parts.document.setup.thresholds;
    return html`<p class="small" data-testid="beside-model">${start ? besideStartWords(start, pressurePercent) : NO_MODEL.attack}</p>`;
  }

  #row(take: KeptTake) {
    const { document, view } = this.page.store.parts;
    const instrument = instrumentOf(document.setup);
    const { id, at, partial, toPartial, measured, warnings, hasSound } = take;
    const what = takenWords({ test: measured.test, partial, toPartial }, instrument);
    const when = new Date(at).toLocaleString([], { dateStyle: "short", timeStyle: "short" });
    return html`
      <tr>
        <td>${when}</td>
        <td>${what}</td>
        <td>${placeWords(take, view.unit)}</td>
        <td>${keptWords(measured, writtenHz(instrument, partial))}${warnings.length > 0 ? html` <span class="muted">(${warnings.length === 1 ? "1 warning" : `${warnings.length} warnings`})</span>` : nothing}</td>
        <td>
          ${hasSound ? html`<button type="button" class="plain square" aria-label="Hear the take of ${when}, ${what}" title="Hear it" @click=${() => void this.#hear(id)}>${icon("play")}</button>` : nothing}
          <button type="button" class="plain square" data-testid="remove-take" aria-label="Remove the take of ${when}, ${what}" title="Remove" @click=${() => void this.#remove(take)}>${icon("xmark")}</button>
        </td>
      </tr>
    `;
  }

  async #hear(id: string): Promise<void> {
    const sounds = await this.#recordings.of(RECORDINGS_OF).catch(() => new Map<string, Blob>());
    const sound = sounds.get(id);
    if (sound) this.#show({ id, address: URL.createObjectURL(sound) });
    else this.page.store.say("note", "The sound of this take is no longer in this browser; its numbers are.");
  }

  async #remove({ id, hasSound }: KeptTake): Promise<void> {
    const { store } = this.page;
    store.setNotes("listen", withoutTake(store.state.document.notes.listen, id));
    if (!hasSound) return;
    await this.#recordings.remove(RECORDINGS_OF, id).catch(() => {});
    if (this.played?.id === id) this.#show(null);
    store.say("note", "Removed. Undo brings the numbers back, not the sound.");
  }

  #show(played: { readonly id: string; readonly address: string } | null): void {
    if (this.played) URL.revokeObjectURL(this.played.address);
    this.played = played;
  }
}
