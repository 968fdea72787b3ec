/** How the measuring sheet is laid out, and its result: form beside result, the gap at the top of a phone while readings are typed. */
import { css } from "lit";

export const measureStyles = css`
  main {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    grid-template-rows: auto auto 1fr;
    grid-template-areas: "intro intro" "form value" "form details" "charts charts" "guide guide";
    gap: 1rem 2.5rem;
  }
  .intro {
    grid-area: intro;
  }
  .intro p {
    color: var(--muted);
    text-wrap: pretty;
  }
  .form {
    grid-area: form;
    align-self: start;
    gap: 0.75rem;
  }
  .value {
    grid-area: value;
  }
  .details {
    grid-area: details;
  }
  .charts {
    grid-area: charts;
    padding-top: 1rem;
    border-top: 1.5px solid var(--ink);
  }
  annulus-measure-guide {
    grid-area: guide;
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  .big {
    display: flex;
    flex-wrap: wrap;
    align-items: baseline;
    column-gap: 0.6rem;
    font-size: var(--type-44);
    font-weight: 700;
    line-height: 1.05;
    letter-spacing: -0.01em;
    color: var(--gap);
  }
  .big span {
    font-size: var(--type-28);
    letter-spacing: 0;
    white-space: nowrap;
  }
  .other {
    font-size: var(--type-20);
    font-weight: 600;
    color: var(--gap);
  }
  .compared {
    padding-top: 0.25rem;
    font-size: var(--type-14);
    color: var(--reference);
  }
  .waiting ol {
    list-style: decimal;
    padding-left: 1.5rem;
    font-size: var(--type-16);
  }
  a {
    color: inherit;
    text-underline-offset: 0.2em;
  }
  .details a {
    display: inline-flex;
    align-items: center;
    min-height: var(--touch);
    font-size: var(--type-14);
  }
  .advice {
    display: grid;
    gap: 0.4rem;
    margin: 0;
    padding: 0;
    list-style: none;
  }
  dl {
    display: grid;
    grid-template-columns: max-content minmax(0, 1fr);
    gap: 0.15rem 1rem;
    margin: 0;
    font-size: var(--type-14);
  }
  dt {
    color: var(--muted);
  }
  dd {
    margin: 0;
  }
  .share {
    display: flex;
    align-items: center;
    justify-content: flex-end;
    white-space: nowrap;
  }
  .share b {
    min-width: 3.2em;
    font-weight: inherit;
  }
  .track {
    flex: none;
    width: 4.5rem;
    height: 0.55rem;
    background: var(--feel);
  }
  .track span {
    display: block;
    height: 100%;
    background: var(--ink);
  }
  .budget {
    width: 100%;
  }
  .budget caption {
    padding-bottom: 0.25rem;
    text-align: left;
    font-size: var(--type-14);
    font-weight: 650;
  }
  .use {
    border-color: var(--gap);
    border-width: 1.5px;
    font-weight: 650;
  }
  @container sheet (max-width: 799px) {
    main {
      grid-template-columns: minmax(0, 1fr);
      grid-template-areas: "intro" "value" "form" "details" "charts" "guide";
    }
    /* in sight while the readings under it are typed */
    .value.known {
      position: sticky;
      top: 0;
      z-index: 15;
      margin: 0 calc(-1 * var(--edge));
      padding: 0.4rem var(--edge) 0.5rem;
      background: var(--paper);
      border-bottom: 1.5px solid var(--ink);
    }
    .big {
      font-size: var(--type-28);
    }
    .big span {
      font-size: var(--type-20);
    }
    .other {
      font-size: var(--type-16);
    }
  }
  @container sheet (max-width: 520px) {
    .track {
      display: none;
    }
    th,
    td {
      padding: 0.25rem 0.3rem;
    }
  }
  @media print {
    main {
      --touch: 1.6rem;
      grid-template-columns: 5fr 7fr;
      grid-template-areas: "intro intro" "form value" "form details" "charts charts";
      gap: 0.75rem 1.5rem;
    }
    .value.known {
      position: static;
      margin: 0;
      padding: 0;
      border: 0;
    }
    /* readings, result and drawings then fit a page */
    .charts {
      width: 75%;
      row-gap: 0.5rem;
    }
    .budget tbody th {
      white-space: nowrap;
    }
    .budget th,
    .budget td {
      padding: 0.15rem 0.4rem;
    }
    annulus-measure-guide {
      display: none;
    }
    .track span {
      print-color-adjust: exact;
    }
  }
`;
