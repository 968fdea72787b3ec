/** Paragraphs on paper: the words with their figures in them. */
import { html, nothing, type TemplateResult } from "lit";
import type { Paragraph } from "../../../study/report/sheetParagraphs.ts";
import type { Filled, Piece } from "../../../words/report/sheetWords.ts";

export const HEADINGS: Readonly<Record<Paragraph, string>> = {
  measured: "Measured",
  trial: "Blind trial",
  answer: "Found",
  recommendation: "Recommendation",
  reverse: "Can it be undone?",
  found: "Note by note",
  slots: "Firmer slots?",
  resistance: "More resistance?",
  noGap: "Freer without a gap?",
  origins: "Where the numbers come from",
  cautions: "Cautions",
  method: "Method",
  first: "First sentence",
  second: "Second sentence",
  third: "Third sentence",
};

/** A figure no longer than this stays on one line. */
const SHORT = 24;

export const pieces = (line: readonly Piece[]): unknown =>
  line.map((piece) =>
    typeof piece === "string"
      ? piece
      : html`<span class="${piece.isWaiting ? "waiting" : ""} ${piece.text.length <= SHORT ? "short" : ""}" data-figure=${piece.name}>${piece.text}</span>`,
  );

/** A heading and its lines; one that was emptied is left out, heading and all. */
export const paragraph = (name: Paragraph, { lines }: Filled, heading = HEADINGS[name]): unknown =>
  lines.length === 0
    ? nothing
    : html`
        <section class="paragraph ${name}" data-paragraph=${name}>
          <h2>${heading}${heading.endsWith("?") ? " " : ". "}</h2>
          ${lines.length === 1 ? html`<p>${pieces(lines[0])}</p>` : list(lines)}
        </section>
      `;

const list = (lines: Filled["lines"]): TemplateResult =>
  html`<ul>${lines.map((line) => html`<li>${pieces(line)}</li>`)}</ul>`;
