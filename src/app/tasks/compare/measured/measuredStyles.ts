import { css } from "lit";

export const measuredStyles = css`
  .charts {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 1rem 2rem;
  }
  p {
    max-width: 80ch;
    text-wrap: pretty;
  }
  .unknowns {
    display: flex;
    flex-wrap: wrap;
    gap: 0 1.25rem;
    font-size: var(--type-14);
  }
  fieldset {
    border: 0;
    margin: 0;
    padding: 0;
    min-width: 0;
  }
  legend {
    padding: 0;
    font-size: var(--type-14);
  }
  td.number {
    white-space: nowrap;
  }
  @media print {
    .entries,
    .asking {
      display: none;
    }
  }
  @container sheet (max-width: 899px) {
    .charts {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
