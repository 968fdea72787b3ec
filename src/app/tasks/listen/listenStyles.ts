/** How the listening sheet is laid out, beside what all sheets of takes have. */
import { css } from "lit";

export const listenStyles = css`
  .segments {
    flex-wrap: wrap;
  }
  .live {
    display: grid;
    grid-template-columns: minmax(12rem, 1fr) minmax(0, 2fr);
    gap: 1rem 1.5rem;
    align-items: center;
  }
  .go {
    width: 100%;
    min-height: 5.5rem;
    border: 2px solid var(--ink);
    font-size: var(--type-28);
    font-weight: 650;
    white-space: normal;
  }
  .go.on {
    border-color: var(--measured);
    box-shadow: inset 0 -5px 0 var(--measured);
  }
  .state {
    font-size: var(--type-28);
    font-weight: 650;
    line-height: 1.15;
    min-height: 1.15em;
  }
  .found b {
    color: var(--measured);
  }
  audio {
    width: 100%;
    height: 2.75rem;
  }
  @container sheet (max-width: 699px) {
    .live {
      grid-template-columns: minmax(0, 1fr);
    }
  }
  @media print {
    .live,
    audio,
    annulus-listen-level {
      display: none;
    }
  }
`;
