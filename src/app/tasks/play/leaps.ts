/** How often a leap from note to note lands wrong, at several gaps: an experiment with modelled lips that miss their aim. */

import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { type LeapData, leapFigure } from "../../../charts/plots/leapChart.ts";
import { PLAYED } from "../../../study/change/verdicts.ts";
import { missChance } from "../../../study/feel/leaps.ts";
import { percent } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { shownGaps } from "../../state/gapLimits.ts";
import type { LeapPart } from "../../state/notes/playNotes.ts";
import { openFeelWorker } from "../../work/feelConnection.ts";
import { type LeapExperiment, Leaps } from "../../work/feelLeaps.ts";
import { feelQuestion, LEAP, type Read, readField } from "../../work/feelQuestion.ts";
import { sameToModel } from "../../work/sameToModel.ts";
import { feelStyles } from "./feelStyles.ts";
import "../../chart/chartElement.ts";

const NOTES = Array.from({ length: PLAYED[1] - PLAYED[0] + 1 }, (_, i) => PLAYED[0] + i);
/** Gaps tried beside the reference and the chosen one. */
const STEPS = 4;

@customElement("annulus-leaps")
export class LeapsSection extends PageElement {
  readonly #leaps = new Leaps(openFeelWorker);
  @state() private typing = "";
  #data: LeapData | null = null;
  #drawn: unknown = null;

