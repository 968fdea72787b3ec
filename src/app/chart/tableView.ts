/** A chart's numbers as a table to read. */
import { css, html, type TemplateResult } from "lit";
import type { Table } from "../../charts/kit/drawing.ts";

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

export const tableStyles = css`
  .table {
    max-height: 20rem;
    overflow: auto;
    border: 1px solid var(--hairline);
    font-size: var(--type-12);
  }
  table {
    border-collapse: collapse;
  }
  th,
  td {
    padding: 0.15rem 0.5rem;
    text-align: right;
    border-bottom: 1px solid var(--hairline);
    font-weight: 400;
  }
  thead th {
    position: sticky;
    top: 0;
    background: var(--paper);
    vertical-align: bottom;
    font-weight: 600;
  }
  tbody th,
  tbody td {
    white-space: nowrap;
  }
`;
