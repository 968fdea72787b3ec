/** The job that is open in this tab, and the ways to begin another. */

import { fileOpen } from "browser-fs-access";
import { css, html, nothing, type TemplateResult } from "lit";
import { customElement } from "lit/decorators.js";
import { readSetupText } from "../../../setup/file/readSetup.ts";
import { SetupError } from "../../../setup/problem.ts";
import "../../form/standInChoice.ts";
import type { BeginEvent } from "../../form/standInChoice.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { panelStyles } from "../../shell/look/sheetStyles.ts";
import { demoDocument } from "../../state/keeping/demo.ts";
import { unlessGivenUp } from "../../state/keeping/fileDialog.ts";
import { SETUP_FILES } from "../../state/keeping/setupFile.ts";
import { notesForAnother } from "../../state/notes/notes.ts";
import { PageElement } from "../../state/page.ts";
import type { Row } from "../../state/record/database.ts";
import type { Document } from "../../state/state.ts";
import { documentOf } from "../../state/store.ts";
import "./jobFields.ts";
import { warning } from "../../shell/look/notice.ts";
import type { JobFields } from "./jobFields.ts";
import { whenText } from "./jobRow.ts";

@customElement("annulus-open-job")
export class OpenJobPanel extends PageElement {
  static override styles = [
    controls,
    panelStyles,
    css`
      .stand {
        font-size: var(--type-14);
        color: var(--muted);
      }
      .new {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem;
        font-size: var(--type-14);
      }
    `,
  ];

  override render() {
    const { row, trouble, record } = this.page.job.parts;
    const can = record !== null;
    return html`
      <h3>Open now</h3>
      ${row === null ? this.#loose(can) : this.#job(row)}
      ${trouble ? warning(`${trouble}: the newest of it is in this tab only.`) : nothing}
      <div class="new controls" role="group" aria-label="Begin a new job">
        <span>New job</span>
        <button type="button" data-testid="new-demo" ?disabled=${!can} @click=${() => void this.begin(demoDocument())}>${icon("plus")}From the demo</button>
        <button type="button" data-testid="new-same" ?disabled=${!can} @click=${this.#beginSame}>${icon("plus")}From this instrument</button>
        <button type="button" data-testid="new-file" ?disabled=${!can} @click=${this.#beginFromFile}>${icon("plus")}From a file</button>
        <annulus-stand-in-choice
          label="From a stand-in"
          ?disabled=${!can}
          @begin=${({ detail: setup }: BeginEvent) => void this.begin(documentOf(setup))}
        ></annulus-stand-in-choice>
      </div>
    `;
  }

  #loose(can: boolean): TemplateResult {
    const { name } = this.page.store.parts.document.setup;
    return html`
      <p data-testid="loose">“${name || "Untitled"}” is not kept as a job: it stays in this tab only.</p>
      <div class="actions controls">
        <button type="button" data-testid="keep-job" ?disabled=${!can} @click=${this.#keep}>${icon("save")}Keep as a job</button>
      </div>
    `;
  }

  #job(row: Row): TemplateResult {
    if (row.deleted !== null)
      return html`
        <p data-testid="open-deleted">“${row.title}” was deleted; what is open is still here.</p>
        <div class="actions controls">
          <button type="button" @click=${() => void this.page.job.with((record) => record.bringBack(row.id))}>${icon("undo")}Bring it back</button>
        </div>
      `;
    return html`
      <annulus-job-fields data-testid="open-fields" .head=${row}></annulus-job-fields>
      <p class="stand" data-testid="open-stand">
        Begun ${whenText(row.created)}, changed ${whenText(row.changed)}. Every change is kept as you go.
      </p>
    `;
  }

  /** Begins a job of a document and puts the hand on its title. */
  async begin(document: Document): Promise<void> {
    if (await this.page.job.begin(document)) await this.#name();
  }

  /** Begins a job of an instrument's file. */
  async beginFrom(name: string, text: string): Promise<void> {
    try {
      await this.begin(documentOf(readSetupText(text)));
    } catch (error) {
      if (!(error instanceof SetupError)) throw error;
      this.page.store.say("error", `${name}: ${error.message}`);
    }
  }

  readonly #keep = async (): Promise<void> => {
    if (await this.page.job.keep()) await this.#name();
  };

  /** The same instrument for another player: readings and orders are the old job's. */
  readonly #beginSame = (): void => {
    const { document } = this.page.store.state;
    const { job: _, ...rest } = document;
    void this.begin({ ...rest, notes: notesForAnother(document.notes) });
  };

  readonly #beginFromFile = async (): Promise<void> => {
    const file = await unlessGivenUp(() => fileOpen(SETUP_FILES), this.page.store);
    if (file) await this.beginFrom(file.name, await file.text());
  };

  async #name(): Promise<void> {
    // the fields come with the record's news of the job
    const leave = this.page.job.subscribe(async ({ row }) => {
      if (!row) return;
      leave();
      await this.updateComplete;
      const fields = this.renderRoot.querySelector<JobFields>("annulus-job-fields");
      await fields?.updateComplete;
      fields?.renderRoot.querySelector<HTMLElement>("annulus-entry")?.focus();
    });
  }
}
