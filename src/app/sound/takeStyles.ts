/** How the sheets of takes are laid out, beside what all sheets of the bench have: large targets, for hands that hold an instrument. */
import { css } from "lit";

export const takeStyles = css`
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
    max-width: 72ch;
    text-wrap: pretty;
  }
  .pair {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(11rem, 100%), 1fr));
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
    grid-template-columns: repeat(auto-fit, minmax(min(9rem, 100%), 1fr));
    gap: 0.75rem;
  }
  .decide button {
    min-height: 4rem;
    font-size: var(--type-20);
    font-weight: 650;
    white-space: normal;
  }
  .decide .keep {
    border: 2px solid var(--ink);
  }
  @media print {
    .decide {
      display: none;
    }
  }
`;

/** What all takes together say, under a rule, and how. */
export const takenStyles = css`
  section {
    padding-top: 1rem;
    border-top: 1.5px solid var(--ink);
  }
  .finding {
    font-size: var(--type-20);
    line-height: 1.3;
    max-width: 60ch;
    text-wrap: pretty;
  }
  .small {
    font-size: var(--type-14);
    max-width: 72ch;
    text-wrap: pretty;
  }
`;
