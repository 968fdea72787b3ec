/** A measurement held against the model of the chosen candidate: over its curve, peak by peak, and with a few unknowns fitted. */

import { html, nothing, type PropertyValues } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { FittedColumn } from "../../../../../workers/instrument/compare.ts";
import { instrumentOf } from "../../../../setup/instrumentOf.ts";
import { gapMm, type Setup } from "../../../../setup/setup.ts";
import { withBell } from "../../../../setup/withBell.ts";
import { UNKNOWNS, type UnknownName } from "../../../../study/measured/columnUnknowns.ts";
import type { LevelGuess } from "../../../../study/measured/level.ts";
import type { Measured, Overlay } from "../../../../study/measured/measured.ts";
import type { MeasuredImpedance } from "../../../../study/measured/measuredCsv.ts";
import { gapKindWords } from "../../../../words/gapKinds.ts";
import { levelWords } from "../../../../words/measured/levelWords.ts";
import { bothUnits } from "../../../../words/numbers.ts";
import { lateStyles } from "../../../chart/lateStyles.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { type Candidate, candidateNotes, changeCandidate, takeIn } from "../../../state/bench/candidates.ts";
import { compareForm } from "../../../state/notes/compare.ts";
import { MEASURED_FIELDS, type MeasuredNotes } from "../../../state/notes/measured.ts";
import { PageElement } from "../../../state/page.ts";
import { MeasuredWork } from "../../../work/measuredWork.ts";
import { addingStyles } from "../addingStyles.ts";
import "../../../chart/chartElement.ts";
import { deviationFigure } from "../../../../charts/plots/compare/deviationChart.ts";
import { measuredFigure } from "../../../../charts/plots/compare/measuredChart.ts";
import { warning } from "../../../shell/look/notice.ts";
import { workLine, workStyles } from "../../../shell/look/workLine.ts";
import { type FitAsked, readFitAsked, saidAsGuessed } from "../../../state/bench/measuredImpedance.ts";
import { estimatesTable, findings } from "./measuredFound.ts";
import { curvesOf, peaksTable, residualsOf } from "./measuredResiduals.ts";
import { measuredStyles } from "./measuredStyles.ts";

const CALLED: Readonly<Record<UnknownName, string>> = {
  gap: "gap",
  "leadpipe-entry": "leadpipe start diameter",
  "receiver-mouth": "receiver mouth diameter",
  "wall-loss": "wall-loss factor",
  temperature: "temperature",
};

