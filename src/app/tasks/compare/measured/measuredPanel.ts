/** A measured impedance from a file or a spreadsheet: what it is taken for, to be overruled before it is held against the model. */

import { css, html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Reading } from "../../../../study/measured/measuredReading.ts";
import { readingWords } from "../../../../words/measured/readingWords.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { dropped } from "../../../shell/dropped.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { openTableFile } from "../../../shell/tableFiles.ts";
import type { Candidate } from "../../../state/bench/candidates.ts";
import { compareForm } from "../../../state/notes/compare.ts";
import { type MeasuredNotes, type MeasuredSaid, measuredPart } from "../../../state/notes/measured.ts";
import { PageElement } from "../../../state/page.ts";
import { openCompareWorker } from "../../../work/openWorkers.ts";
import { inOwnWorker } from "../../../work/workerClient.ts";
import { addingStyles } from "../addingStyles.ts";
import "./measuredFit.ts";
import { warning } from "../../../shell/look/notice.ts";
import {
  foundWords,
  isIdle,
  MEASURED_SAYABLE,
  type MeasuredReading,
  readMeasurement,
  tooLong,
} from "../../../state/bench/measuredImpedance.ts";
import { problemList } from "../problemList.ts";

const CALLED: Readonly<Record<MeasuredSaid, string>> = {
  form: "Columns",
  magnitude: "Magnitude",
  phase: "Phase",
  scale: "Impedance in",
  unit: "Multiple",
  hertz: "Frequency in",
  delimiter: "Column separator",
  decimal: "Decimal sign",
};
const INVENTED = "invented measurement";

@customElement("annulus-measured")
export class MeasuredPanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  /** Whose model it is held against: the chosen candidate. */
  @property({ attribute: false }) from!: Candidate;
  /** Why a file or an invented one did not come. */
  @state() private refused = "";
  #read: { readonly text: string; readonly said: object; readonly reading: MeasuredReading | null } | null =
    null;

  static override styles = [
    controls,
    sheetStyles,
    addingStyles,
    css`
      @media print {
        .adding {
          display: none;
        }
      }
    `,
  ];

  /** What is not held against the model yet is nothing to print. */
  protected override updated(): void {
    this.toggleAttribute("blank", !this.#form.notes.measured.isTaken);
  }

  override render() {
    const { measured } = this.#form.notes;
    const reading = this.#reading(measured);
    const whole = reading && "measured" in reading ? reading.measured : null;
    return html`
      <div class="stack">
        <div class="adding" @drop=${this.#onDrop}>
          <div class="stack">
            <label for="text">
              Frequency and impedance, or its magnitude alone, line by line${measured.name ? html`: <b>${measured.name}</b>` : nothing}. Paste them here, open a
              file, or drop one
            </label>
            ${this.#form.textarea(["measured", "text"], {
              testId: "measured-text",
              placeholder: "frequency (Hz),magnitude (MPa s/m3),phase (deg)",
              write: this.#onText,
            })}
            <div class="actions controls">
              <button type="button" data-testid="measured-open" @click=${this.#open}>${icon("open")}Open CSV</button>
              <button type="button" data-testid="measured-invent" @click=${this.#invent}>An invented measurement</button>
              <button type="button" class="plain" ?disabled=${measured.text === ""} @click=${() => this.#form.writeIn("measured", { ...measuredPart.empty, unknowns: measured.unknowns })}>Clear</button>
            </div>
            ${this.refused ? warning(this.refused, { role: "alert", testId: "measured-refused" }) : nothing}
          </div>
          <div class="stack" aria-live="polite" data-testid="measured-found">${this.#found(measured, reading)}</div>
        </div>
        ${
          measured.isTaken && whole
            ? html`<annulus-measured-fit .from=${this.from} .whole=${whole}></annulus-measured-fit>`
            : nothing
        }
      </div>
    `;
  }

  #found(measured: MeasuredNotes, reading: MeasuredReading | null) {
    if (!reading)
      return html`<p class="muted">How the columns are read is shown here before they are compared with the model.</p>`;
    const problems = "problems" in reading && this.#form.typing !== "measured.text" ? reading.problems : [];
    const whole = "measured" in reading ? reading.measured : null;
    return html`
      <h3>Understood as</h3>
      ${whole ? html`<p>${readingWords(whole)}</p>` : nothing}
      <div class="readings">
        ${(Object.keys(CALLED) as MeasuredSaid[]).map((name) => this.#choice(name, measured, whole?.reading ?? null))}
      </div>
      ${problemList(problems, "Some lines cannot be read.", "measured-problems")}
      <div class="actions">
        ${
          measured.isTaken && whole
            ? html`<p class="muted">Compared with the model below; what you change above counts at once.</p>`
            : html`<button type="button" class="main" data-testid="measured-take" ?disabled=${!whole} @click=${() => this.#form.writeIn("measured", { isTaken: true })}>${icon("check")}Compare it with the model</button>`
        }
      </div>
    `;
  }

  #choice(name: MeasuredSaid, { said }: MeasuredNotes, found: Reading | null) {
    const asFound = found
      ? isIdle(name, found)
        ? "plays no part"
        : `${said[name] === "" ? "as found: " : "found anew"}${said[name] === "" ? foundWords(name, found) : ""}`
      : "to be found";
    const sayable = MEASURED_SAYABLE[name].map(([value, words]) => [value, words] as const);
    const isOther = said[name] !== "" && found !== null && !sayable.some(([value]) => value === said[name]);
    const other = isOther ? [[said[name], foundWords(name, found)] as const] : [];
    return this.#form.choice(
      ["measured", "said", name],
      CALLED[name],
      [["", asFound], ...sayable, ...other],
      {
        testId: `measured-${name}`,
        reason: said[name] === "" ? "" : "as you said",
      },
    );
  }

  #reading(measured: MeasuredNotes): MeasuredReading | null {
    const { text, said } = measured;
    if (this.#read?.text !== text || this.#read.said !== said)
      this.#read = { text, said, reading: readMeasurement(measured) };
    return this.#read.reading;
  }

  /** Another measurement is to be understood anew. */
  #bring(text: string, name: string): void {
    this.refused = tooLong(text.length) ?? "";
    if (this.refused) return;
    this.#form.writeIn("measured", { text, name, said: measuredPart.empty.said, isTaken: false });
  }

  readonly #onText = (text: string, options: { readonly commit: boolean }): void => {
    this.refused = tooLong(text.length) ?? "";
    if (!this.refused) this.#form.writeIn("measured", { text, name: "", isTaken: false }, options);
  };

  readonly #open = async (): Promise<void> => {
    const file = await openTableFile(this.page.store);
    if (file) this.#bring(file.text, file.name);
  };

  /** Here a file is a measurement, not a setup. */
  readonly #onDrop = async (event: DragEvent): Promise<void> => {
    const [file] = dropped(event);
    if (file) this.#bring(await file.text(), file.name);
  };

  readonly #invent = async (): Promise<void> => {
    const { setup } = this.from;
    const answer = await inOwnWorker({ connect: openCompareWorker }, (client) =>
      client.ask(setup, (worker) => worker.inventMeasurement()),
    );
    if ("refused" in answer) {
      this.refused = answer.refused;
      return;
    }
    this.#bring(answer.text, INVENTED);
    this.page.store.say(
      "note",
      "Invented: nobody has measured this. Its first lines say what it was made from.",
    );
  };
}
