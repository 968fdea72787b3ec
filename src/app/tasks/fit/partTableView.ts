/** A table of parts to type in: a row a part, a cell a dimension or its uncertainty; from a file or the clipboard, and to a file. */

import { html, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { dimensionName, isTaper } from "../../../bench/fit/fitDimensions.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import { otherUnitAnswer, otherUnitQuestion } from "../../../words/otherUnit.ts";
import type { Entry, WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { openTableFile, saveTableFile } from "../../shell/tableFiles.ts";
import { MOST_PARTS, type PartNotes } from "../../state/notes/fit.ts";
import type { ChangeOptions } from "../../state/store.ts";
import type { ReadRow } from "./fitReading.ts";
import { otherUnits } from "./otherUnits.ts";
import { partTableStyles } from "./partTableStyles.ts";
import { type AnyPart, type PartKind, partTables } from "./partTables.ts";
import { readTableText } from "./tableText.ts";
import { cellsOf, freshName, type PartCell, textAt, typedPart, withText } from "./typedPart.ts";

/** Further problems are counted: a wrong separator makes one of every line. */
const MOST_SHOWN = 8;

/** Made to the table as it is by then. */
export type PartsChange = (parts: readonly PartNotes[]) => readonly PartNotes[];

interface Report {
  readonly text: string;
  readonly problems: readonly string[];
  /** The table it speaks of; with another one it is of no use. */
  readonly of: readonly PartNotes[];
}

@customElement("annulus-part-table")
export class PartTableView extends PageElement {
  static override styles = [controls, sheetStyles, partTableStyles];

  @property() kind: PartKind = "mouthpieces";
  @property({ attribute: false }) parts: readonly PartNotes[] = [];
  /** What the rows are read as. */
  @property({ attribute: false }) rows: readonly ReadRow[] = [];
  @property() unit: LengthUnit = "mm";
  /** The part of the open setup, to begin with. */
  @property({ attribute: false }) own!: AnyPart;
  @property({ attribute: false }) write!: (change: PartsChange, options?: ChangeOptions) => void;
  @state() private report: Report | null = null;
  /** The cell under the hand: what is wrong with it is said when it is done. */
  @state() private typing = "";
  /** The row to go to once it is drawn. */
  #wanted: number | null = null;

  override render() {
    const { dimensions, one, kind } = partTables[this.kind];
    const cells = cellsOf(dimensions);
    return html`
      <h3 id="title">${kind === "mouthpieces" ? "Mouthpieces" : "Instruments"}</h3>
      ${
        this.parts.length > 0
          ? html`
              <div class="scroll" @keydown=${this.#onKey} @paste=${this.#onPaste}>
                <table aria-labelledby="title">
                  <thead>
                    <tr>
                      <th scope="col" class="name">name</th>
                      ${dimensions.map(
                        (dimension) => html`
                          <th scope="col">${dimensionName[dimension]}${isTaper(dimension) ? nothing : html` <span class="muted">(${this.unit})</span>`}</th>
                          <th scope="col"><abbr title="standard uncertainty">u</abbr></th>
                        `,
                      )}
                      <td></td>
                    </tr>
                  </thead>
                  <tbody>${this.parts.map((part, row) => this.#row(part, row, cells))}</tbody>
                </table>
              </div>
            `
          : html`<p class="muted">No ${kind} yet.</p>`
      }
      <div class="actions controls">
        <button type="button" data-testid="add-${one}" ?disabled=${this.#isFull} @click=${() => this.#add(this.#blank)}>
          ${icon("plus")}Add a row
        </button>
        <button type="button" ?disabled=${this.#isFull} @click=${() => this.#add(this.own)}>Add this setup's</button>
        <button type="button" data-testid="open-${kind}" @click=${this.#open}>${icon("open")}Open CSV</button>
        <button type="button" data-testid="save-${kind}" ?disabled=${this.parts.length === 0} @click=${this.#save}>
          ${icon("save")}Save CSV
        </button>
      </div>
      ${this.#report()} ${this.#otherUnits(cells)}
    `;
  }

  /** A number that fits the other unit better is asked about when the hand has left it. */
  #otherUnits(cells: readonly PartCell[]) {
    return otherUnits(this.parts, cells, this.unit)
      .filter(({ row, cell }) => this.typing !== `${row} ${cell.key}`)
      .map(
        ({ row, cell, typed, found }) => html`
          <div class="notice controls" data-testid="other-unit" role="status">
            ${icon("info")}
            <div>
              <p>${this.#called(this.parts[row], row)}, ${cell.title}: ${otherUnitQuestion(typed, this.unit, found)}</p>
              <button type="button" @click=${() => this.#write(row, cell, found.text, true)}>${otherUnitAnswer(found)}</button>
            </div>
          </div>
        `,
      );
  }

  protected override updated(changed: PropertyValues): void {
    if (this.#wanted === null || !changed.has("parts")) return;
    const entry = this.#entryAt(this.#wanted, 0);
    this.#wanted = null;
    void entry?.updateComplete.then(() => entry.focus());
  }

  #row(part: PartNotes, row: number, cells: readonly PartCell[]) {
    const called = this.#called(part, row);
    const problems = this.rows[row]?.problems ?? {};
    return html`
      <tr>
        ${cells.map((cell, column) => {
          const problem = this.typing === `${row} ${cell.key}` ? "" : (problems[cell.key] ?? "");
          return html`
            <td class="${cell.kind} ${problem ? "wrong" : ""}">
              <annulus-entry
                bare
                data-row=${row}
                data-column=${column}
                .label=${`${called}: ${cell.title}`}
                .text=${textAt(part, cell)}
                .problem=${problem}
                @write=${(event: WriteEvent) => this.#onWrite(event, row, cell)}
              ></annulus-entry>
            </td>
          `;
        })}
        <td class="remove controls">
          <button type="button" class="plain square" aria-label="Remove ${called}" title="Remove ${called}" @click=${() => this.#remove(row)}>
            ${icon("xmark")}
          </button>
        </td>
      </tr>
    `;
  }

  #report() {
    const report = this.report?.of === this.parts ? this.report : null;
    const more = report ? report.problems.length - MOST_SHOWN : 0;
    return html`
      <div role="status">
        ${
          report
            ? html`
                <div class="notice ${report.problems.length > 0 ? "wrong" : ""}" data-testid="report-${this.kind}">
                  ${icon(report.problems.length > 0 ? "warning" : "info")}
                  <div>
                    <p>${report.text}</p>
                    ${report.problems.length > 0 ? html`<ul>${report.problems.slice(0, MOST_SHOWN).map((problem) => html`<li>${problem}</li>`)}</ul>` : nothing}
                    ${more > 0 ? html`<p>And ${more} more.</p>` : nothing}
                  </div>
                </div>
              `
            : nothing
        }
      </div>
    `;
  }

  #called = (part: PartNotes, row: number): string =>
    part.name.trim() || `${partTables[this.kind].one} ${row + 1}`;

  #onWrite({ detail: { text, done } }: WriteEvent, row: number, cell: PartCell): void {
    this.#write(row, cell, text, done);
  }

  #write(row: number, cell: PartCell, text: string, done: boolean): void {
    this.typing = done ? "" : `${row} ${cell.key}`;
    this.write((parts) => parts.map((part, i) => (i === row ? withText(part, cell, text) : part)), {
      commit: done,
    });
  }

  get #isFull(): boolean {
    return this.parts.length >= MOST_PARTS;
  }

  get #blank(): AnyPart {
    const { one } = partTables[this.kind];
    return { name: `New ${one}`, dimensions: {}, uncertainties: {} };
  }

  #add(part: AnyPart): void {
    const typed = typedPart(part, this.unit);
    this.#wanted = this.parts.length;
    this.write((parts) => [...parts, { ...typed, name: freshName(typed.name, parts) }]);
  }

  #remove(row: number): void {
    this.#wanted = Math.max(0, Math.min(row, this.parts.length - 2));
    this.write((parts) => parts.toSpliced(row, 1));
  }

  readonly #open = async (): Promise<void> => {
    const file = await openTableFile(this.page.store);
    if (file) this.#use(file.text, file.name);
  };

  /** One undo step for a good table; a refused one changes nothing. */
  #use(text: string, source: string): void {
    const read = readTableText(text, source, partTables[this.kind], this.unit);
    if ("problems" in read) {
      const text = `${source} was not taken; the table stays as it was.`;
      this.report = { text, problems: read.problems, of: this.parts };
      return;
    }
    this.report = { text: read.understood, problems: [], of: read.parts };
    this.write(() => read.parts);
  }

  readonly #save = (): Promise<void> => {
    const wrong = this.rows.reduce((sum, { problems }) => sum + Object.keys(problems).length, 0);
    const remark =
      wrong > 0
        ? ` ${wrong} ${wrong === 1 ? "cell is" : "cells are"} wrong: what cannot be read is left empty in the file.`
        : "";
    const csv = partTables[this.kind].csv(this.rows.flatMap(({ part }) => part ?? []));
    return saveTableFile(csv, `${this.kind}.csv`, this.page.store, remark);
  };

  readonly #onPaste = (event: ClipboardEvent): void => {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    // one cell's worth is for the cell itself
    if (!/[\t\n]/.test(text.trim())) return;
    event.preventDefault();
    this.#use(text, "what was pasted");
  };

  readonly #onKey = (event: KeyboardEvent): void => {
    const by = { Enter: 1, ArrowDown: 1, ArrowUp: -1 }[event.key];
    const { row, column } = event.target instanceof HTMLElement ? event.target.dataset : {};
    if (by === undefined || row === undefined || event.isComposing) return;
    if (event.key !== "Enter") event.preventDefault();
    this.#entryAt(Number(row) + by, Number(column))?.focus();
  };

  #entryAt(row: number, column: number): Entry | null {
    return this.renderRoot.querySelector<Entry>(`[data-row="${row}"][data-column="${column}"]`);
  }
}
