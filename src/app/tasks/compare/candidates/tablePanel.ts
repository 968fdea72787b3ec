/** A bore table from a spreadsheet or a file: what it is taken for, with the reasons, to be overruled before it is taken in. */

import { html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import type { BoreTable } from "../../../../setup/bore/boreTable.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import { bothUnits } from "../../../../words/numbers.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { dropped } from "../../../shell/dropped.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { openTableFile } from "../../../shell/tableFiles.ts";
import { readTable, SAYABLE, type TableReading } from "../../../state/bench/boreTable.ts";
import { candidateNotes, takeIn } from "../../../state/bench/candidates.ts";
import {
  CANDIDATE_NAME,
  compareForm,
  TABLE_PARTS,
  type TableNotes,
  type TableSaid,
  tablePart,
} from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";
import type { Document } from "../../../state/state.ts";
import { addingStyles } from "../addingStyles.ts";
import { problemList } from "../problemList.ts";

const CALLED: Readonly<Record<TableSaid, string>> = {
  unit: "Unit",
  measure: "Bore given as",
  direction: "Order",
  separator: "Column separator",
  decimal: "Decimal sign",
  swapped: "Columns",
};

const PARTS = TABLE_PARTS.map((part) => [part, part] as const);

@customElement("annulus-bore-table")
export class TablePanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  #read: {
    readonly of: TableNotes;
    readonly in: Document["setup"];
    readonly gapMm: number;
    readonly reading: TableReading | null;
  } | null = null;

  static override styles = [controls, sheetStyles, addingStyles];

  override render() {
    const { table } = this.#form.notes;
    const reading = this.#reading(table);
    return html`
      <div class="adding" @drop=${this.#onDrop}>
        <div class="stack">
          <div class="row">
            ${this.#form.choice(["table", "part"], "Bore of the", PARTS, { testId: "table-part" })}
            ${this.#form.entry(CANDIDATE_NAME, ["table", "name"], "", { testId: "table-name" })}
          </div>
          <label for="text">Two columns, position and bore; paste them here, open a file, or drop one</label>
          ${this.#form.textarea(["table", "text"], { testId: "table-text", describedBy: "found" })}
          <div class="actions">
            <button type="button" data-testid="table-open" @click=${this.#open}>${icon("open")}Open CSV</button>
            <button type="button" class="plain" ?disabled=${table.text === ""} @click=${() => this.#form.writeIn("table", { text: "", said: tablePart.empty.said })}>Clear</button>
          </div>
        </div>
        <div class="stack" id="found" aria-live="polite" data-testid="table-found">${this.#found(table, reading)}</div>
      </div>
    `;
  }

  #found(table: TableNotes, reading: TableReading | null) {
    if (!reading)
      return html`<p class="muted">How the table is read is shown here, with the reasons, before it is added.</p>`;
    const { unit } = this.#form;
    const shown = (diameterMm: number) => formatLength(diameterMm, unit, unit === "mm" ? 3 : 4);
    const found = reading.table;
    const problems = "problems" in reading && this.#form.typing !== "table.text" ? reading.problems : [];
    return html`
      <h3>Understood as</h3>
      ${
        found
          ? html`<p>${found.rows} rows, ${bothUnits(found.lengthMm, unit)} long, diameter ${shown(found.smallestMm)} to ${shown(found.largestMm)}.</p>`
          : nothing
      }
      <div class="readings">${(Object.keys(CALLED) as TableSaid[]).map((name) => this.#choice(name, table, found))}</div>
      ${problemList(problems, `Not added: ${found ? "it makes no instrument." : "some lines cannot be read."}`, "table-problems")}
      <div class="actions">
        <button type="button" class="main" data-testid="table-take" ?disabled=${!("setup" in reading)} @click=${this.#take}>${icon("plus")}Add it</button>
      </div>
    `;
  }

  #choice(name: TableSaid, { said }: TableNotes, found: BoreTable | null) {
    const reading = found && foundIn(found, name);
    const asFound =
      name === "swapped" ? "position first" : reading ? `as found: ${reading.value}` : "to be found";
    const words = (value: string) => (name === "swapped" ? "bore first, position second" : value);
    const sayable = SAYABLE[name].map((value) => [value, words(value)] as const);
    return this.#form.choice(["table", "said", name], CALLED[name], [["", asFound], ...sayable], {
      testId: `table-${name}`,
      reason: said[name] === "" ? (reading?.reason ?? "") : "as you said",
    });
  }

  #reading(table: TableNotes): TableReading | null {
    const { document } = this.page.store.state;
    const last = this.#read;
    if (last?.of === table && last.in === document.setup && last.gapMm === document.gapMm)
      return last.reading;
    const reading = readTable(table, document.setup);
    this.#read = { of: table, in: document.setup, gapMm: document.gapMm, reading };
    return reading;
  }

  readonly #open = async (): Promise<void> => {
    const file = await openTableFile(this.page.store);
    if (file) this.#bring(file.text, file.name);
  };

  #bring(text: string, fileName: string): void {
    const name = this.#form.notes.table.name || fileName.replace(/\.\w+$/, "");
    this.#form.writeIn("table", { text, said: tablePart.empty.said, name });
  }

  /** Here a file is a table, not a setup. */
  readonly #onDrop = async (event: DragEvent): Promise<void> => {
    const [file] = dropped(event);
    if (file) this.#bring(await file.text(), file.name);
  };

  readonly #take = (): void => {
    const { store } = this.page;
    const { table } = this.#form.notes;
    const reading = this.#reading(table);
    if (!reading || !("setup" in reading)) return;
    const { unit, measure, rows } = reading.table;
    const origin = `${table.part} from a table: ${rows} rows, ${measure.value} in ${unit.value}`;
    const { name } = reading.setup;
    if (
      takeIn(store, [candidateNotes(name, origin, reading.setup)], {
        table: { ...tablePart.empty, part: table.part },
      })
    )
      store.say("note", `${name} is added.`);
  };
}

/** What a table was taken for, and why. */
function foundIn(
  table: BoreTable,
  name: TableSaid,
): { readonly value: string; readonly reason: string } | null {
  if (name === "swapped") return null;
  const found = table[name];
  if (typeof found === "string") return { value: found, reason: "" };
  return { value: found.value, reason: found.isGuess ? `a guess: ${found.reason}` : found.reason };
}
