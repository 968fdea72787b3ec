/** The record: the job that is open, all the others, and the backup of them. */

import { css, html, nothing } from "lit";
import { customElement, query, state } from "lit/decorators.js";
import { download } from "../../shell/download.ts";
import { dropped } from "../../shell/dropped.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { PageElement } from "../../state/page.ts";
import "./backupPanel.ts";
import type { BackupPanel } from "./backupPanel.ts";
import "./jobList.ts";
import { downloadAsJob } from "../../state/record/jobFile.ts";
import type { JobRecord, Listing } from "../../state/record/jobRecord.ts";
import { textsOf } from "../../state/record/jobTexts.ts";
import "./openJobPanel.ts";
import { writeDocument } from "../../state/keeping/documentFile.ts";
import { troubleText } from "../../state/record/trouble.ts";
import type { OpenJobPanel } from "./openJobPanel.ts";

@customElement("annulus-jobs")
export class JobsSheet extends PageElement {
  @state() private listing: Listing | null = null;
  @state() private failure = "";
  @query("annulus-job-backup") private backup!: BackupPanel;
  @query("annulus-open-job") private openJob!: OpenJobPanel;
  #watched: JobRecord | null = null;
  #unwatch: (() => void) | null = null;

  static override styles = [
    controls,
    sheetStyles,
    css`
      main {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        gap: 1.25rem;
      }
      .about {
        max-width: 85ch;
        text-wrap: pretty;
      }
      .columns {
        padding: 1rem 0;
        border: solid var(--hairline);
        border-width: 1px 0;
      }
      @container sheet (min-width: 800px) {
        .columns {
          grid-template-columns: minmax(0, 3fr) minmax(0, 2fr);
        }
      }
      @media print {
        .columns {
          display: none;
        }
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#unwatch?.();
    this.#unwatch = null;
    this.#watched = null;
  }

  protected override willUpdate(): void {
    const { record } = this.page.job.parts;
    if (!record) void this.page.job.start();
    else if (record !== this.#watched) {
      this.#watched = record;
      this.#unwatch = record.watch(
        (listing) => {
          this.listing = listing;
        },
        (error) => {
          this.failure = troubleText(error);
        },
      );
    }
  }

  override render() {
    const refusal = this.page.job.parts.refusal ?? this.failure;
    return html`
      <main @drop=${this.#onDrop}>
        <div class="stack">
          <h2>Jobs</h2>
          <p class="about">
            A job is one player with one mouthpiece in one instrument, and all that is measured, planned and tried for them. Jobs
            are kept in this browser; nothing leaves the machine.
          </p>
        </div>
        ${refusal ? this.#refused(refusal) : nothing}
        <div class="columns">
          <annulus-open-job></annulus-open-job>
          <annulus-job-backup></annulus-job-backup>
        </div>
        ${this.listing ? this.#listed(this.listing) : refusal ? nothing : html`<p class="muted" role="status">Opening the record…</p>`}
      </main>
    `;
  }

  #refused(refusal: string) {
    const save = () => {
      const { document } = this.page.store.state;
      downloadAsJob(writeDocument(document), textsOf(document));
    };
    return html`
      <div class="notice wrong" role="alert" data-testid="no-record">
        ${icon("warning")}
        <span>${refusal}. What is open stays in this tab: save it as a file before you close it.</span>
        <button type="button" @click=${save}>Save it as a file</button>
      </div>
    `;
  }

  #listed(listing: Listing) {
    const { unreadable, later } = listing;
    return html`
      ${
        later > 0
          ? html`
              <div class="notice wrong" data-testid="later">
                ${icon("warning")}
                <span>${later === 1 ? "One job was" : `${later} jobs were`} kept by a later version of this page: load the page again to get it.</span>
                <button type="button" @click=${() => location.reload()}>Load the page again</button>
              </div>
            `
          : nothing
      }
      ${
        unreadable > 0
          ? html`
              <div class="notice wrong" data-testid="unreadable">
                ${icon("warning")}
                <span>${unreadable === 1 ? "One kept record" : `${unreadable} kept records`} cannot be read by this version of the page. Nothing of it is thrown away.</span>
                <button type="button" @click=${this.#saveUnreadable}>Save as a file</button>
              </div>
            `
          : nothing
      }
      <annulus-job-list .listing=${listing}></annulus-job-list>
    `;
  }

  readonly #saveUnreadable = (): void => {
    void this.page.job.with(async (record) =>
      download(`${JSON.stringify(await record.unreadable(), null, 1)}\n`, "unreadable-jobs.json"),
    );
  };

  /** Here a file that is let go becomes jobs: before the page takes it for an instrument to be looked at. */
  readonly #onDrop = async (event: DragEvent): Promise<void> => {
    for (const file of dropped(event)) {
      const text = await file.text();
      if (!(await this.backup.take(file.name, text))) await this.openJob.beginFrom(file.name, text);
    }
  };
}
