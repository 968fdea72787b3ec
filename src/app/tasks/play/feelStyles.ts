/** What the sections on slots, resistance and leaps have in common. */
import { css } from "lit";
import { workStyles } from "../../shell/look/workLine.ts";

export const feelStyles = css`
  section {
    display: grid;
    gap: 0.75rem;
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  .words {
    max-width: 80ch;
    text-wrap: pretty;
  }
  .small {
    font-size: var(--type-12);
    color: var(--muted);
    max-width: 80ch;
  }
  .form .small {
    padding-top: 0.25rem;
  }
  .figures {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 1rem 2rem;
    align-items: start;
  }
  ${workStyles}
  .work {
    color: var(--muted);
  }
  .form {
    display: grid;
    grid-template-columns: repeat(auto-fill, minmax(min(14rem, 100%), 1fr));
    gap: 0.75rem 1.5rem;
    align-items: start;
  }
  .form label {
    font-size: var(--type-14);
  }
  .form select {
    display: block;
    width: 100%;
  }
  input[type="range"] {
    display: block;
    width: 100%;
    min-height: var(--touch);
    accent-color: var(--ink);
  }
  summary {
    font-size: var(--type-16);
    font-weight: 650;
    cursor: pointer;
    min-height: var(--touch);
    align-content: center;
  }
  details > * + * {
    margin-top: 0.75rem;
  }
  @container sheet (max-width: 899px) {
    .figures {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    .work {
      display: none;
    }
  }
`;
