/** A page of paper, on a screen of either theme and in print: its own palette, its own type in points, closer where there is more on it. */
import { css, unsafeCSS } from "lit";
import { properties } from "../../shell/look/theme.ts";
import { MARGIN_MM } from "./paperSize.ts";

/** Between two pages on the screen, px. */
export const BETWEEN_PAGES = 20;

export const pageStyles = css`
  :host {
    ${unsafeCSS(properties("print"))}
    color-scheme: light;
    display: block;
    position: relative;
    width: max-content;
    color: var(--ink);
  }
  .page {
    --text: 9.75pt;
    --leading: 1.34;
    --space: 9px;
    --sentence: 18pt;
    box-sizing: border-box;
    padding: ${MARGIN_MM}mm;
    background: var(--paper);
    font-size: var(--text);
    line-height: var(--leading);
    overflow: hidden;
  }
  .page + .page {
    margin-top: ${BETWEEN_PAGES}px;
  }
  @media print {
    .page + .page {
      margin-top: 0;
      break-before: page;
    }
  }
  .page[data-density="1"] {
    --text: 9.5pt;
    --space: 8px;
  }
  .page[data-density="2"] {
    --text: 9.5pt;
    --leading: 1.28;
    --space: 7px;
    --sentence: 17pt;
  }
  .page[data-density="3"] {
    --text: 9.25pt;
    --leading: 1.26;
    --space: 6px;
    --sentence: 16pt;
  }
  .page[data-density="4"] {
    --text: 9pt;
    --leading: 1.22;
    --space: 5px;
    --sentence: 14.5pt;
  }
  .page[data-density="5"] {
    --text: 9pt;
    --leading: 1.18;
    --space: 4px;
    --sentence: 13pt;
  }
  /* what a player reads is larger */
  .front {
    --text: 12pt;
    --leading: 1.4;
    --space: 13px;
  }
  .front[data-density="1"] {
    --text: 11.75pt;
    --space: 12px;
  }
  .front[data-density="2"] {
    --text: 11.5pt;
    --leading: 1.36;
    --space: 11px;
  }
  .front[data-density="3"] {
    --text: 11pt;
    --leading: 1.34;
    --space: 10px;
  }
  .front[data-density="4"] {
    --text: 10.5pt;
    --leading: 1.3;
    --space: 8px;
  }
  .front[data-density="5"] {
    --text: 10pt;
    --leading: 1.26;
    --space: 6px;
  }
`;
