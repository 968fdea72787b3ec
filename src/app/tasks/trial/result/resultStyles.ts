/** The result: a sentence large enough to be read by whoever stands beside, the model's word set apart from it. */
import { css } from "lit";

export const resultStyles = css`
  :host {
    display: grid;
    gap: 1.5rem;
  }
  .finding {
    display: grid;
    grid-template-columns: minmax(0, 2fr) minmax(0, 1fr);
    gap: 1.5rem 2rem;
    align-items: start;
  }
  .sentence {
    font-size: var(--type-28);
    font-weight: 650;
    line-height: 1.2;
    text-wrap: balance;
  }
  .both {
    font-size: var(--type-20);
    color: var(--gap);
    font-weight: 650;
  }
  aside {
    padding-left: 1rem;
    border-left: 3px solid var(--reference);
    font-size: var(--type-14);
  }
  .finding .muted,
  .finding .notice {
    max-width: 70ch;
    text-wrap: pretty;
  }
  .small,
  td small {
    font-size: var(--type-12);
  }
  .small {
    max-width: 90ch;
  }
  td small {
    display: block;
    color: var(--muted);
  }
  .tests {
    min-width: 46rem;
  }
  .turns th,
  .turns td {
    white-space: nowrap;
  }
  .turns td:last-child {
    min-width: 10rem;
    white-space: normal;
  }
  .working {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1rem;
  }
  .segments {
    flex-wrap: wrap;
  }
  @container sheet (max-width: 799px) {
    .finding {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    .scroll {
      overflow: visible;
    }
    .tests {
      min-width: 0;
    }
  }
`;
