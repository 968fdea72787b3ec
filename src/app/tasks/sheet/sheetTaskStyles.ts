/** How the task Sheet is laid out: words beside the paper, above one another on a phone. */
import { css } from "lit";

export const sheetTaskStyles = css`
  main {
    display: grid;
    gap: 0.75rem;
  }
  .status {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.25rem;
  }
  .print {
    margin-left: auto;
    border-color: var(--ink);
    font-weight: 600;
  }
  .status {
    min-height: var(--touch);
    font-size: var(--type-14);
  }
  .chart {
    display: inline-flex;
    align-items: center;
    gap: 0.5rem;
    font-size: var(--type-14);
  }
  .notices {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem;
  }
  .notice {
    flex: 1 1 22rem;
    align-items: flex-start;
  }
  .notice button {
    margin-left: 0.5rem;
  }
  a {
    color: inherit;
    text-underline-offset: 0.2em;
  }
  .work {
    display: grid;
    grid-template-columns: minmax(18rem, 1fr) minmax(0, 1.15fr);
    gap: 1.5rem 2rem;
    align-items: start;
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  .words {
    display: grid;
    gap: 1rem;
    min-width: 0;
  }
  .heads {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(10rem, 100%), 1fr));
    gap: 0.75rem 1rem;
    align-items: end;
  }
  .how {
    font-size: var(--type-12);
    color: var(--muted);
    text-wrap: pretty;
  }
  .preview {
    display: grid;
    gap: 0.5rem;
    min-width: 0;
    position: sticky;
    top: 0.75rem;
  }
  .desk {
    min-width: 0;
    max-height: calc(100vh - 4rem);
    overflow: hidden auto;
    scrollbar-width: thin;
  }
  .desk.full {
    overflow: auto;
  }
  .desk:focus-visible {
    outline-offset: -2px;
  }
  .room {
    margin-inline: auto;
    border: 1px solid var(--hairline);
    overflow: hidden;
  }
  annulus-paper {
    transform-origin: 0 0;
  }
  @container sheet (max-width: 899px) {
    .work {
      grid-template-columns: minmax(0, 1fr);
    }
    .preview {
      position: static;
      order: -1;
    }
    .desk {
      max-height: none;
    }
    .print {
      margin-left: 0;
    }
  }
`;
