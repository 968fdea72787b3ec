/** How a table that was brought is understood: what may be said otherwise, and the lines that cannot be read. */
import { html, nothing, type TemplateResult } from "lit";
import { icon } from "../../shell/look/icon.ts";

/** Further problems are counted: a wrong separator makes one of every line. */
const MOST_SHOWN = 8;

export interface Choice {
  readonly testid: string;
  readonly label: string;
  /** What the person says; empty: as found. */
  readonly said: string;
  readonly asFound: string;
  readonly options: readonly (readonly [value: string, words: string])[];
  /** Why it was found to be so. */
  readonly reason: string;
  readonly say: (value: string) => void;
}

/** What was found stands in the list itself; its reason beside it. */
export const choice = ({
  testid,
  label,
  said,
  asFound,
  options,
  reason,
  say,
}: Choice): TemplateResult => html`
  <label>
    <span>${label}</span>
    <select data-testid=${testid} @change=${(event: Event) => say((event.target as HTMLSelectElement).value)}>
      <option value="" ?selected=${said === ""}>${asFound}</option>
      ${options.map(([value, words]) => html`<option value=${value} ?selected=${said === value}>${words}</option>`)}
    </select>
    <span class="reason">${said === "" ? reason : "as you said"}</span>
  </label>
`;

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
