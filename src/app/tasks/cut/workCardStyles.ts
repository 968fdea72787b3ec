/** The work card: a framed sheet; on paper close enough to fit one page, on a phone each stage a block of its own. */
import { css } from "lit";

export const workCardStyles = css`
  :host {
    display: block;
    container: card / inline-size;
    padding: 1rem;
    border: 1.5px solid var(--ink);
    background: var(--paper);
    color: var(--ink);
    font-size: var(--type-14);
  }
  h3 {
    font-size: var(--type-20);
    font-weight: 650;
    line-height: 1.2;
  }
  h4 {
    margin: 0;
    font-size: var(--type-14);
    font-weight: 650;
  }
  .names {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    gap: 0.25rem 1.5rem;
    margin: 0.35rem 0 0;
  }
  .names dd {
    min-height: 1.3em;
    font-size: inherit;
    overflow-wrap: anywhere;
  }
  .blank-line {
    border-bottom: 1px solid var(--muted);
  }
  .which,
  .signature {
    display: flex;
    flex-wrap: wrap;
    gap: 0.25rem 1.5rem;
    padding-top: 0.35rem;
  }
  .which > :first-child {
    flex: 2 1 14rem;
  }
  /* a line to write on */
  .write {
    flex: 1 1 9rem;
    border-bottom: 1px solid var(--muted);
    color: var(--muted);
  }
  .doubt {
    margin: 0 0 0.75rem;
    padding: 0.35rem 0.5rem;
    border: 1.5px solid var(--ink);
    font-weight: 650;
  }
  .order {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem 2.5rem;
    margin: 0;
    padding: 0.75rem 0;
  }
  dt {
    font-size: var(--type-12);
    color: var(--muted);
  }
  dd {
    margin: 0;
    font-size: var(--type-20);
    font-weight: 650;
    line-height: 1.2;
  }
  dd.other {
    font-size: var(--type-14);
    font-weight: 400;
  }
  dd.target {
    color: var(--gap);
  }
  table {
    width: 100%;
    border-collapse: collapse;
  }
  thead th {
    font-size: var(--type-12);
    font-weight: 600;
    text-align: left;
    vertical-align: bottom;
    border-bottom: 1.5px solid var(--ink);
  }
  th,
  td {
    padding: 0.35rem 0.6rem 0.35rem 0;
    text-align: left;
    vertical-align: top;
    border-bottom: 1px solid var(--hairline);
  }
  td small {
    display: block;
    font-size: var(--type-12);
    color: var(--muted);
  }
  tbody th {
    font-weight: 650;
    white-space: nowrap;
  }
  .box {
    display: inline-block;
    width: 0.9em;
    height: 0.9em;
    margin-right: 0.5em;
    border: 1.25px solid var(--ink);
    vertical-align: -0.1em;
  }
  .readings {
    white-space: nowrap;
    vertical-align: bottom;
  }
  .blank {
    display: inline-block;
    width: 2.75rem;
    height: 1.6em;
    margin-right: 0.4rem;
    border-bottom: 1px solid var(--muted);
  }
  .words {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 2fr);
    gap: 0.75rem 2rem;
    padding-top: 0.75rem;
  }
  ul {
    margin: 0;
    padding-left: 1.1rem;
  }
  .words section:last-child ul {
    columns: 2 20rem;
    column-gap: 2rem;
  }
  li {
    padding-top: 0.2rem;
    break-inside: avoid;
  }
  footer {
    margin-top: 0.75rem;
    padding-top: 0.5rem;
    border-top: 1.5px solid var(--ink);
    font-weight: 600;
  }
  .signature {
    padding-top: 1.75rem;
    font-weight: 400;
  }
  .signature > :first-child {
    flex-grow: 2;
  }
  @container card (max-width: 799px) {
    .words {
      grid-template-columns: minmax(0, 1fr);
    }
    thead {
      position: absolute;
      width: 1px;
      height: 1px;
      overflow: hidden;
      clip-path: inset(50%);
    }
    tbody,
    tr,
    td,
    tbody th {
      display: block;
    }
    tr {
      padding: 0.5rem 0;
      border-bottom: 1px solid var(--hairline);
    }
    td,
    tbody th {
      padding: 0.15rem 0;
      border: 0;
    }
    td::before {
      content: attr(data-label) ": ";
      color: var(--muted);
    }
    .readings {
      white-space: normal;
    }
    td small {
      display: inline;
      padding-left: 0.4em;
    }
    td.readings::before {
      display: inline-block;
      min-width: 9.5rem;
    }
  }
  @media print {
    :host {
      container: none;
      padding: 0;
      border: 0;
      font-size: 11px;
      line-height: 1.3;
    }
    h3 {
      font-size: 18px;
    }
    h4 {
      font-size: 11px;
    }
    .which,
    .signature {
      gap: 0 1.5rem;
    }
    .order {
      gap: 0 2.5rem;
      padding: 0.6rem 0;
    }
    dd {
      font-size: 16px;
    }
    dd.other,
    dt,
    thead th {
      font-size: 10px;
    }
    th,
    td {
      padding: 0.22rem 0.5rem 0.22rem 0;
    }
    td small {
      font-size: 10px;
    }
    .blank {
      width: 10.5mm;
      height: 5.5mm;
      margin-right: 1.2mm;
    }
    .many th,
    .many td {
      padding-block: 0.08rem;
    }
    .many td small {
      display: inline;
    }
    .many .blank {
      height: 3.8mm;
    }
    .words {
      grid-template-columns: minmax(0, 1fr);
      gap: 0.4rem;
      padding-top: 0.6rem;
      font-size: 10px;
    }
    .words ul,
    .words section:last-child ul {
      columns: 2;
      column-gap: 1.5rem;
    }
    li {
      padding-top: 0.1rem;
    }
    footer {
      break-inside: avoid;
    }
  }
`;
