/** A drawing on the sheet: under it what it shows, and behind a fold the same in numbers. */
import { html, nothing, render } from "lit";
import type { Table } from "../../src/charts/kit/drawing.ts";

export interface FigureOptions {
  /** What to see, one or two sentences. */
  readonly caption: string;
  readonly table?: Table;
}

export function figure(
  { svg }: { readonly svg: SVGSVGElement },
  { caption, table }: FigureOptions,
): HTMLElement {
  const block = document.createElement("figure");
  render(html`${svg}<figcaption>${caption}</figcaption>${table ? folded(table) : nothing}`, block);
  return block;
}

/** A table of figures on the sheet itself; numbers to the right. */
export function tableOf({ columns, rows }: Table, caption?: string): HTMLElement {
  const block = document.createElement("div");
  block.className = "table";
  block.tabIndex = 0;
  block.setAttribute("role", "region");
  block.setAttribute("aria-label", caption ?? columns.join(", "));
  const isNumber = columns.map((_, i) =>
    rows.every((row) => !Number.isNaN(Number.parseFloat(`${row[i]}`.replace("−", "-")))),
  );
  const isProse = columns.map((_, i) => rows.some((row) => `${row[i]}`.length > PROSE_LENGTH));
  const cell = (i: number) => (isNumber[i] ? "number" : isProse[i] ? "prose" : "");
  render(
    html`
      <table>
        ${caption ? html`<caption>${caption}</caption>` : nothing}
        <thead>
          <tr>
            ${columns.map((name, i) => html`<th scope="col" class=${cell(i)}>${name}</th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map((row) => html`<tr>${row.map((value, i) => html`<td class=${cell(i)}>${written(value)}</td>`)}</tr>`)}
        </tbody>
      </table>
    `,
    block,
  );
  return block;
}

/** Longer than this a text is not a name or a figure; on a phone it is not pressed into a column a word wide. */
const PROSE_LENGTH = 24;

/** Full precision is for files; a table on a sheet has as many digits as a person reads. */
const written = (value: string | number): string =>
  typeof value === "number" ? `${Number(value.toPrecision(5))}`.replace("-", "−") : value;

/** Filled when it is first opened: a curve has a thousand rows. */
function folded(table: Table) {
  const open = ({ target }: Event) => {
    const details = target as HTMLDetailsElement;
    if (details.open && details.childElementCount === 1) details.append(tableOf(table));
  };
  return html`<details @toggle=${open}><summary>The same in numbers</summary></details>`;
}
