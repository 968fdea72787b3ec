/** What was found in a take: the finding first, what to think of it, and what to do with it. */
import { html, nothing, type TemplateResult } from "lit";
import { icon } from "../shell/look/icon.ts";

export interface FoundSection {
  /** Of a file, by its name. */
  readonly file: string | null;
  readonly finding: string | TemplateResult;
  readonly warnings: readonly string[];
  /** What it rests on. */
  readonly basis: unknown;
  /** Of the buttons that decide: keep, drop and what else can be done. */
  readonly decisions: unknown;
}

export const foundSection = ({
  file,
  finding,
  warnings,
  basis,
  decisions,
}: FoundSection): TemplateResult => html`
  <section class="ruled stack" aria-label="What was found">
    <h3>What was found${file ? html` <span class="muted">in ${file}</span>` : nothing}</h3>
    <p class="found" data-testid="found">${finding}</p>
    ${
      warnings.length > 0
        ? html`<ul class="warnings" data-testid="take-warnings">${warnings.map((words) => html`<li class="notice">${icon("warning")}<span>${words}</span></li>`)}</ul>`
        : nothing
    }
    ${basis}
    <div class="decide">${decisions}</div>
  </section>
`;
