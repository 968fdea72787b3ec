/** The sheet on which a technician measures the gap: readings as typed, the gap and its uncertainty at once, how it is done. */

import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { gapMm } from "../../../setup/setup.ts";
import { plusMinus } from "../../../units/uncertainLength.ts";
import { problemText } from "../../form/setup/edits.ts";
import { controls } from "../../shell/look/controls.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import { chartFileName, saveCsv } from "../../chart/chartFile.ts";
import type { Entry } from "../../form/entry.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { type LengthName, type MeasureNotes, measureForm } from "../../state/notes/measure.ts";
import { formStyles } from "./formStyles.ts";
import "../../chart/chartElement.ts";
import { gapIntervalFigure } from "../../../charts/plots/bench/gapIntervalChart.ts";
import { readingsFigure } from "../../../charts/plots/bench/readingsChart.ts";
import "./guide.ts";
import {
  expandedGapMm,
  type Measurement,
  measuredLength,
  outlyingRow,
  readMeasurement,
} from "../../state/bench/measurement.ts";
import { lengthReadings } from "./lengthReadings.ts";
import { measureStyles } from "./measureStyles.ts";
import { measureTable } from "./measureTable.ts";
import { readingsForm } from "./readingsForm.ts";
import { gapValue, resultDetails, spokenGap } from "./resultPanel.ts";
import { toolForm } from "./toolForm.ts";
import { comparedWithSetup, setInWords, withMeasuredGap } from "./useGap.ts";

@customElement("annulus-measure")
export class Measure extends PageElement {
  static override styles = [controls, sheetStyles, measureStyles, formStyles];
  readonly #form = new NotesForm(this, "measure", measureForm);
  /** Why this measurement was refused by the setup. */
  @state() private refusal: { readonly of: Measurement; readonly text: string } | null = null;
  #read: Measurement | null = null;
  #readFrom: MeasureNotes | null = null;

  override render() {
    const { document } = this.page.store.parts;
    const read = this.#measurement();
    const { measured, unit } = read;
    return html`
      <main @keydown=${this.#onKey}>
        <div class="intro">
          <h2>Measure the gap</h2>
          <p>Gap = receiver depth − insertion, both from the receiver's face. Nothing seen from outside goes into it.</p>
        </div>
        ${gapValue(read, measured ? comparedWithSetup(measured, document.setup, unit) : "")}
        <section class="form stack" aria-label="Readings and tools">
          <div class="lengths">${this.#readings("depth")}${this.#readings("insertion")}</div>
          <p class="how">Type lengths as ${unit === "mm" ? "24.54, 0.966 in" : "0.966, 24.54 mm"} or 31/32 in. Enter goes to the next row, from an empty row to the next length.</p>
          ${toolForm(this.#form, read.toolProblems)}
        </section>
        ${resultDetails(read, {
          refusal: this.refusal?.of === read ? this.refusal.text : "",
          isInSetup: measured !== undefined && Math.abs(measured.gapMm - gapMm(document.setup)) < 1e-6,
          use: this.#use,
          save: this.#save,
        })}
        ${
          measured
            ? html`
                <section class="charts columns" aria-label="The readings drawn">
                  <annulus-chart .figure=${readingsFigure} .data=${lengthReadings(read, measured)}></annulus-chart>
                  <annulus-chart
                    .figure=${gapIntervalFigure}
                    .data=${{ gapMm: measured.gapMm, expandedMm: expandedGapMm(measured), setupGapMm: gapMm(document.setup) }}
                  ></annulus-chart>
                </section>
              `
            : nothing
        }
        <annulus-measure-guide></annulus-measure-guide>
        <p class="unseen" role="status">${this.#form.typing ? nothing : spokenGap(read)}</p>
      </main>
    `;
  }

  /** Read anew only when something else is written. */
  #measurement(): Measurement {
    const { notes } = this.#form;
    if (!this.#read || this.#readFrom !== notes) {
      this.#readFrom = notes;
      this.#read = readMeasurement(notes);
    }
    return this.#read;
  }

  #readings(length: LengthName) {
    const read = this.#measurement();
    const { measured, unit } = read;
    const mean = measured && measuredLength(measured, length);
    return readingsForm({
      form: this.#form,
      length,
      rows: read[length],
      apart: outlyingRow(read, length),
      mean: mean ? `mean ${plusMinus(mean.lengthMm, mean.expandedMm, unit)}` : "",
      remove: (row) => void this.#remove(length, row),
    });
  }

  async #remove(length: LengthName, row: number): Promise<void> {
    this.#form.remove([length, row]);
    await this.updateComplete;
    this.#entries()
      .find((entry) => entry.dataset.field === `${length}.${row}`)
      ?.focus();
  }

  #entries(): Entry[] {
    return [...this.renderRoot.querySelectorAll("annulus-entry")] as Entry[];
  }

  /** Enter goes on: to the next entry, from an empty reading to the next group. */
  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.key !== "Enter" || !(event.target as Element).matches("annulus-entry")) return;
    void this.#goOn(event.target as Entry);
  };

  async #goOn(from: Entry): Promise<void> {
    // the row that what was just typed makes may still be due
    if (this.isUpdatePending) this.performUpdate();
    const entries = this.#entries();
    const after = entries.slice(entries.indexOf(from) + 1);
    const next =
      from.text.trim() === "" ? after.find(({ dataset }) => dataset.group !== from.dataset.group) : after[0];
    await next?.updateComplete;
    next?.focus();
  }

  readonly #use = (): void => {
    const { store } = this.page;
    const { parts: shown } = store;
    const read = this.#measurement();
    if (!read.measured) return;
    const outcome = withMeasuredGap(shown.document.setup, read.measured);
    if ("problems" in outcome) {
      this.refusal = {
        of: read,
        text: `The setup cannot have this gap. ${problemText(outcome.problems, "")}.`,
      };
      return;
    }
    this.refusal = null;
    // the shank goes there too, and changes are counted from there; all are one step
    store.setSetup(outcome.setup, { commit: false });
    store.setReference(gapMm(outcome.setup), { commit: false });
    store.setGap(gapMm(outcome.setup));
    store.say("note", setInWords(read.measured, read.unit), {
      label: "See it in Explore",
      accept: () => this.page.router.go("explore"),
    });
  };

  readonly #save = (): void => {
    const { document } = this.page.store.parts;
    saveCsv(
      measureTable(this.#measurement(), this.#form.notes),
      chartFileName(document.setup, "measured-gap"),
    );
  };
}
