import { css } from "lit";

export const partTableStyles = css`
  :host {
    display: grid;
    gap: 0.5rem;
    container-type: normal;
    min-width: 0;
  }
  .scroll {
    /* holds the labels that are not drawn */
    position: relative;
    max-height: 30rem;
    overflow: auto;
    border: 1px solid var(--hairline);
  }
  table {
    border-collapse: separate;
    border-spacing: 0;
    min-width: 100%;
  }
  th,
  td {
    padding: 0;
    border-bottom: 1px solid var(--hairline);
  }
  thead th,
  thead td {
    position: sticky;
    top: 0;
    z-index: 2;
    padding: 0.3rem 0.5rem;
    background: var(--paper);
    border-bottom: 1.5px solid var(--ink);
    font-size: var(--type-12);
    line-height: 1.2;
    vertical-align: bottom;
  }
  td.name,
  thead th.name {
    position: sticky;
    left: 0;
    z-index: 1;
    min-width: 7rem;
    background: var(--paper);
    border-right: 1px solid var(--hairline);
  }
  thead th.name {
    z-index: 3;
  }
  td.dimensions {
    min-width: 5rem;
  }
  td.uncertainties {
    min-width: 4rem;
  }
  td.wrong {
    min-width: 10rem;
    padding: 0.15rem;
  }
  td.name:focus-within {
    z-index: 2;
  }
  abbr {
    text-decoration: none;
    font-style: italic;
  }
  ul {
    margin: 0;
    padding-left: 1.1rem;
  }
  /* the lines of the table are those of its cells */
  annulus-entry {
    --muted: transparent;
  }
  td:not(:last-child) {
    border-right: 1px solid var(--hairline);
  }
  .remove button {
    color: var(--muted);
  }
  /* a mouse points finely: more rows in sight */
  @media (pointer: fine) and (min-width: 700px) {
    table {
      --touch: 1.9rem;
    }
  }
  @container sheet (max-width: 699px) {
    td.name,
    thead th.name {
      min-width: 7rem;
      max-width: 7rem;
    }
  }
`;
