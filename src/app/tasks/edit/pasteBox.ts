/** A place for a pasted table that stays as it was pasted while something in it is wrong. */
import { html, LitElement, nothing } from "lit";
import { customElement, property, query, state } from "lit/decorators.js";
import { icon } from "../../shell/look/icon.ts";
import { pasteBoxStyles } from "./pasteBoxStyles.ts";
import type { PasteReport } from "./pasteReport.ts";
import { editControls } from "./styles.ts";

/** Further problems are counted: a wrong separator makes one of every line. */
const mostShown = 8;

@customElement("annulus-paste-box")
export class AnnulusPasteBox extends LitElement {
  static override styles = [editControls, pasteBoxStyles];

  /** Puts a text in place of the whole profile. */
  @property({ attribute: false }) use!: (text: string) => PasteReport;
  @state() private report: PasteReport | null = null;
  @query("textarea") private area!: HTMLTextAreaElement;
  @query("details") private details!: HTMLDetailsElement;

  override render() {
    return html`
      <details>
        <summary>Paste a table</summary>
        <label for="area">Two columns, position and inner diameter, from a spreadsheet or a text</label>
        <textarea id="area" rows="6" spellcheck="false" autocomplete="off" aria-describedby="problems"></textarea>
        <button type="button" @click=${() => this.tell(this.use(this.area.value))}>Use in place of the table</button>
      </details>
      ${this.report ? this.#report(this.report) : nothing}
    `;
  }

  #report({ note, problems }: PasteReport) {
    if (problems.length === 0) return html`<p role="status">${note}</p>`;
    const more = problems.length - mostShown;
    return html`<div class="problem" role="alert" id="problems">
      <p>${icon("warning")} ${note}</p>
      <ul>${problems.slice(0, mostShown).map((problem) => html`<li>${problem}</li>`)}</ul>
      ${more > 0 ? html`<p>And ${more} more.</p>` : nothing}
    </div>`;
  }

  /** Shows how a paste went; a text that was not all used comes into the box to be put right. */
  tell(report: PasteReport, text = this.area.value): void {
    this.report = report;
    const isWhole = report.problems.length === 0;
    this.area.value = isWhole ? "" : text;
    this.details.open = !isWhole;
  }

  clear(): void {
    this.report = null;
  }
}
