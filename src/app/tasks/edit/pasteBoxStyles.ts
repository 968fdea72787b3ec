import { css } from "lit";

export const pasteBoxStyles = css`
  :host {
    display: grid;
    gap: 0.25rem;
  }

  details[open] {
    padding-block-end: 0.5rem;
  }

  textarea {
    margin-block: 0.25rem 0.375rem;
    white-space: pre;
    tab-size: 12;
  }

  ul {
    flex: 1 1 100%;
    padding-inline-start: 1.125rem;
  }
`;
