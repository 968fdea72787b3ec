/** The same slurs by modelled lips, there and back at the two gaps that were measured: asked for by a hand, since it takes a while. */
import { css, html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import { wilsonInterval } from "../../../statistics/wilsonInterval.ts";
import { besideShares, type ModelShares } from "../../../study/listened/besideModel.ts";
import type { ListenedNote } from "../../../study/listened/measuredGaps.ts";
import { besideSharesWords, NO_MODEL } from "../../../words/listen/besideWords.ts";
import { readField } from "../../form/field.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { LEAP_FIELDS } from "../../state/notes/play.ts";
import { PageElement } from "../../state/page.ts";
import { feelQuestion } from "../../work/feelQuestion.ts";
import { type LeapExperiment, leaps } from "../../work/leaps.ts";
import { sameToModel } from "../../work/sameToModel.ts";

/** Each way at each gap: some seconds. */
const RUNS = 40;

@customElement("annulus-slur-model")
export class SlurModel extends PageElement {
  @property({ attribute: false }) note!: ListenedNote;
  readonly #up = leaps();
  readonly #down = leaps();

  static override styles = [
    controls,
    sheetStyles,
    css`
      p {
        font-size: var(--type-14);
        max-width: 70ch;
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#up.stop();
    this.#down.stop();
  }

  override render() {
    const { change } = this.note;
    if (!change) return nothing;
    const [up, down] = [this.#up.value, this.#down.value];
    const { view } = this.page.store.parts;
    const refused = up.refused ?? down.refused;
    if (refused) return html`<p data-testid="no-model">${refused}</p>`;
    const shares = this.#shares();
    if (shares)
      return html`<p data-testid="beside-model">${besideSharesWords(besideShares(change, shares), shares, [change.from.gapMm, change.to.gapMm], this.#aim, view.unit)} ${NO_MODEL.slur}</p>`;
    const isAsked = up.progress !== null || down.progress !== null;
    return html`
      <p>${NO_MODEL.slur}</p>
      <div class="actions controls" role="status">
        ${
          isAsked
            ? html`<span>Modelled lips slur</span> <progress max="2" .value=${(up.progress ?? 1) + (down.progress ?? 1)} aria-label="Modelled slurs"></progress>`
            : html`<button type="button" data-testid="ask-slurs" @click=${this.#ask}>${icon("play")}Ask the model</button>`
        }
      </div>
    `;
  }

  readonly #ask = (): void => {
    const { partial, toPartial } = this.note;
    const [up, down] = [this.#experiment(partial, toPartial!), this.#experiment(toPartial!, partial)];
    if (up) void this.#up.start(up);
    if (down) void this.#down.start(down);
  };

  get #aim(): number {
    const { leap, unit } = this.page.store.parts.document.notes.play;
    return readField(LEAP_FIELDS.aim, leap.aim, unit).value ?? (LEAP_FIELDS.aim.usual as number);
  }

  #experiment(from: number, to: number): LeapExperiment | null {
    const { setup, referenceGapMm, lips, pressure } = feelQuestion(this.page.store.parts.document);
    const { change } = this.note;
    if (!change || !lips || !pressure) return null;
    const gapsMm = [change.from.gapMm, change.to.gapMm];
    const aimCents = this.#aim;
    return {
      setup,
      gapsMm,
      chosenGapMm: gapsMm[1],
      referenceGapMm,
      from,
      to,
      aimCents,
      runs: RUNS,
      lips,
      pressure,
    };
  }

  /** Once both ways have been played, at the gaps and on the setup that are shown. */
  #shares(): ModelShares | null {
    const { change, partial, toPartial } = this.note;
    const { setup } = this.page.store.parts.document;
    const [up, down] = [this.#up.value, this.#down.value];
    if (!change || !up.value || !down.value || !up.of || up.progress !== null || down.progress !== null)
      return null;
    if (!sameToModel(up.of.setup, setup) || up.of.aimCents !== this.#aim) return null;
    const at = (gapMm: number) => {
      const ways = [
        { tally: up.value!.get(gapMm), to: toPartial! },
        { tally: down.value!.get(gapMm), to: partial },
      ].flatMap(({ tally, to }) =>
        tally ? { runs: tally.runs, missed: tally.runs - (tally.landed.get(to) ?? 0) } : [],
      );
      if (ways.length < 2) return null;
      const [missed, runs] = [ways[0].missed + ways[1].missed, ways[0].runs + ways[1].runs];
      return { chance: missed / runs, interval: wilsonInterval(missed, runs) };
    };
    const [from, to] = [at(change.from.gapMm), at(change.to.gapMm)];
    return from && to && { from, to };
  }
}
