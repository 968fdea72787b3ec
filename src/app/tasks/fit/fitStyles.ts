import { css } from "lit";

export const fitStyles = css`
  main {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1.5rem;
  }
  .tables {
    display: grid;
    grid-template-columns: minmax(0, 11fr) minmax(0, 13fr);
    gap: 1.5rem 2rem;
    align-items: start;
  }
  .start {
    display: grid;
    gap: 0.75rem;
    max-width: 46rem;
    padding: 1rem;
    border: 1px dashed var(--muted);
  }
  section + section {
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  .about {
    max-width: 105ch;
    color: var(--muted);
    font-size: var(--type-14);
  }
  @container sheet (max-width: 1099px) {
    .tables {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    main {
      gap: 0.75rem;
    }
    .tables,
    .pair,
    .about {
      display: none;
    }
  }
`;
