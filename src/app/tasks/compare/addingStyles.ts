/** How the ways to take in another candidate are laid out. */
import { css } from "lit";

export const addingStyles = css`
  .adding {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
    gap: 1rem 2rem;
    align-items: start;
  }
  .stack {
    align-content: start;
  }
  .row {
    display: grid;
    grid-template-columns: minmax(8rem, 12rem) minmax(0, 1fr);
    gap: 0.75rem;
    align-items: end;
  }
  label {
    font-size: var(--type-14);
  }
  select {
    display: block;
    width: 100%;
  }
  textarea {
    width: 100%;
    padding: 0.5rem;
    font-family: ui-monospace, monospace;
    font-size: var(--type-14);
    line-height: 1.4;
    color: inherit;
    background: var(--paper);
    border: 1px solid var(--muted);
    border-radius: 3px;
    white-space: pre;
    tab-size: 12;
    resize: vertical;
  }
  .readings {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(13rem, 100%), 1fr));
    gap: 0.6rem 1rem;
    align-items: start;
  }
  .reason {
    display: block;
    font-size: var(--type-12);
    line-height: 1.3;
    color: var(--muted);
    text-wrap: pretty;
  }
  .entries {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(12rem, 100%), 1fr));
    gap: 0.6rem 1rem;
    align-items: start;
  }
  .entries .wide {
    grid-column: 1 / -1;
  }
  ul {
    margin: 0;
    padding-left: 1.1rem;
  }
  .main:not(:disabled) {
    border-color: var(--ink);
    font-weight: 600;
  }
  @container sheet (max-width: 799px) {
    .adding,
    .row {
      grid-template-columns: minmax(0, 1fr);
    }
  }
`;
