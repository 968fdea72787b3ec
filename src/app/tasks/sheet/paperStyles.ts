/** How what stands on a page of the report looks: its head, gaps, figures, verdicts, paragraphs, questions. */
import { css } from "lit";

export const paperStyles = css`
  article {
    display: flex;
    flex-direction: column;
    gap: var(--space);
    line-height: var(--leading);
    pointer-events: none;
  }
  .refusal {
    font-size: 14pt;
  }
  figure > svg {
    display: block;
    width: 100%;
    height: auto;
    overflow: visible;
  }
  h1 {
    font-size: 15pt;
    font-weight: 650;
    line-height: 1.15;
  }
  h2 {
    font-size: var(--text);
    font-weight: 650;
  }
  header {
    display: grid;
    grid-template-columns: minmax(0, 1fr) max-content;
    gap: 2px 24px;
    padding-bottom: var(--space);
    border-bottom: 1.5px solid var(--ink);
  }
  dl,
  dd,
  ul,
  ol {
    margin: 0;
  }
  .running {
    color: var(--muted);
    align-items: baseline;
  }
  .running b {
    color: var(--ink);
  }
  header dl {
    font-size: 9.5pt;
    display: grid;
    grid-template-columns: repeat(2, max-content minmax(86px, max-content));
    gap: 1px 8px;
    align-content: start;
    max-width: 110mm;
  }
  header dt,
  .gaps dt,
  caption {
    color: var(--muted);
  }
  header dd {
    overflow-wrap: anywhere;
  }
  .write {
    border-bottom: 0.75px solid var(--muted);
  }
  .gaps {
    display: grid;
    grid-template-columns: repeat(2, max-content);
    gap: 0 48px;
  }
  .gaps dd {
    font-size: 24pt;
    font-weight: 700;
    line-height: 1.1;
    letter-spacing: -0.01em;
  }
  .gaps dd.other {
    font-size: 12pt;
    font-weight: 600;
    letter-spacing: 0;
  }
  .doubt {
    padding: 2px 6px;
    border: 1px solid var(--ink);
    font-weight: 600;
  }
  .recommended dd {
    color: var(--gap);
  }
  /* the paragraph whose words are being written */
  .edited {
    outline: 1.5px dashed var(--gap);
    outline-offset: 2px;
  }
  .short {
    white-space: nowrap;
  }
  /* its topmost note stands over its edge */
  .cutaway {
    padding-block: 14px 6px;
  }
  .front header p {
    font-size: 10.5pt;
  }
  .paragraph > h2,
  .paragraph > p {
    display: inline;
  }
  .waiting {
    color: var(--muted);
    font-style: italic;
  }
  .model {
    display: grid;
    grid-template-columns: 262px minmax(0, 1fr);
    gap: 0 20px;
    align-items: start;
  }
  table {
    width: 100%;
    border-collapse: collapse;
    line-height: 1.22;
  }
  caption {
    text-align: left;
    padding-bottom: 2px;
  }
  th,
  td {
    padding: 1px 0 1px 6px;
    font-weight: 400;
    text-align: right;
    vertical-align: bottom;
    border-bottom: 0.75px solid var(--hairline);
  }
  thead th {
    border-bottom: 1px solid var(--ink);
    line-height: 1.1;
  }
  tr > :first-child {
    padding-left: 0;
    text-align: left;
  }
  tbody th {
    font-weight: 650;
  }
  .verdicts {
    display: grid;
    grid-template-columns: repeat(3, minmax(0, 1fr));
    gap: 0 20px;
    padding-top: var(--space);
    border-top: 0.75px solid var(--hairline);
  }
  .verdict h2 {
    position: absolute;
    width: 1px;
    height: 1px;
    overflow: hidden;
    clip-path: inset(50%);
  }
  .verdict figure {
    padding-bottom: 3px;
  }
  .rule {
    min-height: 2lh;
    font-style: italic;
  }
  .advice {
    display: grid;
    grid-template-columns: repeat(2, minmax(0, 1fr));
    gap: 0 20px;
    padding: var(--space) 10px;
    border: 1.5px solid var(--gap);
  }
  ul {
    padding-left: 12px;
    columns: 2;
    column-gap: 20px;
  }
  li {
    break-inside: avoid;
  }
  /* points run on where there is no room for lines of their own */
  :is([data-density="4"], [data-density="5"]) .paragraph :is(ul, li) {
    display: inline;
    padding: 0;
  }
  :is([data-density="4"], [data-density="5"]) .paragraph li + li::before {
    content: " • ";
  }
  footer {
    margin-top: auto;
    padding-top: var(--space);
    border-top: 0.75px solid var(--hairline);
    color: var(--muted);
    font-size: 9pt;
    line-height: 1.2;
  }
  .record {
    display: flex;
    justify-content: space-between;
    gap: 16px;
  }
  .class h1 {
    font-size: 24pt;
  }
  .class p {
    font-size: 12pt;
    align-self: end;
  }
  ol {
    padding-left: 1.3em;
    font-size: var(--sentence);
    line-height: 1.28;
  }
  ol li::marker {
    color: var(--gap);
    font-weight: 700;
  }
  ol li + li {
    margin-top: 0.25em;
  }
  .questions {
    padding-top: var(--space);
    border-top: 0.75px solid var(--hairline);
  }
  .questions h2,
  .questions ol {
    font-size: 12pt;
  }
  .questions li + li {
    margin-top: 0;
  }
  ol.answers {
    padding-top: 1em;
    font-size: 14pt;
  }
  .answers li + li {
    margin-top: 1em;
  }
`;
