/** A drawing on the sheet: under it what it shows, and behind a fold the same in numbers. */
import { html, nothing, render } from "lit";
import type { Table } from "../../src/charts/kit/drawing.ts";

export interface FigureOptions {
  /** What to see, one or two sentences. */
  readonly caption: string;
  readonly table?: Table;
  /** What to ask a class that sees it on a projector; the caption where it is left out. */
  readonly teacher?: string;
}

/** The class of the page's root while one figure at a time is shown on a projector (`projector.ts`). */
export const PROJECTED = "on-projector";
/** What a projector leaves for a drawing, px of the drawing. */
const PROJECTED_PX = 352;

/** A drawing's height, px; on a projector no more than its screen has. */
export const high = (px: number): number =>
  document.documentElement.classList.contains(PROJECTED) ? Math.min(px, PROJECTED_PX) : px;

export function figure(
  { svg }: { readonly svg: SVGSVGElement },
  { caption, table, teacher }: FigureOptions,
): HTMLElement {
  const block = document.createElement("figure");
  if (teacher) block.dataset.teacher = teacher;
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
