/** How the sheet of resonances is laid out, beside what all sheets of the bench have. */
import { css } from "lit";

export const resonancesStyles = css`
  main {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1.5rem;
    padding-top: 1rem;
  }
  section.ruled {
    padding-top: 1rem;
    border-top: 1.5px solid var(--ink);
  }
  .muted,
  .small {
    font-size: var(--type-14);
    max-width: 75ch;
    text-wrap: pretty;
  }
  .cautions {
    gap: 0.5rem;
  }
  .pair {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(12rem, 100%), 1fr));
    gap: 0.75rem 1rem;
    align-items: start;
  }
  label > span {
    display: block;
    font-size: var(--type-14);
  }
  label select {
    width: 100%;
    font-size: var(--type-16);
  }
  .actions {
    display: flex;
    flex-wrap: wrap;
    gap: 0.75rem;
  }
  .found {
    font-size: var(--type-20);
    line-height: 1.3;
    text-wrap: pretty;
  }
  ul.warnings {
    display: grid;
    gap: 0.35rem;
    margin: 0;
    padding: 0;
    list-style: none;
    font-size: var(--type-14);
  }
  .decide {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(14rem, 100%), 1fr));
    gap: 0.75rem;
  }
  .decide button {
    min-height: 4rem;
    font-size: var(--type-16);
    font-weight: 650;
    white-space: normal;
  }
  .decide .keep {
    border: 2px solid var(--ink);
  }
  @media print {
    .decide,
    .actions {
      display: none;
    }
  }
`;
