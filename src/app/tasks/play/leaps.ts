/** How often a slur from note to note misses, at several gaps: an experiment with modelled lips that miss their aim. */

import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { type LeapData, leapFigure } from "../../../charts/plots/leapChart.ts";
import { shownGaps } from "../../../setup/gapLimits.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { isSameGap } from "../../../setup/setup.ts";
import { PLAYED } from "../../../study/change/verdicts.ts";
import { missChance } from "../../../study/feel/leaps.ts";
import { noteText } from "../../../words/instruments.ts";
import { percent } from "../../../words/numbers.ts";
import { readField, readFields } from "../../form/field.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { LEAP_FIELDS, playForm } from "../../state/notes/play.ts";
import { PageElement } from "../../state/page.ts";
import { feelQuestion } from "../../work/feelQuestion.ts";
import { type LeapExperiment, leaps } from "../../work/leaps.ts";
import { sameToModel } from "../../work/sameToModel.ts";
import { feelStyles } from "./feelStyles.ts";
import "../../chart/chartElement.ts";
import { warning } from "../../shell/look/notice.ts";
import { workLine } from "../../shell/look/workLine.ts";

const NOTES = Array.from({ length: PLAYED[1] - PLAYED[0] + 1 }, (_, i) => PLAYED[0] + i);
/** Gaps tried beside the reference and the chosen one. */
const STEPS = 4;

@customElement("annulus-leaps")
export class LeapsSection extends PageElement {
  readonly #leaps = leaps();
  readonly #form = new NotesForm(this, "play", playForm);
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
    const { problems } = this.#read();
    return html`
      <section aria-labelledby="leaps-title">
        <h2 id="leaps-title">How often a slur misses</h2>
        <p class="words">
          The lips go from the middle of one note's slot to that of another's and miss it by a chance error. The oscillator says
          which note then sounds.
        </p>
        <div class="form" role="group" aria-label="The slur">
          ${this.#note("from")} ${this.#note("to")}
          ${(["aim", "runs"] as const).map((part) => this.#form.entry(LEAP_FIELDS[part], ["leap", part], problems[part], { testId: `leap-${part}` }))}
        </div>
        <div class="actions" role="status">
          ${
            progress === null
              ? html`
                  <button type="button" data-testid="start-leaps" ?disabled=${this.#experiment() === null} @click=${this.#start}>
                    ${icon("play")}Run slurs
                  </button>
                `
              : workLine({
                  doing: "Running slurs",
                  share: progress,
                  stop: () => this.#leaps.stop(),
                  stopId: "stop-leaps",
                })
          }
        </div>
        ${refused ? warning(refused, { role: "alert" }) : nothing}
        ${
          data
            ? html`
                <p class="words" data-testid="leaps-finding">${inWords(data)}</p>
                <annulus-chart .figure=${leapFigure} .data=${data}></annulus-chart>
              `
            : html`<p class="small">No slur has been run yet with this instrument. A hundred at each gap take about a minute.</p>`
        }
      </section>
    `;
  }

  #note(part: "from" | "to") {
    const { leap, unit } = this.#form.notes;
    const { label, usual } = LEAP_FIELDS[part];
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const chosen = readField(LEAP_FIELDS[part], leap[part], unit).value ?? usual;
    const choose = (event: Event) =>
      this.#form.write({
        leap: { ...this.#form.notes.leap, [part]: (event.target as HTMLSelectElement).value },
      });
    return html`
      <label>
        ${label}
        <select data-testid="leap-${part}" @change=${choose}>
          ${NOTES.map((n) => html`<option value=${n} ?selected=${n === chosen}>${noteText(n, instrument)}</option>`)}
        </select>
      </label>
    `;
  }

  #read() {
    const { leap, unit } = this.#form.notes;
    return readFields(LEAP_FIELDS, leap, unit);
  }

  readonly #start = (): void => {
    const experiment = this.#experiment();
    if (experiment) void this.#leaps.start(experiment);
  };

  /** null while something typed cannot be read. */
  #experiment(): LeapExperiment | null {
    const { setup, gapMm, referenceGapMm, lips, pressure } = feelQuestion(this.page.store.parts.document);
    const { from, to, aim, runs } = this.#read().values;
    if (from === undefined || to === undefined || aim === undefined || runs === undefined) return null;
    if (!lips || !pressure) return null;
    const { leastMm, mostMm } = shownGaps(setup);
    const even = Array.from({ length: STEPS + 1 }, (_, i) => leastMm + (i / STEPS) * (mostMm - leastMm));
    return {
      setup,
      gapsMm: [...new Set([gapMm, referenceGapMm, ...even])],
      chosenGapMm: gapMm,
      referenceGapMm,
      from,
      to,
      aimCents: aim,
      runs,
      lips,
      pressure,
    };
  }

  /** What has leapt, while it is of this instrument; made once for each news of it. */
  #shown(): LeapData | null {
    const { asked: experiment, step: tallies } = this.#leaps.value;
    const { setup } = this.page.store.parts.document;
    if (!experiment || !tallies || tallies.size === 0 || !sameToModel(experiment.setup, setup)) return null;
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
  if (!chosen || !reference) return "One of the two gaps is still to come.";
  const of = ({ missed, runs, interval }: typeof chosen) =>
    `${missed} of ${runs} (${percent(interval[0])} to ${percent(interval[1])})`;
  if (isSameGap(chosenGapMm, referenceGapMm)) return `At the what-if gap ${of(chosen)} missed.`;
  const apart = chosen.interval[0] > reference.interval[1] || chosen.interval[1] < reference.interval[0];
  const finding = apart
    ? `the ${chosen.chance < reference.chance ? "what-if gap" : "gap compared with"} misses less`
    : "so many slurs cannot tell the two gaps apart";
  return `Missed: at the what-if gap ${of(chosen)}, at the one compared with ${of(reference)}: ${finding}.`;
}
