/** How the listening sheet is laid out, beside what all sheets of the bench have: large targets, for hands that hold an instrument. */
import { css } from "lit";

export const listenStyles = css`
  main {
    display: grid;
    gap: 1.5rem;
    padding-top: 1rem;
  }
  section.ruled {
    padding-top: 1rem;
    border-top: 1.5px solid var(--ink);
  }
  .muted,
  .small {
    font-size: var(--type-14);
    max-width: 70ch;
    text-wrap: pretty;
  }
  .pair {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(11rem, 100%), 1fr));
    gap: 0.75rem 1rem;
    align-items: start;
  }
  label > span {
    display: block;
    font-size: var(--type-14);
  }
  label select {
    width: 100%;
    font-size: var(--type-16);
  }
  .segments {
    flex-wrap: wrap;
  }
  .live {
    display: grid;
    grid-template-columns: minmax(12rem, 1fr) minmax(0, 2fr);
    gap: 1rem 1.5rem;
    align-items: center;
  }
  .go,
  .decide button {
    min-height: 4rem;
    font-size: var(--type-20);
    font-weight: 650;
    white-space: normal;
  }
  .go {
    width: 100%;
    min-height: 5.5rem;
    border: 2px solid var(--ink);
    font-size: var(--type-28);
  }
  .go.on {
    border-color: var(--measured);
    box-shadow: inset 0 -5px 0 var(--measured);
  }
  .decide {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(9rem, 1fr));
    gap: 0.75rem;
  }
  .decide .keep {
    border: 2px solid var(--ink);
  }
  .state {
    font-size: var(--type-28);
    font-weight: 650;
    line-height: 1.15;
    min-height: 1.15em;
  }
  .found {
    font-size: var(--type-20);
    line-height: 1.3;
    text-wrap: pretty;
  }
  .found b {
    color: var(--measured);
  }
  ul.warnings {
    display: grid;
    gap: 0.35rem;
    margin: 0;
    padding: 0;
    list-style: none;
    font-size: var(--type-14);
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
    .decide,
    audio,
    annulus-listen-level {
      display: none;
    }
  }
`;
