/** How the sheet of a cut is laid out, beside what all sheets of the bench have. */
import { css } from "lit";

export const cutStyles = css`
  main {
    display: grid;
    gap: 1.25rem;
    padding-top: 1rem;
  }
  main > section {
    display: grid;
    gap: 0.75rem;
    min-width: 0;
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  main > .doubts {
    padding-top: 0;
    border-top: 0;
  }
  a {
    color: inherit;
    text-underline-offset: 0.2em;
  }
  .effect {
    display: grid;
    grid-template-columns: minmax(0, 1fr) max-content;
    gap: 0.25rem 2rem;
    align-items: center;
    padding: 0.75rem 0 0;
    border-top: 1.5px solid var(--ink);
  }
  .effect h2 {
    grid-column: 1 / -1;
  }
  .effect p {
    max-width: 110ch;
    text-wrap: pretty;
  }
  .notice {
    align-items: flex-start;
  }
  .confirm {
    align-items: flex-start;
    padding: 0.75rem 1rem;
    cursor: pointer;
  }
  .confirm input {
    flex: none;
    width: 1.5rem;
    height: 1.5rem;
    margin: 0;
  }
  @container sheet (max-width: 799px) {
    .effect {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
