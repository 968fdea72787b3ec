/** A chart's numbers as a table to read. */
import { html, type TemplateResult } from "lit";
import type { Table } from "../../charts/drawing.ts";

/** Finer than anything that can be felt. */
const FIGURES = 5;

const shown = (value: string | number): string =>
  typeof value === "number" ? `${Number(value.toPrecision(FIGURES))}`.replace("-", "−") : value;

export const tableView = ({ columns, rows }: Table, caption: string): TemplateResult => html`
  <div class="table" tabindex="0" role="region" aria-label="Table: ${caption}">
    <table>
      <caption class="unseen">${caption}</caption>
      <thead>
        <tr>${columns.map((name) => html`<th scope="col">${name}</th>`)}</tr>
      </thead>
      <tbody>
        ${rows.map(
          ([first, ...others]) => html`
            <tr><th scope="row">${shown(first)}</th>${others.map((value) => html`<td>${shown(value)}</td>`)}</tr>
          `,
        )}
      </tbody>
    </table>
  </div>
`;
