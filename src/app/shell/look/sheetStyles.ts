/** How the sheets of the bench are laid out: a heading, columns that become one on a phone, notices, tables. */
import { css } from "lit";

/** A heading with what is chosen, said or done beside it. */
export const headStyles = css`
  h2 {
    font-size: var(--type-20);
    font-weight: 650;
  }
  .head {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.5rem;
  }
  .head.apart {
    justify-content: space-between;
  }
  /* over what is not set apart by itself */
  .head.over {
    padding-bottom: 0.75rem;
  }
`;

export const sheetStyles = css`
  ${headStyles}
  :host {
    display: block;
    container: sheet / inline-size;
  }
  main {
    padding: 0.75rem var(--edge) 1.5rem;
  }
  h3 {
    font-size: var(--type-16);
    font-weight: 650;
  }
  .columns {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 1.5rem 2rem;
    align-items: start;
  }
  .stack {
    display: grid;
    gap: 0.75rem;
    min-width: 0;
  }
  .lead {
    font-size: var(--type-20);
    line-height: 1.3;
    text-wrap: pretty;
  }
  .notice {
    display: flex;
    gap: 0.5rem;
    padding: 0.5rem 0.75rem;
    border: 1px solid var(--hairline);
    font-size: var(--type-14);
  }
  .notice.wrong {
    border: 1.5px solid var(--gap);
  }
  .scroll {
    overflow-x: auto;
  }
  table {
    border-collapse: collapse;
    font-size: var(--type-14);
  }
  th {
    font-weight: 600;
    text-align: left;
  }
  td.number,
  th.number {
    text-align: right;
  }
  th,
  td {
    padding: 0.25rem 0.6rem;
    border-bottom: 1px solid var(--hairline);
    vertical-align: top;
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem;
  }
  @container sheet (max-width: 799px) {
    .columns {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;

/** A panel in a sheet: its parts above one another, its columns as wide as the sheet allows. */
export const panelStyles = css`
  ${sheetStyles}
  :host {
    display: grid;
    gap: 0.75rem;
    min-width: 0;
    container: none;
  }
`;
