/** What the panel's elements have beyond the page's controls. */
import { css } from "lit";
import { controls } from "../../shell/look/controls.ts";

const additions = css`
  :host {
    font-size: var(--type-14);
  }

  input[type="text"],
  select,
  textarea {
    inline-size: 100%;
    padding: 0.125rem 0.5rem;
    border: 1px solid var(--muted);
    border-radius: 3px;
    color: inherit;
    background: transparent;
    font-family: inherit;
    font-size: max(1em, var(--field-type, 1em));
    font-variant-numeric: tabular-nums;
  }

  select {
    padding-inline: 0.25rem;
  }

  option {
    color: var(--ink);
    background: var(--paper);
  }

  textarea {
    display: block;
    padding-block: 0.375rem;
    line-height: inherit;
    resize: vertical;
  }

  /* an outline, so that nothing moves; the sign before the words says the same */
  [aria-invalid="true"]:not(:focus-visible) {
    outline: 2px solid var(--gap);
    outline-offset: -2px;
  }

  summary {
    min-block-size: var(--touch);
    align-content: center;
    cursor: pointer;
  }

  ul {
    margin: 0;
  }

  .hint {
    color: var(--muted);
    font-size: var(--type-12);
    line-height: 1.3;
  }

  .problem {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.375rem 0.75rem;
    padding: 0.25rem 0 0.25rem 0.625rem;
    border-inline-start: 3px solid var(--gap);
    overflow-wrap: anywhere;
  }

  .problem > p {
    flex: 1 1 100%;
  }

  .problem .icon {
    vertical-align: text-bottom;
    color: var(--gap);
  }

  @media (pointer: coarse), (max-width: 699px) {
    :host {
      /* smaller, and phones zoom in on a field */
      --field-type: 16px;
    }
  }
`;

export const editControls = [controls, additions];
