import { css } from "lit";

export const figuresStyles = css`
  :host {
    display: grid;
    gap: 0.75rem;
    min-width: 0;
  }
  .head {
    align-items: end;
  }
  label {
    font-size: var(--type-14);
  }
  select {
    display: block;
    max-width: 100%;
  }
  th[scope="row"] {
    font-weight: 400;
    min-width: 9rem;
  }
  th.number {
    min-width: 7rem;
    max-width: 14rem;
    vertical-align: bottom;
  }
  td.number {
    max-width: 16rem;
  }
  .by {
    color: var(--muted);
    white-space: nowrap;
  }
  .felt {
    color: var(--ink);
    font-weight: 600;
    outline: 1px solid var(--ink);
    outline-offset: 1px;
    padding: 0 0.15rem;
    margin-left: 0.25rem;
  }
  .legend {
    padding-top: 0.4rem;
    font-size: var(--type-12);
    color: var(--muted);
  }
`;
