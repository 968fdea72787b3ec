/** The set-up card: a framed sheet with a warning on top; on paper as many turns on a page as can be read. */
import { css } from "lit";

export const setupCardStyles = css`
  *,
  *::before {
    box-sizing: border-box;
  }
  :host {
    display: block;
    padding: 1rem;
    border: 1.5px solid var(--ink);
    background: var(--paper);
    color: var(--ink);
    font-size: var(--type-14);
    overflow-x: auto;
  }
  h3,
  p {
    margin: 0;
  }
  h3 {
    font-size: var(--type-20);
    font-weight: 650;
  }
  .warning {
    padding: 0.25rem 0.6rem;
    margin-bottom: 0.5rem;
    border: 2px solid var(--gap);
    color: var(--gap);
    font-weight: 650;
  }
  .rules {
    margin: 0.75rem 0;
    padding-left: 1.25rem;
    max-width: 80ch;
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  thead th {
    font-size: var(--type-12);
    font-weight: 600;
    border-bottom: 1.5px solid var(--ink);
  }
  th,
  td {
    padding: 0.35rem 1rem 0.35rem 0;
    text-align: left;
    border-bottom: 1px solid var(--hairline);
  }
  tbody th {
    font-size: var(--type-16);
    font-weight: 650;
    letter-spacing: 0.05em;
  }
  .running {
    display: none;
  }
  .repeat > * {
    border-top: 1.5px solid var(--ink);
  }
  .turn {
    width: 3.5rem;
    color: var(--muted);
  }
  .tick {
    width: 4rem;
    padding-right: 0;
    text-align: center;
  }
  .box {
    display: inline-block;
    width: 1rem;
    height: 1rem;
    border: 1.25px solid var(--ink);
    vertical-align: -0.15em;
  }
  @media (max-width: 699px) {
    th,
    td {
      padding-right: 0.5rem;
    }
    .turn,
    .tick {
      width: auto;
    }
  }
  @media print {
    :host {
      padding: 0;
      border: 0;
      font-size: 11px;
      overflow: visible;
    }
    thead {
      display: table-header-group;
    }
    .running {
      display: table-row;
      color: var(--muted);
    }
    tr {
      break-inside: avoid;
    }
    th,
    td {
      padding-block: 0.2rem;
    }
  }
`;
