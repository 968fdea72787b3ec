/** The repeat readings of one length: a row each, an empty one to go on with, and what they come to. */
import { html, nothing, type TemplateResult } from "lit";
import type { WriteEvent } from "../../form/entry.ts";
import { icon } from "../../shell/look/icon.ts";
import type { ReadingRow } from "../../state/bench/measurement.ts";
import type { LengthName } from "../../state/notes/measureNotes.ts";

export const LENGTHS = {
  depth: { title: "Receiver depth", between: "receiver's face to the start of the leadpipe" },
  insertion: { title: "Insertion", between: "shank's end to the mark made at the receiver's face" },
} as const satisfies Record<LengthName, { readonly title: string; readonly between: string }>;

export interface ReadingsForm {
  readonly length: LengthName;
  readonly unit: string;
  readonly rows: readonly ReadingRow[];
  /** The row whose reading stands apart. */
  readonly apart: number | undefined;
  /** The field under a hand: what is wrong with it is said when it is finished. */
  readonly typing: string;
  /** Their mean in words; empty while there is none. */
  readonly mean: string;
  readonly write: (row: number, event: WriteEvent) => void;
  readonly remove: (row: number) => void;
}

/** The key of a field, for focus and for what is under the hand. */
export const readingField = (length: LengthName, row: number): string => `${length}.${row}`;

export function readingsForm(form: ReadingsForm): TemplateResult {
  const { length, rows, mean } = form;
  const { title, between } = LENGTHS[length];
  return html`
    <section aria-label=${title} data-testid="${length}-readings">
      <h3>${title}<small>${between}</small></h3>
      <ol>${rows.map((row, i) => reading(form, row, i))}</ol>
      <p class="mean" data-testid="${length}-mean">${mean}</p>
    </section>
  `;
}

function reading({ length, unit, apart, typing, write, remove }: ReadingsForm, row: ReadingRow, i: number) {
  const field = readingField(length, i);
  const isBlank = row.text.trim() === "";
  const name =
    row.number === null ? `${length} reading not counted, row ${i + 1}` : `${length} reading ${row.number}`;
  const label = `${name}${i === apart ? ", stands apart" : ""}`;
  return html`
    <li class="reading ${isBlank ? "blank" : ""}">
      <span class="ordinal" aria-hidden="true">${row.number ?? "–"}</span>
      <annulus-entry
        bare
        data-field=${field}
        data-group=${length}
        .label=${label}
        .text=${row.text}
        .unit=${unit}
        .problem=${typing === field ? "" : row.problem}
        @write=${(event: WriteEvent) => write(i, event)}
      ></annulus-entry>
      ${
        isBlank
          ? nothing
          : html`<button type="button" class="plain square" aria-label="Remove ${name}" title="Remove this reading" @click=${() => remove(i)}>
              ${icon("xmark")}
            </button>`
      }
      ${i === apart ? html`<p class="apart" data-testid="apart">stands apart from the others; it is counted</p>` : nothing}
    </li>
  `;
}