@customElement("annulus-measured-fit")
export class MeasuredFit extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  readonly #work = new MeasuredWork();
  @property({ attribute: false }) from!: Candidate;
  /** The measurement as it was understood, all of it. */
  @property({ attribute: false }) whole!: MeasuredImpedance;
  /** The setup that was fitted, when it is to be fitted again as soon as another has taken its place here. */
  #fitAgainAfter: Setup | null = null;
  readonly #kept = new Map<string, { readonly of: readonly unknown[]; readonly made: unknown }>();

  static override styles = [controls, sheetStyles, addingStyles, lateStyles, workStyles, measuredStyles];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#work.close();
  }

  protected override updated(_: PropertyValues): void {
    const { measured } = this.#asked();
    if (!measured || this.#form.typing !== "") return;
    this.#work.lay(this.from.setup, measured);
    if (this.#fitAgainAfter === null || this.#fitAgainAfter === this.from.setup) return;
    this.#fitAgainAfter = null;
    this.#start();
  }

  override render() {
    const { measured: notes } = this.#form.notes;
    const asked = this.#asked();
    const laid = this.#work.laid.value;
    const refused = laid.refused ?? this.#work.fit.value.refused;
    const overlay = laid.refused === null ? laid.value : null;
    const { unit } = this.page.store.parts.view;
    const { number, name, setup } = this.from;
    return html`
      <div class="stack">
        <p>Compared with ${number} ${name}, highlighted, at its own gap of ${bothUnits(gapMm(setup), unit)}, ${gapKindWords(setup, gapMm(setup))}.</p>
        ${this.#entries(asked)}
        ${refused ? warning(refused, { role: "alert", testId: "overlay-refused" }) : nothing}
        ${overlay && laid.of ? html`<div class="stack ${laid.of.measured === asked.measured ? "" : "late"}">${this.#laid(laid.of.measured, overlay)}</div>` : nothing}
        ${overlay ? this.#fitting(notes, asked) : nothing}
      </div>
    `;
  }

  #laid(measured: Measured, overlay: Overlay) {
    const { value: fit } = this.#work.fit.value;
    const { thresholds } = this.page.store.parts.document.setup;
    return html`
      ${this.#level(overlay)}
      <annulus-chart .figure=${measuredFigure} .data=${this.#keep("curves", [measured, overlay, fit], () => curvesOf(measured, overlay, fit))}></annulus-chart>
      <div class="charts">
        ${(["cents", "heightDb"] as const).map((key) => {
          const data = this.#keep(key, [overlay, fit, thresholds], () =>
            residualsOf(key, overlay, fit, thresholds),
          );
          return html`
            <annulus-chart
              .figure=${deviationFigure({
                name: `measured-${key}`,
                label: data.title,
                about: "Measured less modelled, each peak read off both curves in the same way.",
                caption: () => "Within the hatched band the difference is too small to notice.",
              })}
              .data=${data}
            ></annulus-chart>
          `;
        })}
      </div>
      ${peaksTable(overlay, fit, instrumentOf(this.from.setup))}
    `;
  }

  /** A unit that was probably meant: one press reads the numbers so. */
  #level(overlay: Overlay) {
    const words = levelWords(overlay, this.whole.reading);
    const { guess } = overlay.level;
    return words && guess
      ? html`
          <div class="notice" data-testid="level-guess">
            ${icon("info")}
            <div class="stack">
              <p>${words}</p>
              <div class="actions controls">
                <button type="button" data-testid="level-read" @click=${() => this.#readAs(guess)}>
                  ${guess.read.scale === "relative" ? "Read as an unknown unit" : "Read it so"}
                </button>
              </div>
            </div>
          </div>
        `
      : nothing;
  }

  #readAs(guess: LevelGuess): void {
    const { said } = this.#form.notes.measured;
    this.#form.writeIn("measured", { said: saidAsGuessed(said, guess) });
  }

  #entries({ problems }: FitAsked) {
    return html`
      <div class="entries">
        ${(["from", "to", "noise"] as const).map((part) =>
          this.#form.entry(MEASURED_FIELDS[part], ["measured", part], problems[part], {
            testId: `measured-${part}`,
          }),
        )}
      </div>
    `;
  }

  #fitting(notes: MeasuredNotes, { problems }: FitAsked) {
    const { progress, step, value: fit } = this.#work.fit.value;
    return html`
      <h3 class=${fit ? "" : "asking"}>Fit what a gauge does not reach</h3>
      <fieldset class="asking">
        <legend>Unknown</legend>
        <div class="unknowns">
          ${UNKNOWNS.map(
            (name) => html`
              <label class="tick">
                <input type="checkbox" data-testid="unknown-${name}" .checked=${notes.unknowns.includes(name)} @change=${(event: Event) => this.#onUnknown(name, (event.target as HTMLInputElement).checked)} />
                ${CALLED[name]}
              </label>
            `,
          )}
        </div>
      </fieldset>
      <div class="actions work controls" role="status">
        ${
          progress === null
            ? html`<button type="button" class="main" data-testid="fit-start" ?disabled=${Object.keys(problems).length > 0} @click=${this.#start}>${icon("play")}Fit</button>
                <span class="muted">${problems.unknowns ?? ""}</span>`
            : workLine({
                doing:
                  step === null
                    ? "Fitting"
                    : `Step ${step.iteration}, ${step.scatterDb.toFixed(3)} dB left over`,
                label: "Fitting",
                share: null,
                stop: () => this.#work.fit.stop(),
                stopId: "fit-stop",
              })
        }
      </div>
      ${fit ? this.#found(fit) : nothing}
    `;
  }

  #found(fit: FittedColumn) {
    const { unit } = this.page.store.parts.view;
    const isOpen = this.from.number === 1;
    return html`
      <div class="stack" aria-live="polite" data-testid="fit-found">
        ${findings(fit)}
        ${
          fit.curved && fit.curved.told !== "plane"
            ? html`<div class="actions controls">
                <button type="button" class=${fit.curved.told === "curved" ? "main" : ""} data-testid="fit-curved" @click=${this.#fitCurved}>${icon("play")}Fit with curved fronts in the bell</button>
              </div>`
            : nothing
        }
        ${estimatesTable(fit, unit)}
        <div class="actions controls">
          <button type="button" data-testid="fit-candidate" @click=${() => this.#take(fit)}>${icon("plus")}Make it a candidate</button>
          ${isOpen ? html`<button type="button" data-testid="fit-take" @click=${() => this.#intoOpen(fit)}>${icon("check")}Take these into the open setup</button>` : nothing}
        </div>
      </div>
    `;
  }

  #asked(): FitAsked {
    const { measured } = this.#form.notes;
    const { from, to, noise, unknowns } = measured;
    return this.#keep("asked", [this.whole, from, to, noise, unknowns], () =>
      readFitAsked(measured, this.whole),
    );
  }

  #keep<T>(name: string, of: readonly unknown[], make: () => T): T {
    const last = this.#kept.get(name);
    if (last?.of.every((one, i) => one === of[i])) return last.made as T;
    const made = make();
    this.#kept.set(name, { of, made });
    return made;
  }

  #onUnknown(name: UnknownName, isOn: boolean): void {
    const { unknowns } = this.#form.notes.measured;
    this.#form.writeIn("measured", {
      unknowns: isOn ? [...unknowns, name] : unknowns.filter((one) => one !== name),
    });
  }

  readonly #start = (): void => {
    const { unknowns, noise } = this.#asked();
    void this.#work.startFit({ unknowns, noise });
  };

  /** The same fit, with the bell's fronts curved from now on. */
  readonly #fitCurved = (): void => {
    const { store } = this.page;
    this.#fitAgainAfter = this.from.setup;
    changeCandidate(store, this.from, withBell(this.from.setup, "multimodal"));
    store.say(
      "note",
      "The bell follows curved fronts now, here and everywhere. Undo brings back plane waves.",
    );
  };

  #origin({ estimates }: FittedColumn): string {
    const { name } = this.#form.notes.measured;
    return `fitted to ${name || "a measurement"}: ${estimates.map(({ unknown }) => CALLED[unknown.key]).join(", ")}`;
  }

  #take(fit: FittedColumn): void {
    const { store } = this.page;
    const count = this.#form.notes.candidates.filter(({ name }) => name.startsWith("Fitted")).length;
    const name = `Fitted ${count + 1}`;
    if (takeIn(store, [candidateNotes(name, this.#origin(fit).slice(0, 200), fit.setup)]))
      store.say("note", `${name} is among the candidates now. Undo takes it out.`);
  }

  #intoOpen(fit: FittedColumn): void {
    const { store } = this.page;
    store.setSetup(fit.setup);
    store.say("note", "What was fitted is in the open setup now. Undo brings back what was there.");
  }
}
