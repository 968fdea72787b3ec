/** What a repairer says before a gap is changed, folded away under its titles, and the cautions that always stand. */
import { css, html, type TemplateResult } from "lit";
import { usualCautions } from "../../../bench/cut/cautions.ts";
import { BENCH_ADVICE } from "../../../words/bench/benchAdvice.ts";
import { CAUTION } from "../../../words/bench/cutCautions.ts";

export const advicePanel = (): TemplateResult => html`
  <section aria-labelledby="advice" data-testid="advice">
    <h2 id="advice">Before a gap is changed</h2>
    <div class="advice">
      ${BENCH_ADVICE.map(
        ({ title, lines }) => html`
          <details>
            <summary>${title}</summary>
            <ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>
          </details>
        `,
      )}
    </div>
    <p class="muted">Common practice, no source. Your own measurement wins over any of it; a qualified repairer has the last word.</p>
  </section>
  <section class="usual" data-testid="usual-cautions">
    <h2>Before any tool touches a mouthpiece</h2>
    <ul>${usualCautions.map((caution) => html`<li>${CAUTION[caution]}</li>`)}</ul>
    <p class="muted">Common practice, no source.</p>
  </section>
`;

export const advicePanelStyles = css`
  .advice {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(min(22rem, 100%), 1fr));
    gap: 0 2rem;
    align-items: start;
    font-size: var(--type-14);
  }
  .advice summary {
    font-weight: 600;
  }
  .advice ul {
    padding-bottom: 0.5rem;
  }
  .usual ul {
    columns: 2 24rem;
    column-gap: 2rem;
    font-size: var(--type-14);
  }
  .usual li {
    break-inside: avoid;
  }
  section > .muted {
    font-size: var(--type-12);
  }
`;
