import { css } from "lit";

export const profileTableStyles = css`
  :host {
    display: block;
  }

  .tools {
    position: sticky;
    inset-block-start: var(--editor-head, 0);
    z-index: 1;
    display: flex;
    flex-wrap: wrap;
    gap: 0.375rem;
    padding-block: 0.375rem;
    background: var(--paper);
    border-block-end: 1px solid var(--hairline);
  }

  .tools > button {
    padding-inline: 0.625rem;
  }

  .tools > p,
  .tools > .problem {
    flex: 1 1 100%;
  }

  table {
    inline-size: 100%;
    border-collapse: collapse;
    font-variant-numeric: tabular-nums;
  }

  th {
    color: var(--muted);
    font-weight: 400;
    text-align: end;
  }

  thead th {
    padding: 0.375rem 0.5rem;
    white-space: nowrap;
  }

  th:first-child {
    inline-size: 2.75rem;
    padding-inline: 0 0.5rem;
  }

  td {
    padding: 0;
    border: 1px solid var(--hairline);
  }

  td:empty {
    border: 0;
  }

  td input[type="text"] {
    display: block;
    min-block-size: 1.875rem;
    min-height: 0;
    border: 0;
    border-radius: 0;
    text-align: end;
    /* clear of the head and the tools that stay in sight */
    scroll-margin-block: 8rem 2rem;
  }

  td .problem {
    margin: 0.25rem 0.375rem;
  }

  tr:focus-within > th {
    color: var(--ink);
    font-weight: 700;
  }

  td input:focus-visible {
    outline-offset: -1px;
  }

  @media (pointer: coarse) {
    td input[type="text"] {
      min-block-size: 44px;
    }
  }
`;
