/** The repeat readings of one length: a row each, an empty one to go on with, and what they come to. */
import { html, nothing, type TemplateResult } from "lit";
import type { NotesForm } from "../../form/notesForm.ts";
import { icon } from "../../shell/look/icon.ts";
import type { ReadingRow } from "../../state/bench/measurement.ts";
import { type LengthName, READING } from "../../state/notes/measure.ts";

export const LENGTHS = {
  depth: { title: "Receiver depth", between: "receiver's face to the start of the leadpipe" },
  insertion: { title: "Insertion", between: "shank's end to the mark made at the receiver's face" },
} as const satisfies Record<LengthName, { readonly title: string; readonly between: string }>;

export interface Readings {
  readonly form: NotesForm<"measure">;
  readonly length: LengthName;
  readonly rows: readonly ReadingRow[];
  /** The row whose reading stands apart. */
  readonly apart: number | undefined;
  /** Their mean in words; empty while there is none. */
  readonly mean: string;
  readonly remove: (row: number) => void;
}

export function readingsForm(readings: Readings): TemplateResult {
  const { length, rows, mean } = readings;
  const { title, between } = LENGTHS[length];
  return html`
    <section aria-label=${title} data-testid="${length}-readings">
      <h3>${title}<small>${between}</small></h3>
      <ol>${rows.map((row, i) => reading(readings, row, i))}</ol>
      <p class="mean" data-testid="${length}-mean">${mean}</p>
    </section>
  `;
}

function reading({ form, length, apart, remove }: Readings, row: ReadingRow, i: number) {
  const isBlank = row.text.trim() === "";
  const name =
    row.number === null ? `${length} reading not counted, row ${i + 1}` : `${length} reading ${row.number}`;
  const label = `${name}${i === apart ? ", stands apart" : ""}`;
  return html`
    <li class="reading ${isBlank ? "blank" : ""}">
      <span class="ordinal" aria-hidden="true">${row.number ?? "–"}</span>
      ${form.entry(READING, [length, i], row.problem, { label, bare: true, group: length })}
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
