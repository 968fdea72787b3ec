/** How the headline and the claims under it look. */
import { css } from "lit";

export const verdictStyles = css`
  :host {
    display: block;
    min-width: 0;
  }
  h2 {
    font-size: var(--type-16);
    font-weight: 650;
  }
  .headline {
    padding-bottom: 0.75rem;
    border-bottom: 1.5px solid var(--ink);
  }
  .headline p {
    font-size: var(--type-20);
    line-height: 1.3;
    text-wrap: pretty;
  }
  .headline .answer {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    padding-top: 0.25rem;
    font-size: var(--type-28);
    line-height: 1.1;
    font-weight: 700;
    color: var(--gap);
  }
  .headline .holds {
    padding-top: 0.35rem;
    font-size: var(--type-16);
  }
  .headline .held {
    padding-top: 0.25rem;
    font-size: var(--type-12);
    color: var(--muted);
  }
  .claims {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(19rem, 100%), 1fr));
    column-gap: 2rem;
  }
  article {
    padding: 0.6rem 0;
    border-bottom: 1px solid var(--hairline);
  }
  .rule {
    font-size: var(--type-14);
  }
  .source {
    display: block;
    font-size: var(--type-12);
    color: var(--muted);
  }
  .finding {
    display: flex;
    align-items: center;
    gap: 0.4rem;
    padding-top: 0.2rem;
    font-size: var(--type-16);
    font-weight: 700;
  }
  .finding small {
    font-weight: 400;
    font-size: var(--type-12);
    color: var(--muted);
  }
  .model {
    font-size: var(--type-14);
  }
  .player {
    padding-top: 0.35rem;
    font-size: var(--type-14);
    color: var(--measured);
  }
  .player small {
    font-size: var(--type-12);
    color: var(--muted);
  }
  .peaks {
    padding-top: 0.35rem;
    font-size: var(--type-12);
  }
  summary {
    padding-top: 0.25rem;
    font-size: var(--type-12);
    color: var(--muted);
    cursor: pointer;
  }
  @media (max-width: 699px), (pointer: coarse) {
    summary {
      min-height: var(--touch);
      align-content: center;
    }
  }
  .working {
    display: flex;
    align-items: center;
    gap: 0.5rem;
    padding-top: 0.2rem;
    font-size: var(--type-14);
    color: var(--muted);
  }
  progress {
    width: 6rem;
  }
  .missing {
    font-size: var(--type-12);
    color: var(--muted);
  }
  .test {
    font-size: var(--type-12);
    color: var(--muted);
    padding-top: 0.25rem;
  }
  .bar {
    contain: layout style;
  }
  .bar svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
  }
  @media print {
    article {
      break-inside: avoid;
    }
  }
  .others {
    display: grid;
    gap: 0.25rem;
    margin: 0.5rem 0;
    font-size: var(--type-14);
  }
  .others dt {
    margin-top: 0.5rem;
    font-weight: 600;
  }
  .others dd {
    margin: 0;
    max-width: 70ch;
  }
`;
