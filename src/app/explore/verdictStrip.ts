/** The trade's rule beside the model's finding, claim by claim, under one plain sentence. */
import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { verdictBar } from "../../charts/verdictBar.ts";
import type { Finding, Test, Verdict } from "../../study/verdicts.ts";
import { icon } from "../chrome/icon.ts";
import { controls } from "../controls.ts";
import { FrameElement } from "../frameElement.ts";
import { ResultsController, StoreController } from "../store/storeController.ts";
import { headline } from "./headline.ts";
import { Lateness } from "./lateness.ts";
import { patch } from "./patch.ts";
import { zoom } from "./zoom.ts";

const SIGNS: Readonly<Record<Finding, string>> = {
  agrees: "check",
  disagrees: "xmark",
  "agrees in part": "half",
  "not known well enough": "question",
  "too small to feel": "about-equal",
  "not modelled yet": "question",
  "not a question a model can answer": "question",
  "not possible here": "minus",
  "same gap": "equal",
};
const BAR_HEIGHT = 56;

@customElement("annulus-verdicts")
export class VerdictStrip extends FrameElement {
  /** Words and numbers that change more often cannot be read. */
  protected override readonly paceMs = 100;
  readonly #page = new StoreController(this);
  readonly #model = new ResultsController(this);
  readonly #late = new Lateness(() => this.requestUpdate());
  #width = 0;
  #drawn: readonly unknown[] = [];
  readonly #widths = new ResizeObserver(([{ contentRect }]) => {
    const columns = getComputedStyle(this.renderRoot.querySelector(".claims")!).gridTemplateColumns;
    this.#width = Math.floor((Number.parseFloat(columns) || contentRect.width) / zoom());
    this.requestUpdate();
  });

  static override styles = [
    controls,
    css`
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
      .late {
        opacity: 0.4;
      }
      @media print {
        article {
          break-inside: avoid;
        }
      }
    `,
  ];

  protected override news(): readonly unknown[] {
    const { explored, retuned } = this.#model.results;
    const { document, view } = this.#page.state;
    const late = this.#late.isLate(explored);
    return [late, explored.value, retuned.value, document.setup.thresholds, view.unit, this.#width];
  }

  override render() {
    const { explored, retuned } = this.#model.results;
    const { document, view } = this.#page.state;
    const { value } = explored;
    const said =
      value &&
      headline({
        explored: value,
        retuned: retuned.value,
        thresholds: document.setup.thresholds,
        unit: view.unit,
      });
    return html`
      <div class=${this.#late.isLate(explored) ? "late" : ""}>
        <div class="headline" data-testid="headline">
          <p>${said?.change ?? "The first curve is being computed."} ${said?.remains ?? nothing}</p>
          ${said?.finding ? html`<p class="answer">${icon(said.isFelt ? "check" : "about-equal")}${said.finding}</p>` : nothing}
          ${said ? html`<p class="held">${said.heldAgainst}</p>` : nothing}
        </div>
        <div class="claims">${value?.verdicts.map((verdict) => this.#claim(verdict))}</div>
      </div>
    `;
  }

  #claim({ claim, rule, finding, model, tests, missing }: Verdict) {
    return html`
      <article data-testid="verdict-${claim}">
        <h2 class="unseen">${rule}</h2>
        <p class="rule">
          <span class="source">rule of thumb — common practice, no source</span>
          “${rule}”
        </p>
        <p class="finding" data-finding=${finding}>${icon(SIGNS[finding])}<span><small>the model: </small>${finding}</span></p>
        <p class="model">${model}</p>
        ${tests.map(({ name }) => html`<p class="test">${name}</p><div class="bar"></div>`)}
        ${missing ? html`<p class="missing">${missing}</p>` : nothing}
      </article>
    `;
  }

  protected override firstUpdated(): void {
    this.#widths.observe(this.renderRoot.querySelector(".claims")!);
  }

  protected override updated(): void {
    const { unit } = this.#page.state.view;
    const verdicts = this.#model.results.explored.value?.verdicts;
    const inputs = [verdicts, unit, this.#width];
    if (!verdicts || this.#width === 0 || inputs.every((input, i) => input === this.#drawn[i])) return;
    this.#drawn = inputs;
    const tests: Test[] = verdicts.flatMap((verdict) => [...verdict.tests]);
    this.renderRoot.querySelectorAll(".bar").forEach((bar, i) => {
      const { svg } = verdictBar(tests[i], { width: this.#width, height: BAR_HEIGHT, unit });
      if (bar.firstElementChild) patch(bar.firstElementChild, svg);
      else bar.append(svg);
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#widths.disconnect();
    this.#late.stop();
  }
}
