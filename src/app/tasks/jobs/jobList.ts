/**
 * All jobs: searched as one types, filtered, sorted; only those in sight are drawn, so that thousands are no burden,
 * but all are printed.
 */
import { PageElement } from "../../state/page.ts";
import "@lit-labs/virtualizer";
import { provideResizeObserver } from "@lit-labs/virtualizer/polyfillLoaders/ResizeObserver.js";
import { html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { listed, type SortKey, type StatusFilter } from "../../../record/listing.ts";
import { flawsOf } from "../../../setup/dimension/plausible.ts";
import { FrameResizeObserver } from "../../chart/frameResizeObserver.ts";
import { controls } from "../../shell/look/controls.ts";
import { type Segment, segments } from "../../shell/look/segments.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import type { Row } from "../../state/record/database.ts";
import type { Listing } from "../../state/record/jobRecord.ts";
import { jobListStyles } from "./jobListStyles.ts";
import { jobRow, type RowAction } from "./jobRow.ts";

// rows that are measured move the rows below them
provideResizeObserver(FrameResizeObserver);

type Filter = StatusFilter | "deleted";

const FILTERS: readonly Segment<Filter>[] = [
  { value: "open", text: "Open" },
  { value: "archived", text: "Archived" },
  { value: "all", text: "All" },
];
const DELETED: Segment<Filter> = { value: "deleted", text: "Deleted" };
const SORTS: readonly (readonly [SortKey, string])[] = [
  ["changed", "newest first"],
  ["title", "by title"],
  ["player", "by player"],
];
const HEADS = ["Title", "Player", "Instrument · mouthpiece", "Gap", "Changed", "Holds", ""];

@customElement("annulus-job-list")
export class JobList extends PageElement {
  @property({ attribute: false }) listing!: Listing;
  @state() private search = "";
  @state() private filter: Filter = "open";
  @state() private sort: SortKey = "changed";
  /** The job whose fields and actions are in sight. */
  @state() private more = "";
  @state() private isPrinting = false;

  static override styles = [controls, sheetStyles, jobListStyles];

  override connectedCallback(): void {
    super.connectedCallback();
    addEventListener("beforeprint", this.#onPrint);
    addEventListener("afterprint", this.#onPrint);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    removeEventListener("beforeprint", this.#onPrint);
    removeEventListener("afterprint", this.#onPrint);
  }

  override render() {
    const { listing, search, filter, sort } = this;
    const { document, view } = this.page.store.parts;
    const isDeleted = filter === "deleted" && listing.deleted.length > 0;
    const status = isDeleted ? "all" : filter === "deleted" ? "open" : filter;
    const all = isDeleted ? listing.deleted : listing.rows;
    const rows = listed(all, { status, search, sort });
    const look = (row: Row, place: number) =>
      jobRow(row, {
        unit: view.unit,
        place: place + 1,
        of: rows.length,
        isOpen: row.id === document.job,
        showsMore: row.id === this.more,
        act: this.#act,
      });
    return html`
      <div class="asked controls">
        <annulus-entry
          data-testid="job-search"
          label="Search title, player, instrument, mouthpiece"
          .text=${search}
          @write=${({ detail }: WriteEvent) => {
            this.search = detail.text;
          }}
        ></annulus-entry>
        ${segments<Filter>(
          "Which jobs",
          listing.deleted.length > 0 ? [...FILTERS, DELETED] : FILTERS,
          isDeleted ? "deleted" : status,
          (chosen) => {
            this.filter = chosen;
          },
        )}
        <label>
          <span class="unseen">Order</span>
          <select data-testid="job-sort" @change=${this.#onSort}>
            ${SORTS.map(([key, words]) => html`<option value=${key} ?selected=${key === sort}>${words}</option>`)}
          </select>
        </label>
        <span class="count" role="status" data-testid="job-count">${countText(rows.length, all.length)}</span>
      </div>
      ${
        rows.length === 0
          ? html`<p class="none" data-testid="no-jobs">${this.#none(all.length)}</p>`
          : html`
              <div class="heads" aria-hidden="true">
                ${HEADS.map((text) => html`<span class=${text === "Gap" ? "gap" : nothing}>${text}</span>`)}
              </div>
              ${
                this.isPrinting
                  ? html`<div role="list" aria-label="Jobs">${rows.map(look)}</div>`
                  : html`<lit-virtualizer role="list" aria-label="Jobs" .items=${rows} .keyFunction=${idOf} .renderItem=${look}></lit-virtualizer>`
              }
            `
      }
    `;
  }

  #none(all: number): string {
    if (this.search.trim() !== "" && all > 0)
      return `No job here has words that begin so. Search by the start of a word, or look among all.`;
    if (this.listing.rows.length === 0)
      return "No jobs yet. Keep what is open as a job, or begin a new one above.";
    return this.filter === "archived" ? "No job is archived." : "No job is open: all are archived.";
  }

  /** On paper all are there; drawn at once, since the printer does not wait. */
  readonly #onPrint = ({ type }: Event): void => {
    this.isPrinting = type === "beforeprint";
    this.performUpdate();
  };

  readonly #onSort = (event: Event): void => {
    this.sort = (event.target as HTMLSelectElement).value as SortKey;
  };

  readonly #act = (action: RowAction, row: Row): void => {
    const { job } = this.page;
    const { id, title, status } = row;
    switch (action) {
      case "more":
        this.more = this.more === id ? "" : id;
        return;
      case "open":
        void this.#openJob(row);
        return;
      case "duplicate":
        void job.with(async (record) => {
          const copy = await record.duplicate(id);
          if (copy) this.page.store.say("note", `Made “${copy.title}”.`);
        });
        return;
      case "archive":
        void job.with((record) => record.setStatus(id, status === "archived" ? "open" : "archived"));
        this.#leaveRow();
        return;
      case "bring back":
        void job.with((record) => record.bringBack(id));
        this.#leaveRow();
        return;
      case "delete":
        void this.#delete(id, title);
    }
  };

  /** The row goes from the list, and a keyboard's place with it: that is now which jobs are listed. */
  #leaveRow(): void {
    const chosen = this.renderRoot.querySelector<HTMLElement>('.segments [aria-pressed="true"]');
    chosen?.focus({ preventScroll: true });
  }

  async #openJob({ id, title }: Row): Promise<void> {
    if (!(await this.page.job.open(id))) return;
    // what is wrong with it was said
    const { setup } = this.page.store.state.document;
    if (flawsOf(setup).length === 0) this.page.store.say("note", `Opened “${title}”.`);
    this.page.router.go("explore");
  }

  async #delete(id: string, title: string): Promise<void> {
    const { job } = this.page;
    if (!(await job.with((record) => record.delete(id)))) return;
    this.#leaveRow();
    this.page.store.say("note", `Deleted “${title}”. It can be brought back for a day.`, {
      label: "Undo",
      accept: () => void job.with((record) => record.bringBack(id)),
    });
  }
}

const idOf = ({ id }: Row): string => id;

const countText = (shown: number, all: number): string =>
  shown === all ? `${all} ${all === 1 ? "job" : "jobs"}` : `${shown} of ${all}`;
