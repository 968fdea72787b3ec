import { css } from "lit";
import { deepestShade } from "./cellWords.ts";

/** The deepest shade, as CSS. */
const deepest = css`${100 * deepestShade}%`;

export const matrixGridStyles = css`
  .scroll {
    max-height: 75vh;
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
    padding: 0.3rem 0.5rem;
    border-right: 1px solid var(--hairline);
  }
  thead th {
    position: sticky;
    top: 0;
    z-index: 2;
    min-width: 5.4rem;
    background: var(--paper);
    border-bottom: 1.5px solid var(--ink);
    line-height: 1.2;
    vertical-align: bottom;
    overflow-wrap: anywhere;
  }
  tbody th,
  thead .corner {
    position: sticky;
    left: 0;
    z-index: 1;
    min-width: 7rem;
    max-width: 10rem;
    background: var(--paper);
    border-right: 1.5px solid var(--ink);
    overflow-wrap: anywhere;
  }
  thead .corner {
    z-index: 3;
    font-weight: 400;
  }
  td {
    position: relative;
    min-height: var(--touch);
    line-height: 1.25;
    cursor: pointer;
    scroll-margin: 4rem 0.5rem 0.5rem 10rem;
  }
  td.more {
    background: color-mix(in srgb, var(--gap) var(--shade), var(--paper));
  }
  td.less {
    background: color-mix(in srgb, var(--reference) var(--shade), var(--paper));
  }
  td > span:not(.unseen) {
    display: block;
  }
  .figures,
  .difference {
    white-space: nowrap;
  }
  .difference,
  .remark {
    font-size: var(--type-12);
  }
  .u {
    display: inline-block;
    font-size: var(--type-12);
  }
  td.alike {
    box-shadow: inset 0 0 0 1.5px var(--ink);
  }
  td[aria-selected="true"] {
    box-shadow: inset 0 0 0 3.5px var(--ink);
  }
  td:focus-visible {
    outline: 2px solid var(--paper);
    outline-offset: -6px;
    box-shadow: inset 0 0 0 6px var(--ink);
  }
  .legend {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.25rem 0.75rem;
    padding-top: 0.4rem;
    font-size: var(--type-12);
  }
  .scale {
    display: inline-flex;
    align-items: center;
    gap: 0.4rem;
  }
  .shades {
    width: 8rem;
    height: 0.9rem;
    border: 1px solid var(--hairline);
    background: linear-gradient(
      to right,
      color-mix(in srgb, var(--reference) ${deepest}, var(--paper)),
      var(--paper),
      color-mix(in srgb, var(--gap) ${deepest}, var(--paper))
    );
  }
  @media print {
    .scroll {
      max-height: none;
      overflow: visible;
    }
    table {
      table-layout: fixed;
      width: 100%;
    }
    thead th,
    tbody th,
    thead .corner {
      position: static;
      min-width: 0;
    }
    th,
    td {
      padding: 0.15rem 0.25rem;
      font-size: 9px;
      print-color-adjust: exact;
    }
    .figures,
    .difference,
    .remark,
    .u {
      font-size: 9px;
      white-space: normal;
    }
    td[aria-selected="true"]:not(.alike) {
      box-shadow: none;
    }
  }
`;
