/** What is wrong with a table that was brought, line by line. */
import { html, nothing } from "lit";
import { icon } from "../../shell/look/icon.ts";

/** Further problems are counted: a wrong separator makes one of every line. */
const MOST_SHOWN = 8;

export function problemList(problems: readonly string[], words: string, testid: string) {
  if (problems.length === 0) return nothing;
  const more = problems.length - MOST_SHOWN;
  return html`
    <div class="notice wrong" role="alert" data-testid=${testid}>
      ${icon("warning")}
      <div>
        <p>${words}</p>
        <ul>${problems.slice(0, MOST_SHOWN).map((problem) => html`<li>${problem}</li>`)}</ul>
        ${more > 0 ? html`<p>And ${more} more.</p>` : nothing}
      </div>
    </div>
  `;
}