  static override styles = [
    controls,
    sheetStyles,
    feelStyles,
    css`
      .actions {
        align-items: center;
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leaps.stop();
  }

  override render() {
    const { progress, refused } = this.#leaps.value;
    const data = this.#shown();
    return html`
      <section aria-labelledby="leaps-title">
        <h2 id="leaps-title">How often a leap lands wrong</h2>
        <p class="words">
          The lips go from the middle of one note's slot to that of another's and miss it by a chance error. The oscillator says
          which note then sounds.
        </p>
        <div class="form" role="group" aria-label="The leap" @focusout=${this.#onLeave}>
          ${this.#note("from", "From note")} ${this.#note("to", "To note")}
          ${this.#entry("aim", "Error of aim, standard deviation", "cents")}
          ${this.#entry("runs", "Leaps at each gap", "")}
        </div>
        <div class="actions" role="status">
          ${
            progress === null
              ? html`
                  <button type="button" data-testid="start-leaps" ?disabled=${this.#experiment() === null} @click=${this.#start}>
                    ${icon("play")}Let it leap
                  </button>
                `
              : html`
                  <span>Leaping</span>
                  <progress max="1" .value=${progress} aria-label="Leaping"></progress>
                  <button type="button" data-testid="stop-leaps" @click=${() => this.#leaps.stop()}>${icon("stop")}Stop</button>
                `
          }
        </div>
        ${refused ? html`<p class="notice wrong" role="alert">${icon("warning")}<span>${refused}</span></p>` : nothing}
        ${
          data
            ? html`
                <p class="words" data-testid="leaps-finding">${inWords(data)}</p>
                <annulus-chart .figure=${leapFigure} .data=${data}></annulus-chart>
              `
            : html`<p class="small">Nothing has leapt yet with this instrument. A hundred leaps at each gap take about a minute.</p>`
        }
      </section>
    `;
  }

  #note(part: "from" | "to", label: string) {
    const read = this.#read(part);
    const chosen = "value" in read ? read.value : LEAP[part].usual;
    return html`
      <label>
        ${label}
        <select data-testid="leap-${part}" @change=${(event: Event) => this.#write(part, (event.target as HTMLSelectElement).value, true)}>
          ${NOTES.map((n) => html`<option value=${n} ?selected=${n === chosen}>${n}</option>`)}
        </select>
      </label>
    `;
  }

  #entry(part: "aim" | "runs", label: string, unit: string) {
    const read = this.#read(part);
    return html`
      <annulus-entry
        data-testid="leap-${part}"
        .label=${label}
        .text=${this.page.store.parts.document.notes.play.leap[part]}
        .unit=${unit}
        .hint=${`usually ${LEAP[part].usual}`}
        .problem=${this.typing !== part && "refused" in read ? read.refused : ""}
        @write=${({ detail }: WriteEvent) => this.#write(part, detail.text, detail.done)}
      ></annulus-entry>
    `;
  }

  #read(part: LeapPart): Read {
    return readField(this.page.store.parts.document.notes.play.leap[part], LEAP[part]);
  }

  #write(part: LeapPart, text: string, done: boolean): void {
    this.typing = done ? "" : part;
    const { play } = this.page.store.parts.document.notes;
    this.page.store.setNotes("play", { ...play, leap: { ...play.leap, [part]: text } }, { commit: done });
  }

  readonly #onLeave = (): void => {
    this.typing = "";
  };

  readonly #start = (): void => {
    const experiment = this.#experiment();
    if (experiment) void this.#leaps.start(experiment);
  };

  /** null while something typed cannot be read. */
  #experiment(): LeapExperiment | null {
    const { setup, gapMm, referenceGapMm, lips, pressure } = feelQuestion(this.page.store.parts.document);
    const [from, to, aim, runs] = (["from", "to", "aim", "runs"] as const).map((part) => this.#read(part));
    if (!("value" in from && "value" in to && "value" in aim && "value" in runs) || !lips || !pressure)
      return null;
    const { leastMm, mostMm } = shownGaps(setup);
    const even = Array.from({ length: STEPS + 1 }, (_, i) => leastMm + (i / STEPS) * (mostMm - leastMm));
    return {
      setup,
      gapsMm: [...new Set([gapMm, referenceGapMm, ...even])],
      chosenGapMm: gapMm,
      referenceGapMm,
      from: from.value,
      to: to.value,
      aimCents: aim.value,
      runs: runs.value,
      lips,
      pressure,
    };
  }

  /** What has leapt, while it is of this instrument; made once for each news of it. */
  #shown(): LeapData | null {
    const { experiment, tallies } = this.#leaps.value;
    const { setup } = this.page.store.parts.document;
    if (!experiment || tallies.size === 0 || !sameToModel(experiment.setup, setup)) return null;
    if (this.#drawn === tallies) return this.#data;
    this.#drawn = tallies;
    const { from, to, aimCents, chosenGapMm, referenceGapMm, gapsMm } = experiment;
    this.#data = {
      from,
      to,
      aimCents,
      chosenGapMm,
      referenceGapMm,
      domainMm: [Math.min(...gapsMm), Math.max(...gapsMm)],
      points: [...tallies]
        .map(([gapMm, tally]) => ({
          gapMm,
          runs: tally.runs,
          missed: tally.runs - (tally.landed.get(to) ?? 0),
          silent: tally.silent,
          ...missChance(tally, to),
        }))
        .sort((a, b) => a.gapMm - b.gapMm),
    };
    return this.#data;
  }
}

/** Whether so many leaps can tell the two gaps apart. */
function inWords({ points, chosenGapMm, referenceGapMm }: LeapData): string {
  const [chosen, reference] = [chosenGapMm, referenceGapMm].map((mm) =>
    points.find(({ gapMm }) => gapMm === mm),
  );
  if (!chosen || !reference) return "The chosen gap or the reference is still to come.";
  const of = ({ missed, runs, interval }: typeof chosen) =>
    `${missed} of ${runs} (${percent(interval[0])} to ${percent(interval[1])})`;
  if (chosenGapMm === referenceGapMm) return `At the chosen gap ${of(chosen)} landed wrong.`;
  const apart = chosen.interval[0] > reference.interval[1] || chosen.interval[1] < reference.interval[0];
  const finding = apart
    ? `the ${chosen.chance < reference.chance ? "chosen" : "reference"} gap lands better`
    : "so many leaps cannot tell the two gaps apart";
  return `Landed wrong: at the chosen gap ${of(chosen)}, at the reference ${of(reference)}: ${finding}.`;
}
