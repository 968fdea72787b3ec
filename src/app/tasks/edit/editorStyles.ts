import { css } from "lit";

/** The host gives the panel its place and scrolls it; the head stays in sight. */
export const editorStyles = css`
  :host {
    --editor-head: calc(var(--touch) + 0.75rem);
    display: block;
    background: var(--paper);
  }

  :host([hidden]) {
    display: none;
  }

  header {
    position: sticky;
    inset-block-start: 0;
    z-index: 2;
    display: flex;
    align-items: center;
    justify-content: space-between;
    block-size: var(--editor-head);
    padding: 0 0.5rem 0 1rem;
    background: var(--paper);
    border-block-end: 1px solid var(--ink);
  }

  h2 {
    font-size: var(--type-16);
    font-weight: 650;
  }

  h2:focus {
    outline: none;
  }

  annulus-stand-in-choice {
    padding: 0.5rem 1rem;
    border-block-end: 1px solid var(--hairline);
  }

  .parts {
    padding-inline: 1rem;
  }

  .parts > details {
    border-block-end: 1px solid var(--hairline);
  }

  h3 {
    display: inline;
    font-size: var(--type-14);
    font-weight: 650;
  }

  .count {
    margin-inline-start: 0.5rem;
    padding: 0 0.375rem;
    border: 1px solid var(--ink);
    font-size: var(--type-12);
    font-weight: 650;
  }

  .part {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 0.625rem;
    padding-block: 0.125rem 0.875rem;
  }

  .origin {
    margin: -0.375rem 0 0;
    text-align: end;
  }

  .origin select {
    inline-size: auto;
    border-color: transparent;
    font-size: var(--type-12);
  }

  .origin select:hover,
  .origin select:focus-visible {
    border-color: var(--muted);
  }

  .origin .assumed {
    color: var(--muted);
    text-decoration: underline dotted;
    text-underline-offset: 0.2em;
  }

  .gap output {
    color: var(--gap);
    font-weight: 650;
    font-variant-numeric: tabular-nums;
  }

  fieldset {
    display: flex;
    flex-wrap: wrap;
    column-gap: 1.25rem;
    margin: 0;
    padding: 0;
    border: 0;
  }

  legend {
    padding: 0;
  }

  .choice {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    min-block-size: var(--touch);
    cursor: pointer;
  }

  input[type="radio"] {
    inline-size: 1.125rem;
    block-size: 1.125rem;
    margin: 0;
    accent-color: var(--ink);
  }

  .row {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.75rem;
  }

  #file {
    font-family: monospace;
    font-size: var(--type-12);
    white-space: pre;
  }

  @media print {
    :host {
      display: none;
    }
  }
`;
