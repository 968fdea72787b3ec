/**
 * A bore profile as a table that is typed into like a spreadsheet: Enter and the arrows go up and down, Tab goes on,
 * Ctrl+Enter adds a row, a row emptied is taken out, two columns are pasted as they come. Rows are drawn anew only when
 * the profile, the unit or a refused text has changed, so that typing costs nothing.
 */
import { html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { guard } from "lit/directives/guard.js";
import type { Problem } from "../../../setup/problem.ts";
import type { ProfileMm } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { otherUnitAnswer, otherUnitQuestion } from "../../../words/otherUnit.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { icon } from "../../shell/look/icon.ts";
import { copyText } from "./clipboard.ts";
import type { Draft } from "./drafts.ts";
import type { AnnulusPasteBox } from "./pasteBox.ts";
import "./pasteBox.ts";
import { type Cell, type Column, cellPath, type Part } from "../../form/setup/paths.ts";
import { isUndoKey } from "../../form/undoKey.ts";
import { usePasted } from "./pasteReport.ts";
import { type AskedCell, profileOtherUnits } from "./profileOtherUnits.ts";
import { profileTableStyles } from "./profileTableStyles.ts";
import { profileText } from "./profileText.ts";
import { editControls } from "./styles.ts";

/** What the table asks of whoever has the setup. */
export interface ProfileActions {
  enter(cell: Cell, text: string): void;
  takeBack(cell: Cell): void;
  /** Says what is in the way; null when the row is there. */
  insertAfter(bore: Part, row: number): string | null;
  remove(bore: Part, row: number): string | null;
  replace(bore: Part, rowsMm: ProfileMm, from: number | null): readonly Problem[];
}

const columns = ["Position", "Inner diameter"] as const;

@customElement("annulus-profile-table")
export class AnnulusProfileTable extends LitElement {
  static override styles = [editControls, profileTableStyles];

  @property({ reflect: true }) bore: Part = "leadpipe";
  @property({ attribute: false }) profileMm: ProfileMm = [];
  @property({ attribute: false }) unit: LengthUnit = "mm";
  /** Refused texts of this profile. */
  @property({ attribute: false }) drafts: readonly Draft[] = [];
  @property({ attribute: false }) actions!: ProfileActions;

  /** The row last typed in; null before any was. */
  @state() private row: number | null = null;
  @state() private refusal = "";
  @state() private note = "";
  /** Taken at Enter: the browser tells of the same text again when the cell is left, and its row may be another by then. */
  #taken: { readonly input: HTMLInputElement; readonly text: string } | null = null;
  @query("annulus-paste-box") private pasteBox!: AnnulusPasteBox;

  override render() {
    const last = this.profileMm.length - 1;
    const row = this.row === null ? null : Math.min(this.row, last);
    return html`
      <div class="tools">
        <button type="button" @click=${() => this.#insert(row ?? last)}>Add row after ${(row ?? last) + 1}</button>
        <button type="button" ?disabled=${row === null} @click=${() => row !== null && this.#remove(row)}>
          ${row === null ? "Delete row" : `Delete row ${row + 1}`}
        </button>
        <button type="button" @click=${this.#copy}>Copy table</button>
        ${this.refusal ? html`<div class="problem"><p role="alert">${icon("warning")} ${this.refusal}</p></div>` : nothing}
        ${this.note ? html`<p role="status">${this.note}</p>` : nothing}
      </div>
      <annulus-paste-box .use=${(text: string) => this.#use(text, null)}></annulus-paste-box>
      <table aria-label="Bore profile of the ${this.bore}">
        <thead>
          <tr>
            <th scope="col">Row</th>
            ${columns.map((name) => html`<th scope="col">${name} (${this.unit})</th>`)}
          </tr>
        </thead>
        <tbody @focusin=${this.#onFocus} @input=${this.#onInput} @change=${this.#onChange} @keydown=${this.#onKey} @paste=${this.#onPaste}>
          ${guard([this.profileMm, this.unit, this.drafts], () => this.#rows())}
        </tbody>
      </table>
    `;
  }

  #rows() {
    const drafts = new Map(this.drafts.map((draft) => [draft.path, draft]));
    const asked = profileOtherUnits(this.profileMm, this.drafts, this.unit);
    return this.profileMm.map((_, row) => {
      const refused = ([0, 1] as const).map((column) => drafts.get(cellPath(this.#cell(row, column))));
      const questions = asked.filter((one) => one.row === row);
      return html`
        <tr>
          <th scope="row">${row + 1}</th>
          ${([0, 1] as const).map((column) => this.#input(row, column, refused[column]))}
        </tr>
        ${refused.some(Boolean) || questions.length > 0 ? this.#problems(row, refused, questions) : nothing}
      `;
    });
  }

  #input(row: number, column: Column, refused: Draft | undefined) {
    return html`<td>
      <input
        type="text"
        autocomplete="off"
        spellcheck="false"
        data-row=${row}
        data-column=${column}
        aria-label="${columns[column]}, row ${row + 1}"
        aria-invalid=${refused ? "true" : "false"}
        aria-describedby=${refused ? `problem-${row}-${column}` : nothing}
        .value=${refused?.text ?? this.#shown(row, column)}
      >
    </td>`;
  }

  #problems(row: number, refused: readonly (Draft | undefined)[], questions: readonly AskedCell[]) {
    return html`<tr>
      <td></td>
      <td colspan="2">
        ${refused.map((draft, column) =>
          draft
            ? html`<div class="problem">
                <p role="alert" id="problem-${row}-${column}">${icon("warning")} ${draft.message}</p>
                <button type="button" @click=${() => this.#takeBack(row, column as Column)}>
                  Back to ${this.#shown(row, column as Column)} ${this.unit}
                </button>
              </div>`
            : nothing,
        )}
        ${questions.map(
          ({ column, typed, found }) => html`<div class="problem" data-testid="other-unit">
            <p role="status">${icon("info")} ${otherUnitQuestion(typed, this.unit, found)}</p>
            <button type="button" @click=${() => this.#takeOther(row, column, found.text)}>${otherUnitAnswer(found)}</button>
          </div>`,
        )}
      </td>
    </tr>`;
  }

  #cell(row: number, column: Column): Cell {
    return { part: this.bore, row, column };
  }

  #shown(row: number, column: Column): string {
    return lengthText(this.profileMm[row][column], this.unit);
  }

  #onFocus = (event: Event): void => {
    const at = placeOf(event.target);
    if (at) this.row = at.row;
  };

  #onInput = (): void => {
    this.#taken = null;
  };

  #onChange = (event: Event): void => {
    const input = event.target;
    if (!(input instanceof HTMLInputElement)) return;
    const isTaken = this.#taken?.input === input && this.#taken.text === input.value;
    if (!isTaken) this.#enter(input);
  };

  #enter(input: HTMLInputElement): void {
    const at = placeOf(input);
    if (!at) return;
    this.#clear();
    this.#taken = { input, text: input.value };
    const { profileMm } = this;
    this.actions.enter(this.#cell(at.row, at.column), input.value);
    // `2.540` is shown as the 2.54 it is understood as, also where nothing had to be drawn anew
    setTimeout(() => {
      const isSame = this.profileMm.length === profileMm.length;
      if (isSame && input.isConnected) input.value = this.#text(at.row, at.column);
    });
  }

  /** What belongs into a cell: what was refused there, or what the setup has. */
  #text(row: number, column: Column): string {
    const path = cellPath(this.#cell(row, column));
    return this.drafts.find((draft) => draft.path === path)?.text ?? this.#shown(row, column);
  }

  #onKey = (event: KeyboardEvent): void => {
    const input = event.target;
    const at = placeOf(input);
    if (!at || !(input instanceof HTMLInputElement) || event.isComposing) return;
    const { row, column } = at;
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) {
      this.#enter(input);
      this.#insert(row);
    } else if (event.key === "Enter") {
      this.#enter(input);
      this.#focus(row + (event.shiftKey ? -1 : 1), column);
    } else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      this.#focus(row + (event.key === "ArrowDown" ? 1 : -1), column);
    } else if (event.key === "Escape" && input.value !== this.#shown(row, column)) {
      this.#takeBack(row, column);
    } else {
      // what is being typed is the field's own to undo, what stands there the panel's
      if (isUndoKey(event) && input.value !== this.#shown(row, column)) event.stopPropagation();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  };

  #onPaste = (event: ClipboardEvent): void => {
    const text = event.clipboardData?.getData("text/plain") ?? "";
    const at = placeOf(event.target);
    // one cell's worth is for the cell itself
    if (!at || !/[\t\n\r]/.test(text.trim())) return;
    event.preventDefault();
    this.pasteBox.tell(this.#use(text, at.row === 0 ? null : at.row), text);
  };

  #use(text: string, from: number | null) {
    this.#clear();
    return usePasted(text, this.unit, (rowsMm, at) => this.actions.replace(this.bore, rowsMm, at), from);
  }

  /** What was meant, once whoever typed it has said so. */
  #takeOther(row: number, column: Column, text: string): void {
    const input = this.#inputAt(row, column);
    if (!input) return;
    input.value = text;
    this.#enter(input);
    input.focus();
  }

  #takeBack(row: number, column: Column): void {
    const input = this.#inputAt(row, column);
    if (input) input.value = this.#shown(row, column);
    this.actions.takeBack(this.#cell(row, column));
    input?.focus();
  }

  #insert(row: number): void {
    this.#clear();
    this.refusal = this.actions.insertAfter(this.bore, row) ?? "";
    // when the new row has been drawn
    if (!this.refusal) setTimeout(() => this.#focus(row + 1, 0));
  }

  #remove(row: number): void {
    this.#clear();
    this.refusal = this.actions.remove(this.bore, row) ?? "";
    if (!this.refusal) setTimeout(() => this.#focus(Math.min(row, this.profileMm.length - 1), 0));
  }

  #copy = async (): Promise<void> => {
    this.#clear();
    const { profileMm, unit } = this;
    this.note = await copyText(profileText(profileMm, unit), `${profileMm.length} rows in ${unit}`);
  };

  #clear(): void {
    this.refusal = "";
    this.note = "";
    this.pasteBox.clear();
  }

  #inputAt(row: number, column: Column): HTMLInputElement | null {
    return this.renderRoot.querySelector(`input[data-row="${row}"][data-column="${column}"]`);
  }

  #focus(row: number, column: Column): void {
    const input = this.#inputAt(row, column);
    input?.focus();
    input?.select();
  }

  /** For whoever leads to a cell. */
  focusCell({ row, column }: Cell): void {
    this.#focus(row, column);
  }
}

function placeOf(target: EventTarget | null): { row: number; column: Column } | null {
  if (!(target instanceof HTMLInputElement) || target.dataset.row === undefined) return null;
  return { row: Number(target.dataset.row), column: Number(target.dataset.column) as Column };
}
