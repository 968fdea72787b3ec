import { css } from "lit";

export const jobListStyles = css`
  :host {
    display: block;
    container: list / inline-size;
  }
  .asked {
    display: flex;
    flex-wrap: wrap;
    align-items: end;
    gap: 0.5rem 1rem;
    margin-bottom: 0.5rem;
  }
  .asked annulus-entry {
    flex: 1 1 16rem;
    max-width: 28rem;
  }
  .asked label {
    display: grid;
    font-size: var(--type-14);
  }
  .count {
    margin-left: auto;
    line-height: var(--touch);
    font-size: var(--type-14);
    color: var(--muted);
  }
  .heads,
  .line {
    display: grid;
    grid-template-columns:
      minmax(12rem, 2.2fr) minmax(6rem, 1fr) minmax(9rem, 1.6fr) 5.5rem 9.5rem minmax(7rem, 1.2fr)
      max-content;
    gap: 0 1rem;
    align-items: center;
  }
  .heads {
    padding: 0 0 0.25rem 0.6rem;
    border-bottom: 1.5px solid var(--ink);
    font-size: var(--type-12);
    color: var(--muted);
  }
  .heads span:last-child {
    width: var(--touch);
  }
  lit-virtualizer {
    display: block;
  }
  .row {
    width: 100%;
    padding-left: 0.6rem;
    border-bottom: 1px solid var(--hairline);
    font-size: var(--type-14);
  }
  .row.open {
    box-shadow: inset 3px 0 0 var(--gap);
  }
  .line {
    min-height: calc(var(--touch) + 0.5rem);
    padding: 0.2rem 0;
  }
  .line > * {
    min-width: 0;
    overflow-wrap: anywhere;
  }
  .name {
    min-height: var(--touch);
    padding: 0;
    border: 0;
    background: none;
    font-size: var(--type-16);
    font-weight: 600;
    text-align: left;
    white-space: normal;
    overflow-wrap: anywhere;
  }
  button.name:hover {
    text-decoration: underline;
    text-underline-offset: 0.2em;
  }
  .title {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0 0.6rem;
  }
  .mark {
    font-size: var(--type-12);
    color: var(--gap);
  }
  .mark.plain,
  .changed,
  .holds,
  .what {
    color: var(--muted);
  }
  .what {
    display: none;
  }
  .heads .gap,
  .gap {
    text-align: right;
  }
  .more {
    display: grid;
    gap: 0.75rem;
    padding: 0.25rem 0.6rem 0.9rem 0;
    --field-least: 20%;
  }
  .none {
    padding: 1rem 0.6rem;
    color: var(--muted);
  }
  @container list (max-width: 859px) {
    .heads {
      display: none;
    }
    lit-virtualizer {
      border-top: 1.5px solid var(--ink);
    }
    .line {
      display: flex;
      flex-wrap: wrap;
      gap: 0 0.75rem;
      padding-bottom: 0.5rem;
    }
    .line > .title {
      flex: 1 1 calc(100% - 5rem);
    }
    /* under the title and the button beside it */
    .line > :not(.title, .do) {
      order: 1;
    }
    .line > :empty {
      display: none;
    }
    .what {
      display: inline;
    }
    .gap {
      text-align: left;
    }
  }
  @media print {
    .asked,
    .more {
      display: none;
    }
    .line button.name {
      display: inline !important;
    }
    .row {
      break-inside: avoid;
    }
  }
`;
