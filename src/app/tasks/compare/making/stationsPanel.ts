/** The chosen leadpipe as a mandrel is turned to it: diameters at even stations with tolerances, for the bench and as a file. */

import { css, html, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Table } from "../../../../charts/kit/drawing.ts";
import { inUnit } from "../../../../charts/kit/numbers.ts";
import { tableCsv } from "../../../../charts/kit/tableCsv.ts";
import { STATION_DEFAULTS } from "../../../../study/design/designDefaults.ts";
import type { MandrelStation } from "../../../../study/design/designStations.ts";
import type { LengthUnit } from "../../../../units/length.ts";
import { readField } from "../../../form/field.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { warning } from "../../../shell/look/notice.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { saveTableFile } from "../../../shell/tableFiles.ts";
import type { Candidate } from "../../../state/bench/candidates.ts";
import { compareForm, EVERY } from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";
import { openCompareWorker } from "../../../work/openWorkers.ts";
import { WorkerClient } from "../../../work/workerClient.ts";
import { addingStyles } from "../addingStyles.ts";

interface Answer {
  readonly of: Candidate["setup"];
  readonly everyMm: number;
  readonly stations: readonly MandrelStation[];
}

@customElement("annulus-stations")
export class StationsPanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  readonly #client = new WorkerClient({ connect: openCompareWorker });
  @property({ attribute: false }) from!: Candidate;
  @state() private answer: Answer | null = null;
  @state() private refused = "";
  @state() private isBusy = false;

  static override styles = [
    controls,
    sheetStyles,
    addingStyles,
    css`
      @media screen {
        .scroll {
          max-height: 24rem;
          overflow: auto;
        }
      }
      thead th {
        position: sticky;
        top: 0;
        background: var(--paper);
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#client.close();
  }

  /** Stations of another leadpipe are of no use. */
  protected override willUpdate(changed: PropertyValues): void {
    if (!changed.has("from") || this.answer?.of === this.from.setup) return;
    this.answer = null;
    this.refused = "";
  }

  /** With nothing worked out there is nothing to print. */
  protected override updated(): void {
    this.toggleAttribute("blank", this.answer === null);
  }

  override render() {
    const { number, name } = this.from;
    return html`
      <div class="stack">
        <p>
          ${number} ${name}. The tolerances are such that even if every station is off by its own, all in the worst way, no
          resonance moves by more than half of what is just noticeable.
        </p>
        <div class="actions controls entries">
          ${this.#form.entry(EVERY, ["design", "every"], this.#every.problem, { testId: "design-every" })}
        </div>
        <div class="actions controls">
          <button type="button" data-testid="stations-work" ?disabled=${this.isBusy} @click=${this.#work}>Work out the stations</button>
          ${this.answer ? html`<button type="button" data-testid="stations-save" @click=${this.#save}>${icon("save")}Save CSV</button>` : nothing}
        </div>
        ${this.refused ? warning(this.refused, { role: "alert" }) : nothing}
        ${this.answer ? this.#table(this.answer, this.#form.unit) : nothing}
      </div>
    `;
  }

  get #every() {
    return readField(EVERY, this.#form.notes.design.every, this.#form.unit);
  }

  #table({ stations }: Answer, unit: LengthUnit) {
    const digits = unit === "mm" ? 3 : 4;
    return html`
      <div class="scroll" tabindex="0" role="region" aria-label="Stations of the mandrel" data-testid="stations">
        <table>
          <thead>
            <tr>${["from the start", "diameter", "± on the diameter"].map((head) => html`<th scope="col" class="number">${head}, ${unit}</th>`)}</tr>
          </thead>
          <tbody>
            ${stations.map(
              ({ positionMm, diameterMm, toleranceMm }) => html`
                <tr>
                  <th scope="row" class="number">${inUnit(positionMm, unit).toFixed(unit === "mm" ? 2 : 3)}</th>
                  <td class="number">${inUnit(diameterMm, unit).toFixed(digits)}</td>
                  <td class="number">${inUnit(toleranceMm, unit).toFixed(digits)}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
    `;
  }

  readonly #work = async (): Promise<void> => {
    const { setup } = this.from;
    const everyMm = this.#every.value ?? STATION_DEFAULTS.everyMm;
    this.isBusy = true;
    const answer = await this.#client.ask(setup, (worker) => worker.stations({ everyMm }));
    this.isBusy = false;
    if (setup !== this.from.setup) return;
    this.refused = "refused" in answer ? answer.refused : "";
    this.answer = "refused" in answer ? null : { of: setup, everyMm, stations: answer };
  };

  readonly #save = (): Promise<void> => {
    const { unit } = this.page.store.parts.view;
    const table: Table = {
      columns: [`from the start (${unit})`, `diameter (${unit})`, `tolerance on the diameter (${unit})`],
      rows: this.answer!.stations.map(({ positionMm, diameterMm, toleranceMm }) => [
        Number(inUnit(positionMm, unit).toFixed(4)),
        Number(inUnit(diameterMm, unit).toFixed(5)),
        Number(inUnit(toleranceMm, unit).toPrecision(2)),
      ]),
    };
    return saveTableFile(tableCsv(table), "stations.csv", this.page.store);
  };
}
