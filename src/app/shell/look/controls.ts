/** How buttons, fields and switches look everywhere on the page; an element adds these to its own styles. */
import { css } from "lit";

export const controls = css`
  *,
  *::before,
  *::after {
    box-sizing: border-box;
  }
  h1,
  h2,
  h3,
  p,
  figure {
    margin: 0;
  }
  button,
  input,
  select,
  summary {
    font: inherit;
    color: inherit;
  }
  button,
  select,
  summary.button,
  input[type="text"] {
    min-height: var(--touch);
    border: 1px solid var(--hairline);
    border-radius: 3px;
    background: var(--paper);
    padding: 0 0.75rem;
    font-size: var(--type-14);
  }
  button,
  summary.button {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    gap: 0.4em;
    cursor: pointer;
    white-space: nowrap;
    touch-action: manipulation;
  }
  button:hover:not(:disabled),
  summary.button:hover,
  select:hover {
    border-color: var(--ink);
  }
  button:disabled {
    color: var(--muted);
    opacity: 0.55;
    cursor: default;
  }
  button.plain,
  summary.plain {
    border-color: transparent;
    background: none;
  }
  button.square,
  summary.square {
    width: var(--touch);
    padding: 0;
  }
  button[aria-pressed="true"] {
    border-color: var(--ink);
    box-shadow: inset 0 -3px 0 var(--gap);
    font-weight: 600;
  }
  .segments {
    display: inline-flex;
  }
  .segments button {
    border-radius: 0;
    margin-left: -1px;
  }
  .segments button:first-child {
    border-radius: 3px 0 0 3px;
    margin-left: 0;
  }
  .segments button:last-child {
    border-radius: 0 3px 3px 0;
  }
  .segments button[aria-pressed="true"],
  .segments button:hover {
    z-index: 1;
  }
  input[type="text"] {
    border-color: var(--muted);
  }
  progress {
    width: 10rem;
    accent-color: var(--ink);
  }
  .tick {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    min-height: var(--touch);
  }
  .tick input {
    width: 1.15rem;
    height: 1.15rem;
    accent-color: var(--ink);
  }
  :focus-visible {
    outline: 2px solid var(--ink);
    outline-offset: 2px;
  }
  .icon {
    width: 1.25em;
    height: 1.25em;
    flex: none;
  }
  .muted {
    color: var(--muted);
  }
  .unseen {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
  @media print {
    button,
    select,
    input,
    summary,
    .controls {
      display: none !important;
    }
  }
`;
