/** How the form of readings and tools looks: rows of a number, a text and a way to take it out. */
import { css } from "lit";

export const formStyles = css`
  .lengths {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 1rem 1.5rem;
    align-items: start;
  }
  h3 small {
    display: block;
    font-size: var(--type-12);
    font-weight: 400;
    color: var(--muted);
  }
  ol {
    display: grid;
    gap: 0.25rem;
    margin: 0.4rem 0;
    padding: 0;
    list-style: none;
  }
  li.reading {
    display: grid;
    grid-template-columns: 1.4rem minmax(0, 1fr) var(--touch);
    align-items: start;
    column-gap: 0.25rem;
  }
  .ordinal {
    line-height: var(--touch);
    font-size: var(--type-14);
    text-align: right;
    padding-right: 0.3rem;
    color: var(--muted);
  }
  .apart {
    grid-column: 2 / -1;
    display: flex;
    gap: 0.35rem;
    font-size: var(--type-12);
    color: var(--gap);
  }
  .apart::before {
    content: "◇";
    font-weight: 700;
  }
  .mean {
    min-height: 1.35em;
    padding-left: 1.65rem;
    font-size: var(--type-14);
  }
  .how {
    font-size: var(--type-12);
    color: var(--muted);
  }
  .tick {
    font-size: var(--type-14);
  }
  .tool {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    align-items: end;
    gap: 0.5rem 1rem;
  }
  .tool annulus-entry {
    align-self: start;
  }
  .printed {
    display: none;
  }
  @container sheet (max-width: 520px) {
    .lengths,
    .tool {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    .lengths {
      grid-template-columns: 1fr 1fr;
    }
    li.reading {
      align-items: center;
    }
    .printed {
      display: block;
      font-size: var(--type-14);
    }
    .tool,
    li.blank,
    .how,
    .tick {
      display: none;
    }
    .ordinal {
      line-height: inherit;
    }
  }
`;
