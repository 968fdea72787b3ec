/** How a chart stands on the page, with what is said and offered under it. */
import { css } from "lit";

export const chartStyles = css`
  :host {
    display: block;
    min-width: 0;
  }
  figure {
    position: relative;
    display: flex;
    flex-direction: column;
  }
  .place {
    position: relative;
  }
  /* its size is given, so that what changes inside moves nothing outside */
  .place > .drawing {
    contain: size layout style;
    touch-action: pan-y pinch-zoom;
    user-select: none;
    -webkit-user-select: none;
  }
  .drawing svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
  }
  /* pixels of its own: thousands of strokes are not painted again because one curve moves over them */
  .drawing .still {
    will-change: transform;
  }
  .late .place > .drawing {
    opacity: 0.4;
  }
  .foot {
    display: flex;
    align-items: flex-start;
    justify-content: space-between;
    gap: 0.5rem;
  }
  /* on a projector a line under it says what it is */
  .foot.unshown {
    display: none;
  }
  figcaption {
    flex: 1;
    padding-top: 0.25rem;
    font-size: var(--type-14);
    color: var(--muted);
    max-width: 70ch;
    text-wrap: pretty;
  }
  .switches {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem;
  }
  ::slotted(label) {
    font-size: var(--type-14);
  }
  .words {
    font-size: var(--type-14);
    max-width: 70ch;
    padding: 0.5rem 0.75rem;
    border-left: 3px solid var(--hairline);
  }
  .waiting {
    display: grid;
    place-items: center;
    color: var(--muted);
    font-size: var(--type-14);
    border: 1px dashed var(--hairline);
  }
  @media print {
    :host {
      break-inside: avoid;
    }
    annulus-chart-menu {
      display: none;
    }
    .place > .drawing {
      contain: none;
      height: auto !important;
    }
  }
`;
