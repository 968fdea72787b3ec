/** One job in the list: what it is and holds in a line, what can be done with it under that. */
import { html, nothing, type TemplateResult } from "lit";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { icon } from "../../shell/look/icon.ts";
import type { Row } from "../../state/record/database.ts";
import "./jobFields.ts";

export type RowAction = "open" | "more" | "duplicate" | "archive" | "delete" | "bring back";

export interface RowLook {
  readonly unit: LengthUnit;
  /** Of all that are listed, from 1. */
  readonly place: number;
  readonly of: number;
  readonly isOpen: boolean;
  readonly showsMore: boolean;
  readonly act: (action: RowAction, row: Row) => void;
}

const days = new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short", year: "numeric" });
const times = new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit" });

/** "25 Nov 2026, 14:05" by this machine's clock. */
export const whenText = (iso: string): string => {
  const at = new Date(iso);
  return Number.isNaN(at.valueOf()) ? iso : `${days.format(at)}, ${times.format(at)}`;
};

export function jobRow(row: Row, look: RowLook): TemplateResult {
  const { unit, place, of, isOpen, showsMore, act } = look;
  const title = row.title.trim() || "Untitled";
  const parts = [row.instrument, row.mouthpiece].filter((text) => text.trim() !== "");
  const id = `more-${row.id}`;
  return html`
    <div
      class="row ${isOpen ? "open" : ""}"
      role="listitem"
      data-testid="job-row"
      aria-posinset=${place}
      aria-setsize=${of}
    >
      <div class="line">
        <div class="title">
          ${
            row.deleted === null
              ? html`<button type="button" class="name" aria-label="Open ${title}" aria-current=${isOpen ? "true" : "false"} @click=${() => act("open", row)}>${title}</button>`
              : html`<span class="name">${title}</span>`
          }
          ${isOpen ? html`<span class="mark">open now</span>` : nothing}
          ${row.status === "archived" ? html`<span class="mark plain">archived</span>` : nothing}
        </div>
        <div class="player">${row.player}</div>
        <div class="parts">${parts.join(" · ")}</div>
        <div class="gap">${row.gapMm === null ? nothing : html`<span class="what">your gap </span>${formatLength(row.gapMm, unit)}`}</div>
        <div class="changed"><span class="what">changed </span>${whenText(row.changed)}</div>
        <div class="holds">${row.holds.join(", ")}</div>
        <div class="do controls">
          ${
            row.deleted === null
              ? html`<button type="button" class="plain square" aria-label="More for ${title}" aria-expanded=${showsMore ? "true" : "false"} aria-controls=${id} @click=${() => act("more", row)}>${icon(showsMore ? "chevron-up" : "chevron-down")}</button>`
              : html`<button type="button" aria-label="Bring back ${title}" @click=${() => act("bring back", row)}>${icon("undo")}Bring back</button>`
          }
        </div>
      </div>
      ${
        showsMore && row.deleted === null
          ? html`
              <div class="more" id=${id}>
                <annulus-job-fields .head=${row}></annulus-job-fields>
                <div class="actions controls">
                  <button type="button" @click=${() => act("open", row)}>${icon("open")}Open</button>
                  <button type="button" @click=${() => act("duplicate", row)}>${icon("copy")}Duplicate</button>
                  <button type="button" @click=${() => act("archive", row)}>${icon("table")}${row.status === "archived" ? "Unarchive" : "Archive"}</button>
                  <button type="button" @click=${() => act("delete", row)}>${icon("xmark")}Delete</button>
                </div>
              </div>
            `
          : html`<div id=${id} hidden></div>`
      }
    </div>
  `;
}
