/** How the sheet of a blind trial is laid out, beside what all sheets of the bench have. */
import { css } from "lit";

export const trialStyles = css`
  main,
  :host(annulus-trial-plan),
  :host(annulus-trial-sealed) {
    display: grid;
    gap: 1.5rem;
  }
  main {
    padding-top: 1rem;
  }
  section.columns + section.columns {
    padding-top: 1.25rem;
    border-top: 1.5px solid var(--ink);
  }
  .intro p {
    color: var(--muted);
  }
  .muted {
    font-size: var(--type-14);
    max-width: 70ch;
    text-wrap: pretty;
  }
  h2 small {
    padding-left: 0.75rem;
    font-size: var(--type-16);
    font-weight: 400;
    color: var(--muted);
  }
  .items {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(12rem, 100%), 1fr));
    gap: 0.75rem 1rem;
    align-items: start;
  }
  .item {
    display: grid;
    grid-template-columns: minmax(0, 1fr) var(--touch);
    align-items: start;
  }
  /* beside the field, under the line of its label */
  .item button {
    margin-top: calc(1.35 * var(--type-14));
  }
  .seal {
    min-height: 2.75rem;
    padding: 0 1.25rem;
    border: 2px solid var(--ink);
    font-size: var(--type-16);
    font-weight: 650;
  }
  .gate {
    max-width: 48rem;
  }
  .gate .notice {
    font-size: var(--type-16);
  }
`;
